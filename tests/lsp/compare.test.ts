/** The extension's request to compare a project with its last commit, on a real repository. */
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterEach, beforeAll, expect, test } from "vitest";
import type { CompareAnswer, RevisionAnswer } from "../../server/lsp/requests";
import { bundleServer, type Client, connect, type Folder, makeFolder } from "./client";
import { MACHINE, PROCEDURE } from "./texts";

let client: Client;
let folder: Folder;

beforeAll(async () => {
  await bundleServer();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
  folder.dispose();
});

async function start(): Promise<void> {
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  client = await connect({}, [folder.uri("")]);
}

function git(...args: readonly string[]): void {
  const cwd = fileURLToPath(folder.uri(""));
  const done = spawnSync("git", ["-c", "user.name=A", "-c", "user.email=a@example.org", ...args], { cwd });
  if (done.status !== 0) throw new Error(done.stderr.toString());
}

const compare = (file: string): Promise<CompareAnswer> =>
  client.connection.sendRequest("torquil/compare", { textDocument: { uri: folder.uri(file) } });

test("without a repository it says so", async () => {
  await start();
  const answer = await compare("cover.torquil");
  expect(answer).toMatchObject({ kind: "none" });
  expect(answer.kind === "none" && answer.message).toContain("not in a git repository");
});

test("what is typed is compared with the last commit, with both places, and the text as it was can be read", async () => {
  await start();
  git("init", "--quiet");
  git("add", ".");
  git("commit", "--quiet", "--message", "First");
  expect(await compare("cover.torquil")).toMatchObject({ kind: "compared", changes: [] });

  const path = fileURLToPath(folder.uri("wren-4.torquil"));
  const before = readFileSync(path, "utf8");
  const after = before.replace(/\b12 N·m/, "14 N·m");
  expect(after).not.toBe(before);
  writeFileSync(path, after);
  client.connection.sendNotification("textDocument/didOpen", {
    textDocument: { uri: folder.uri("wren-4.torquil"), languageId: "torquil", version: 1, text: after },
  });
  const answer = await compare("cover.torquil");
  if (answer.kind !== "compared") throw new Error(answer.message);
  expect(answer.commit).toMatch(/^[0-9a-f]{9}$/);
  expect(answer.changes.map(({ rank }) => rank)).toEqual(["safety"]);
  const [change] = answer.changes;
  expect(change?.headline).toContain("12 N·m");
  expect(change?.headline).toContain("14 N·m");
  expect(change?.short).toEqual({
    now: expect.stringMatching(/14 N·m.* ← .*12 N·m/),
    about: "Tightening of “Cover bolts”",
  });
  expect(change?.notes.join()).toContain("step");
  const line = before.split("\n").findIndex((text) => text.includes("12 N·m"));
  const uri = folder.uri("wren-4.torquil");
  expect(change).toMatchObject({ before: { uri, line }, after: { uri, line } });

  const old: RevisionAnswer = await client.connection.sendRequest("torquil/revision", {
    textDocument: { uri },
  });
  expect(old.text).toBe(before);
});
