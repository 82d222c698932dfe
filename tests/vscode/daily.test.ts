/** What a writer does all day, in a real VS Code in a real browser: findings, hover, completion, repair, rename. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject, test } from "vitest";
import { type Folder, makeFolder } from "../lsp/client";
import { MACHINE, PROCEDURE } from "./texts";
import { lineOf, openWindow, startBrowser, type Window } from "./window";

let browser: Browser;
let folder: Folder;
let window: Window;
let name = "";

beforeAll(async () => {
  browser = await startBrowser();
  folder = makeFolder({ "start.txt": "" });
  window = await openWindow(browser, inject("origin"), folder.path, "start.txt");
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await window.picture(`failed ${task.name}`);
  await window.press("Escape", "Escape");
});
afterAll(async () => {
  await browser?.close();
  folder?.dispose();
});

/** Opens the procedure of a little project of its own in the one window; its files are called after the test. */
async function write(called: string, procedure: string): Promise<void> {
  name = called;
  folder.write(`${name}/torquil.json`, "{}");
  folder.write(`${name}/wren-4.torquil`, MACHINE);
  folder.write(`${name}/${name}.torquil`, procedure);
  await window.open(`${name}/${name}.torquil`);
}

/** Waits until a file on the disk is as wanted. */
const saved = (file = `${name}.torquil`): ReturnType<typeof expect.poll> =>
  expect.poll(() => readFileSync(join(folder.path, name, file), "utf8"));

const COMMA = PROCEDURE.replace("5 to 25 N·m\n", "5,5 to 25 N·m\n");

test("a finding stands in the list of problems, leads to its place, and goes with the fault", async () => {
  await write("problem", COMMA);
  await window.run("View: Toggle Problems");
  const row = window.problems.filter({ hasText: "decimal-comma" }).first();
  await row.waitFor();
  expect(await row.textContent()).toContain("5.5");
  await row.dblclick();
  const line = lineOf(COMMA, "5,5");
  await expect.poll(window.cursor).toContain(`Ln ${line}`);
  await window.picture("problems");
  await window.page.locator(".squiggly-error").first().waitFor();
  await window.press("Delete");
  await window.type("5.5");
  await row.waitFor({ state: "hidden" });
  await window.run("View: Toggle Problems");
});

test("hover over a fastener shows its tightening in both units", async () => {
  await write("hover", PROCEDURE);
  const line = lineOf(PROCEDURE, "tighten cover-bolts");
  await window.go(line, 18);
  const hover = window.page.locator(".monaco-hover:visible", { hasText: "Cover bolts" });
  await window.call(hover, "Control+k", "Control+i");
  const words = await hover.textContent();
  await window.picture("hover");
  expect(words).toContain("12 N·m");
  expect(words).toMatch(/lb·(ft|in)/);
});

test("a list of what fits comes up, and what is chosen stands in the text", async () => {
  await write("completion", PROCEDURE.replace("tighten cover-bolts  with wrench", "tighten "));
  await window.go(lineOf(PROCEDURE, "tighten cover-bolts"), 15);
  const list = window.page.locator(".suggest-widget.visible .monaco-list-row");
  await window.call(list.filter({ hasText: "cover-bolts" }), "Control+Space");
  await window.picture("completion");
  expect(await list.filter({ hasText: "wrench" }).count()).toBe(0);
  await list.filter({ hasText: "cover-bolts" }).click();
  await window.page.locator(".suggest-widget.visible").waitFor({ state: "hidden" });
  await window.type("  with wrench");
  await window.press("Control+s");
  await saved().toBe(PROCEDURE);
});

test("a step is written by filling in its snippet", async () => {
  await write("snippet", PROCEDURE);
  await window.go(lineOf(PROCEDURE, 'step "Take the seal out"') - 1, 1);
  await window.type("    st");
  const list = window.page.locator(".suggest-widget.visible .monaco-list-row");
  const snippet = list
    .filter({ hasText: "step" })
    .filter({ has: window.page.locator(".codicon-symbol-snippet") });
  await window.call(snippet, "Control+Space");
  await window.picture("snippet");
  await snippet.click();
  await window.page.locator(".suggest-widget.visible").waitFor({ state: "hidden" });
  await window.type("Look at the notch");
  await window.press("Control+s");
  await saved().toContain('    step "Look at the notch" {\n');
});

test("the light bulb repairs what is at fault", async () => {
  await write("repair", COMMA);
  const line = lineOf(COMMA, "5,5");
  await window.go(line, (COMMA.split("\n")[line - 1]?.indexOf("5,5") ?? 0) + 2);
  await window.page.locator(".squiggly-error").first().waitFor();
  const offered = window.page.locator(".action-widget:visible .monaco-list-row.focused");
  await window.call(offered, "Control+.");
  expect(await offered.textContent()).toContain("5.5");
  await window.picture("repair");
  await window.press("Enter");
  await window.page.locator(".view-line", { hasText: "5.5 to 25" }).waitFor();
  await window.press("Control+s");
  await saved().toBe(COMMA.replace("5,5", "5.5"));
});

test("a fastener is renamed in the machine file and in the procedure", async () => {
  await write("rename", PROCEDURE);
  await window.go(lineOf(PROCEDURE, "tighten cover-bolts"), 18);
  const box = window.page.locator(".rename-box input");
  await window.call(box, "F2");
  await expect.poll(() => box.inputValue()).toBe("cover-bolts");
  await box.fill("lid-bolts");
  await window.picture("rename");
  await window.press("Enter");
  await box.waitFor({ state: "hidden" });
  await window.page.locator(".view-line", { hasText: "tighten lid-bolts" }).waitFor();
  await window.run("File: Save All");
  await saved().toBe(PROCEDURE.replaceAll("cover-bolts", "lid-bolts"));
  await saved("wren-4.torquil").toBe(MACHINE.replaceAll("cover-bolts", "lid-bolts"));
});
