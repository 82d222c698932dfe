/** A client that is sent diagnostics: what it gets, when, and what else it can ask. */

import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type {
  CodeAction,
  CompletionList,
  DocumentSymbol,
  FoldingRange,
  Hover,
  Location,
  TextEdit,
} from "vscode-languageserver/node";
import { bundleServer, type Client, connect, type Folder, makeFolder } from "./client";
import { find, MACHINE, PROCEDURE } from "./texts";

let client: Client;
let folder: Folder;

beforeAll(async () => {
  await bundleServer();
});

async function start(files: Readonly<Record<string, string>> = {}): Promise<void> {
  folder = makeFolder({
    "torquil.json": "{}",
    "wren-4.torquil": MACHINE,
    "cover.torquil": PROCEDURE,
    ...files,
  });
  client = await connect(
    {
      textDocument: {
        publishDiagnostics: { relatedInformation: true },
        hover: { contentFormat: ["markdown", "plaintext"] },
      },
    },
    [folder.uri("")],
  );
}

afterEach(async () => {
  expect(await client.stop()).toBe(0);
  folder.dispose();
});
afterAll(() => expect(client.errors()).toBe(""));

const codes = (found: readonly { code?: string | number | undefined }[]): unknown[] =>
  found.map((d) => d.code);

test("says what it can do, and keeps diagnostics for those who cannot ask for them", async () => {
  await start();
  const { capabilities } = client.greeting;
  expect(capabilities.positionEncoding).toBe("utf-16");
  expect(capabilities.diagnosticProvider).toBeUndefined();
  expect(capabilities.textDocumentSync).toMatchObject({ openClose: true, change: 2 });
});

test("a clean document is told of once, with nothing in it", async () => {
  await start();
  await client.open(folder.uri("cover.torquil"), PROCEDURE, 7);
  expect(await client.diagnosticsOf(folder.uri("cover.torquil"))).toEqual([]);
  expect(client.published.find((p) => p.uri === folder.uri("cover.torquil"))?.version).toBe(7);
});

test("places are columns in UTF-16, behind N·m and °", async () => {
  await start();
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE);
  const { line, from, to } = find(PROCEDURE, "fit cover-bolts  by hand");
  await client.change(uri, 2, { line, from, to, text: 'label cover-bolts "12 N·m, 60° 🔩"  with wrnch' });
  const [found, ...others] = await client.diagnosticsOf(uri, (d) => codes(d).includes("unknown-name"));
  const column = from + 'label cover-bolts "12 N·m, 60° 🔩"  with '.length;
  expect(others.filter((d) => d.code === "unknown-name")).toEqual([]);
  expect(found?.range).toEqual({
    start: { line, character: column },
    end: { line, character: column + "wrnch".length },
  });
});

test("an edit in a used file changes the findings of those that use it", async () => {
  await start();
  await client.open(folder.uri("cover.torquil"), PROCEDURE);
  await client.open(folder.uri("wren-4.torquil"), MACHINE);
  expect(await client.diagnosticsOf(folder.uri("cover.torquil"))).toEqual([]);
  const { line, from, to } = find(MACHINE, "cover-bolts");
  await client.change(folder.uri("wren-4.torquil"), 2, { line, from, to, text: "lid-bolts" });
  const found = await client.diagnosticsOf(folder.uri("cover.torquil"), (d) => d.length > 0);
  expect(codes(found)).toContain("unknown-name");
  await client.change(folder.uri("wren-4.torquil"), 3, {
    line,
    from,
    to: from + "lid-bolts".length,
    text: "cover-bolts",
  });
  expect(await client.diagnosticsOf(folder.uri("cover.torquil"), (d) => d.length === 0)).toEqual([]);
});

test("a used file that vanishes from the disk, and appears again", async () => {
  await start();
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE);
  expect(await client.diagnosticsOf(uri)).toEqual([]);
  folder.remove("wren-4.torquil");
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: folder.uri("wren-4.torquil"), type: 3 }],
  });
  expect(codes(await client.diagnosticsOf(uri, (d) => d.length > 0))).toContain("missing-file");
  folder.write("wren-4.torquil", MACHINE);
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", {
    changes: [{ uri: folder.uri("wren-4.torquil"), type: 1 }],
  });
  expect(await client.diagnosticsOf(uri, (d) => d.length === 0)).toEqual([]);
});

test("a client that watches nothing is helped when it saves", async () => {
  await start();
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE);
  expect(await client.diagnosticsOf(uri)).toEqual([]);
  folder.write("wren-4.torquil", MACHINE.replaceAll("cover-bolts", "lid-bolts"));
  await client.connection.sendNotification("textDocument/didSave", { textDocument: { uri } });
  expect(codes(await client.diagnosticsOf(uri, (d) => d.length > 0))).toContain("unknown-name");
});

