/** Comparing with the last commit, in a real VS Code: the list by rank, and a jump to both sides. */
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject, test } from "vitest";
import { type Folder, makeFolder } from "../lsp/client";
import { MACHINE, PROCEDURE } from "./texts";
import { lineOf, openWindow, startBrowser, type Window } from "./window";

let browser: Browser;
let folder: Folder;
let window: Window;

const CHANGED = MACHINE.replace(/\b12 N·m/, "14 N·m");

beforeAll(async () => {
  browser = await startBrowser();
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  for (const args of [
    ["init", "--quiet"],
    ["add", "."],
    ["commit", "--quiet", "--message", "First"],
  ])
    git(...args);
  writeFileSync(join(folder.path, "wren-4.torquil"), CHANGED);
  window = await openWindow(browser, inject("origin"), folder.path, "wren-4.torquil");
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await window.picture(`failed ${task.name}`);
  await window.press("Escape");
});
afterAll(async () => {
  await browser?.close();
  folder?.dispose();
});

function git(...args: readonly string[]): void {
  const all = ["-c", "user.name=A", "-c", "user.email=a@example.org", ...args];
  const done = spawnSync("git", all, { cwd: folder.path });
  if (done.status !== 0) throw new Error(done.stderr.toString());
}

const row = (words: string | RegExp): Locator =>
  window.page.locator(".pane-body .monaco-list-row", { hasText: words }).first();

test("the changes since the last commit are listed by rank, in the writer's titles", async () => {
  await window.run("Torquil: Compare with the Last Commit");
  await row("Safety").waitFor();
  await row(/14 N·m.*12 N·m/).waitFor();
  await window.picture("comparison");
});

test("a change leads to both sides, at its line", async () => {
  await row(/14 N·m.*12 N·m/).click();
  const sides = window.page.locator(".monaco-diff-editor");
  await sides.locator(".editor.original .view-line", { hasText: "12" }).first().waitFor();
  await sides.locator(".editor.modified .view-line", { hasText: "14" }).first().waitFor();
  await expect.poll(window.cursor).toContain(`Ln ${lineOf(CHANGED, "14 N·m")},`);
  await window.picture("comparison both sides");
});
