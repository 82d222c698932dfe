/** The largest example as a writer has it before him: clean, its sheet beside it, in light and dark colours. */
import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { root } from "../../server/tools/setup.mjs";
import { type Folder, makeFolder } from "../lsp/client";
import { lineOf, openWindow, startBrowser, type Window } from "./window";

let browser: Browser;
let folder: Folder;
let place: string;
let window: Window;

beforeAll(async () => {
  browser = await startBrowser();
  folder = makeFolder({});
  place = join(folder.path, "marine-generator");
  cpSync(join(root, "examples/marine-generator"), place, { recursive: true });
  const size = { width: 1200, height: 700 };
  window = await openWindow(browser, inject("origin"), place, "belt-service.torquil", size);
});
afterAll(async () => {
  await browser?.close();
  folder?.dispose();
});

test("the generator's belt service has its sheet beside it, marked where the cursor is, in both colours", async () => {
  // Room for text and sheet, as a writer would make it.
  await window.run("View: Toggle Primary Side Bar Visibility");
  await window.run("Torquil: Open the Sheet to the Side");
  await window.view.getByText("Let it cool").locator("visible=true").first().waitFor();
  await window.press("Control+1");
  const text = readFileSync(join(place, "belt-service.torquil"), "utf8");
  await window.go(lineOf(text, "Hot coolant sprays"), 12);
  const here = window.view.locator(".here");
  await here.waitFor();
  expect(await here.textContent()).toContain("Hot coolant sprays");
  await window.picture("generator light");
  await window.page.emulateMedia({ colorScheme: "dark" });
  await window.page.locator(".monaco-workbench.vs-dark").waitFor();
  await window.picture("generator dark");
});

test("the checker finds nothing in it", async () => {
  await window.run("View: Toggle Problems");
  await window.page.getByText("No problems have been detected in the workspace.").waitFor();
});
