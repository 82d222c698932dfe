/** A client that asks for diagnostics: what it is handed, and when it is told to ask again. */

import { afterEach, beforeEach, expect, test } from "vitest";
import type { DocumentDiagnosticReport, WorkspaceDiagnosticReport } from "vscode-languageserver/node";
import { bundleServer, type Client, connect, type Folder, makeFolder } from "./client";
import { find, MACHINE, PROCEDURE } from "./texts";

let client: Client;
let folder: Folder;

beforeEach(async () => {
  await bundleServer();
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  client = await connect(
    {
      textDocument: { diagnostic: { dynamicRegistration: false } },
      workspace: {
        diagnostics: { refreshSupport: true },
        didChangeWatchedFiles: { dynamicRegistration: true },
      },
    },
    [folder.uri("")],
  );
});

afterEach(async () => {
  expect(client.published).toEqual([]);
  expect(await client.stop()).toBe(0);
  expect(client.errors()).toBe("");
  folder.dispose();
});

const pull = (file: string, previousResultId?: string): Promise<DocumentDiagnosticReport> =>
  client.connection.sendRequest("textDocument/diagnostic", {
    textDocument: { uri: folder.uri(file) },
    previousResultId,
  });

const pullAll = (
  previousResultIds: readonly { uri: string; value: string }[],
): Promise<WorkspaceDiagnosticReport> =>
  client.connection.sendRequest("workspace/diagnostic", { previousResultIds });

test("offers to be asked, and asks for files to be watched", async () => {
  expect(client.greeting.capabilities.diagnosticProvider).toMatchObject({
    interFileDependencies: true,
    workspaceDiagnostics: true,
  });
  await pull("cover.torquil");
  expect(JSON.stringify(client.asked)).toContain("**/torquil.json");
});

test("a report, the same again, and a new one after a change", async () => {
  await client.open(folder.uri("cover.torquil"), PROCEDURE);
  const first = await pull("cover.torquil");
  expect(first).toMatchObject({ kind: "full", items: [] });
  expect(await pull("cover.torquil", first.resultId)).toEqual({
    kind: "unchanged",
    resultId: first.resultId,
  });
  const { line, from, to } = find(PROCEDURE, "wrench\n".trim());
  await client.change(folder.uri("cover.torquil"), 2, { line, from, to, text: "spanner" });
  const second = await pull("cover.torquil", first.resultId);
  expect(second.kind).toBe("full");
  expect(second.resultId).not.toBe(first.resultId);
  expect(second.kind === "full" ? second.items.map((d) => d.code) : []).toContain("unknown-name");
});

test("an edit that changes another file's findings tells the client to ask again, one that does not is silent", async () => {
  await client.open(folder.uri("cover.torquil"), PROCEDURE);
  await client.open(folder.uri("wren-4.torquil"), MACHINE);
  await pull("cover.torquil");
  await pull("wren-4.torquil");
  const refreshes = (): number =>
    client.asked.filter((a) => a.method === "workspace/diagnostic/refresh").length;
  const { line, from, to } = find(MACHINE, "Cover bolts");
  await client.change(folder.uri("wren-4.torquil"), 2, { line, from, to, text: "Bolts" });
  await pull("wren-4.torquil");
  // Whatever is to be said of a change is said before the second answer after it.
  await pull("wren-4.torquil");
  expect(refreshes()).toBe(0);
  const name = find(MACHINE, "cover-bolts");
  await client.change(folder.uri("wren-4.torquil"), 3, {
    line: name.line,
    from: name.from,
    to: name.to,
    text: "lid-bolts",
  });
  await expect.poll(refreshes).toBe(1);
  const now = await pull("cover.torquil");
  expect(now.kind === "full" ? now.items.map((d) => d.code) : []).toContain("unknown-name");
});

test("the whole workspace, also files that are not open; then only what has changed", async () => {
  folder.write(
    "other.torquil",
    PROCEDURE.replace("cover-off", "cover-on").replaceAll("cover-bolts", "lid-bolts"),
  );
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: folder.uri("other.torquil"), type: 1 }],
  });
  const { items } = await pullAll([]);
  const of = (file: string): (typeof items)[number] | undefined =>
    items.find((i) => i.uri === folder.uri(file));
  expect(of("cover.torquil")).toMatchObject({ kind: "full", items: [] });
  const other = of("other.torquil");
  expect(other?.kind === "full" ? other.items.length : 0).toBeGreaterThan(0);
  const ids = items.map((i) => ({ uri: i.uri, value: i.resultId ?? "" }));
  const again = await pullAll(ids);
  expect(new Set(again.items.map((i) => i.kind))).toEqual(new Set(["unchanged"]));
  folder.remove("other.torquil");
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: folder.uri("other.torquil"), type: 3 }],
  });
  const gone = (await pullAll(ids)).items.find((i) => i.uri === folder.uri("other.torquil"));
  expect(gone).toMatchObject({ kind: "full", items: [] });
});