test("settings that change on the disk count, and a fault in them is told at its place", async () => {
  await start({ "cover.torquil": PROCEDURE.replace("  tool gauge", '  tool spare "Spare"\n  tool gauge') });
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE.replace("  tool gauge", '  tool spare "Spare"\n  tool gauge'));
  expect(codes(await client.diagnosticsOf(uri, (d) => d.length > 0))).toEqual(["tool-unused"]);
  folder.write("torquil.json", '{ "severities": { "tool-unused": "off" } }');
  const changed = { changes: [{ uri: folder.uri("torquil.json"), type: 2 }] };
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", changed);
  expect(await client.diagnosticsOf(uri, (d) => d.length === 0)).toEqual([]);
  folder.write("torquil.json", '{\n  "severities": { "tool-unsued": "off" } }');
  await client.connection.sendNotification("workspace/didChangeWatchedFiles", changed);
  const [fault] = await client.diagnosticsOf(folder.uri("torquil.json"), (d) => d.length > 0);
  expect(fault?.range.start.line).toBe(1);
  expect(fault?.message).toContain("tool-unused");
});

test("hover, definition, references, outline and folding", async () => {
  await start();
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE);
  const { line, from } = find(PROCEDURE, "cover-bolts, cover");
  const position = { line, character: from + 3 };
  const at = { textDocument: { uri }, position };
  const hover: Hover = await client.connection.sendRequest("textDocument/hover", at);
  expect(hover.contents).toMatchObject({ kind: "markdown" });
  expect(JSON.stringify(hover.contents)).toContain("12 N·m");
  expect(hover.range).toEqual({
    start: { line, character: from },
    end: { line, character: from + "cover-bolts".length },
  });
  const definition: Location = await client.connection.sendRequest("textDocument/definition", at);
  const declared = find(MACHINE, "cover-bolts");
  expect(definition).toEqual({
    uri: folder.uri("wren-4.torquil"),
    range: {
      start: { line: declared.line, character: declared.from },
      end: { line: declared.line, character: declared.to },
    },
  });
  const context = { includeDeclaration: true };
  const references: Location[] = await client.connection.sendRequest("textDocument/references", {
    ...at,
    context,
  });
  expect(references.map((r) => r.uri.split("/").at(-1))).toEqual([
    "wren-4.torquil",
    ...Array(3).fill("cover.torquil"),
  ]);
  const symbols: { name: string; containerName?: string }[] = await client.connection.sendRequest(
    "textDocument/documentSymbol",
    { textDocument: { uri } },
  );
  expect(symbols.map((s) => [s.containerName, s.name])).toContainEqual(["All of it", "Off"]);
  const folds: FoldingRange[] = await client.connection.sendRequest("textDocument/foldingRange", {
    textDocument: { uri },
  });
  expect(folds).toContainEqual({
    startLine: find(PROCEDURE, 'step "Off"').line,
    endLine: find(PROCEDURE, 'step "Off"').line + 1,
  });
});

test("completion on a line that is not finished, behind N·m", async () => {
  await start();
  const uri = folder.uri("wren-4.torquil");
  await client.open(uri, MACHINE);
  const { line, from } = find(MACHINE, "  crosswise");
  await client.change(uri, 2, { line, from, to: from + "  crosswise".length, text: "  cr" });
  const list: CompletionList = await client.connection.sendRequest("textDocument/completion", {
    textDocument: { uri },
    position: { line, character: from + 4 },
  });
  const item = list.items.find((i) => i.label === "crosswise");
  expect(item?.textEdit).toEqual({
    range: { start: { line, character: from + 2 }, end: { line, character: from + 4 } },
    newText: "crosswise",
  });
});

test("a repair is worked out from the range, never from places that the client sends", async () => {
  await start();
  const uri = folder.uri("wren-4.torquil");
  const text = MACHINE.replace("snug  12 N·m  crosswise", "snug 1,2 N·m  crosswise");
  await client.open(uri, text);
  const [found] = await client.diagnosticsOf(uri, (d) => d.length > 0);
  expect(found?.code).toBe("decimal-comma");
  const { line } = find(text, "1,2 N·m");
  const range = { start: { line, character: 0 }, end: { line, character: 40 } };
  // Columns in bytes, as some clients send them: past the end of the line.
  const wrong = { ...found, range: { start: { line, character: 90 }, end: { line, character: 99 } } };
  const actions: CodeAction[] = await client.connection.sendRequest("textDocument/codeAction", {
    textDocument: { uri },
    range,
    context: { diagnostics: [wrong] },
  });
  const fix = actions.find((a) => a.kind === "quickfix");
  const [edit] = fix?.edit?.changes?.[uri] ?? [];
  const at = find(text, "1,2");
  expect(edit).toEqual({
    range: { start: { line, character: at.from }, end: { line, character: at.to } },
    newText: "1.2",
  });
  const only: CodeAction[] = await client.connection.sendRequest("textDocument/codeAction", {
    textDocument: { uri },
    range,
    context: { diagnostics: [], only: ["refactor"] },
  });
  expect(only).toEqual([]);
});

