/** The live sheet beside the text, in a real VS Code: it follows typing and cursor, leads back, prints, keeps colours. */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject, test } from "vitest";
import { type Folder, makeFolder } from "../lsp/client";
import { contrast } from "./colours";
import { palette } from "./palette.mjs";
import { MACHINE, PROCEDURE } from "./texts";
import { lineOf, openWindow, startBrowser, type Window } from "./window";

let browser: Browser;
let folder: Folder;
let window: Window;

beforeAll(async () => {
  browser = await startBrowser();
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  window = await openWindow(browser, inject("origin"), folder.path, "cover.torquil");
  await window.run("Torquil: Open the Sheet to the Side");
  await inSheet("Take the cover off").waitFor();
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await window.picture(`failed ${task.name}`);
  await window.press("Escape");
});
afterAll(async () => {
  await browser?.close();
  folder?.dispose();
});

/** What stands in the sheet with these words, innermost; not what describes a drawing. */
const inSheet = (words: string | RegExp): Locator =>
  window.view.getByText(words).locator("visible=true").first();

/** Puts the keyboard into the text, at a line and column. */
async function toText(line: number, column: number): Promise<void> {
  await window.page.locator(".editor-instance .view-lines").first().click();
  await window.go(line, column);
}

test("the sheet has title, steps and both units", async () => {
  await inSheet("Renew the cover seal").waitFor();
  await inSheet("Put the cover on").waitFor();
  const words = await window.view.locator("body").textContent();
  expect(words).toMatch(/12\sN·m/);
  expect(words).toMatch(/lb·(ft|in)/);
  await window.picture("sheet light");
});

test("what is typed stands in the sheet, without saving", async () => {
  const line = lineOf(PROCEDURE, "Lift it at the notch");
  await toText(line, '      "Lift it at the notch'.length + 1);
  await window.type(" with a <b>wooden</b> wedge");
  await inSheet("Lift it at the notch with a <b>wooden</b> wedge.").waitFor();
  expect(readFileSync(join(folder.path, "cover.torquil"), "utf8")).toBe(PROCEDURE);
});

test("a click in the sheet puts the cursor on the line that says it", async () => {
  await toText(1, 1);
  await inSheet("Put the seal in").click();
  await expect.poll(window.cursor).toContain(`Ln ${lineOf(PROCEDURE, "Put the seal in")},`);
});

test("the sheet shows what is written at the cursor", async () => {
  await toText(lineOf(PROCEDURE, "tighten cover-bolts"), 10);
  await expect.poll(shownAtCursor).toContain("Tighten Cover bolts");
  await toText(lineOf(PROCEDURE, "remove cover-bolts"), 10);
  await expect.poll(shownAtCursor).toContain("Remove Cover bolts");
  expect(await shownAtCursor()).not.toContain("Tighten");
});

const shownAtCursor = async (): Promise<string> =>
  (await window.view.locator(".here").allTextContents()).join("\n");

test("the sheet is printed to a PDF file where the writer says", async () => {
  const file = join(folder.path, "for the workshop.pdf");
  await window.run("Torquil: Print the Sheet as PDF");
  const box = window.page.locator(".quick-input-widget:visible input");
  await expect.poll(() => box.inputValue()).toMatch(/\.pdf$/);
  await box.fill(file);
  await window.press("Enter");
  await expect.poll(() => existsSync(file)).toBe(true);
  const words = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
  for (const step of ["Take the cover off", "Put the seal in", "Put the cover on"])
    expect(words).toContain(step);
  expect(words).toMatch(/12\sN·m/);
});

test("the sheet takes the colours of the editor, dark as well, and can be read in both", async () => {
  const light = await colours();
  expect(light.contrast).toBeGreaterThanOrEqual(4.5);
  await window.page.emulateMedia({ colorScheme: "dark" });
  await window.page.locator(".monaco-workbench.vs-dark").waitFor();
  await expect.poll(async () => (await colours()).background).not.toBe(light.background);
  expect((await colours()).contrast).toBeGreaterThanOrEqual(4.5);
  await window.picture("sheet dark");
});

/** The background of the sheet and the worst contrast of any words on it. */
async function colours(): Promise<{ background: string; contrast: number }> {
  const { background, pairs } = await window.view.locator("body").evaluate(palette);
  const worst = Math.min(...pairs.map((pair) => contrast(...(pair.split("|") as [string, string]))));
  return { background, contrast: worst };
}

test("the web view may load nothing from elsewhere and runs no script of the text", async () => {
  const policy = await window.view
    .locator('meta[http-equiv="Content-Security-Policy"]')
    .getAttribute("content");
  expect(policy).toContain("default-src 'none'");
  expect(policy).not.toMatch(/script-src[^;]*'unsafe-(inline|eval)'/);
  expect(await window.view.locator("b", { hasText: "wooden" }).count()).toBe(0);
});