test("a finding can be allowed with a reason to fill in", async () => {
  const text = PROCEDURE.replace("  tool gauge", '  tool spare "Spare"\n  tool gauge');
  await start({ "cover.torquil": text });
  const uri = folder.uri("cover.torquil");
  await client.open(uri, text);
  const { line } = find(text, "tool spare");
  await client.diagnosticsOf(uri, (d) => d.length > 0);
  const range = { start: { line, character: 8 }, end: { line, character: 8 } };
  const actions: CodeAction[] = await client.connection.sendRequest("textDocument/codeAction", {
    textDocument: { uri },
    range,
    context: { diagnostics: [] },
  });
  const allow = actions.find((a) => a.title.includes("Allow tool-unused"));
  const [edit] = allow?.edit?.changes?.[uri] ?? [];
  expect(edit?.newText).toMatch(/^ {2}allow tool-unused ".+"\n$/);
  await client.change(uri, 2, { line, from: 0, to: 0, text: edit?.newText ?? "" });
  expect(await client.diagnosticsOf(uri, (d) => d.length === 0)).toEqual([]);
});

test("formatting touches only what differs", async () => {
  await start();
  const uri = folder.uri("wren-4.torquil");
  const once: TextEdit[] = await format(uri, MACHINE);
  const formatted = applied(MACHINE, once);
  await client.change(uri, 2, formatted.replace("60°", "60 deg"));
  const edits: TextEdit[] = await client.connection.sendRequest("textDocument/formatting", {
    textDocument: { uri },
    options: { tabSize: 2, insertSpaces: true },
  });
  const { line, from } = find(formatted, "60°");
  expect(edits).toEqual([
    { range: { start: { line, character: from + 2 }, end: { line, character: from + 6 } }, newText: "°" },
  ]);
});

async function format(uri: string, text: string): Promise<TextEdit[]> {
  await client.open(uri, text);
  return client.connection.sendRequest("textDocument/formatting", {
    textDocument: { uri },
    options: { tabSize: 2, insertSpaces: true },
  });
}

function applied(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split("\n");
  for (const { range, newText } of [...edits].reverse()) {
    const before = (lines[range.start.line] ?? "").slice(0, range.start.character);
    const behind = (lines[range.end.line] ?? "").slice(range.end.character);
    lines.splice(
      range.start.line,
      range.end.line - range.start.line + 1,
      ...(before + newText + behind).split("\n"),
    );
  }
  return lines.join("\n");
}

test("outline as a tree for those that show one", async () => {
  await start();
  const other = await connect(
    { textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
    [folder.uri("")],
  );
  await other.open(folder.uri("cover.torquil"), PROCEDURE);
  const [procedure]: DocumentSymbol[] = await other.connection.sendRequest("textDocument/documentSymbol", {
    textDocument: { uri: folder.uri("cover.torquil") },
  });
  const section = procedure?.children?.find((c) => c.name === "All of it");
  expect(section?.children?.map((c) => c.name)).toEqual(["Off", "On"]);
  expect(await other.stop()).toBe(0);
});

test("a document that no folder holds, and one that is not on the disk", async () => {
  await start();
  const uri = "untitled:Untitled-1";
  await client.open(uri, 'torquil 1\n\nmachine m "M" {\n  part a "A"  behind b\n}\n');
  expect(codes(await client.diagnosticsOf(uri, (d) => d.length > 0))).toContain("unknown-name");
  await client.connection.sendNotification("textDocument/didClose", { textDocument: { uri } });
  expect(await client.diagnosticsOf(uri, (d) => d.length === 0)).toEqual([]);
});

test("two roots with files of the same name do not mix", async () => {
  await start();
  const second = makeFolder({
    "torquil.json": "{}",
    "wren-4.torquil": MACHINE.replaceAll("cover-bolts", "lid-bolts"),
    "cover.torquil": PROCEDURE,
  });
  await client.connection.sendNotification("workspace/didChangeWorkspaceFolders", {
    event: { added: [{ uri: second.uri(""), name: "two" }], removed: [] },
  });
  await client.open(folder.uri("cover.torquil"), PROCEDURE);
  await client.open(second.uri("cover.torquil"), PROCEDURE);
  expect(codes(await client.diagnosticsOf(second.uri("cover.torquil"), (d) => d.length > 0))).toContain(
    "unknown-name",
  );
  expect(await client.diagnosticsOf(folder.uri("cover.torquil"))).toEqual([]);
  second.dispose();
});
