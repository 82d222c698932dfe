/** A folder that the writer has not trusted: Torquil works all the same, for it runs nothing from it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { type Folder, makeFolder } from "../lsp/client";
import { type Server, startServer } from "./server";
import { MACHINE, PROCEDURE } from "./texts";
import { lineOf, openWindow, startBrowser } from "./window";

let browser: Browser;
let folder: Folder;
let server: Server;

beforeAll(async () => {
  folder = makeFolder({
    "torquil.json": "{}",
    "wren-4.torquil": MACHINE,
    "cover.torquil": PROCEDURE.replace("5 to 25 N·m\n", "5,5 to 25 N·m\n"),
  });
  server = await startServer({ entry: inject("entry"), vsix: [inject("vsix")], trusting: false });
  browser = await startBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  folder?.dispose();
});

test("findings and the sheet come in restricted mode", async () => {
  const window = await openWindow(browser, server.origin, folder.path, "cover.torquil");
  await window.page.locator(".statusbar-item", { hasText: "Restricted Mode" }).waitFor();
  await window.page.locator(".squiggly-error").first().waitFor();
  await window.run("View: Toggle Problems");
  await window.problems.filter({ hasText: "decimal-comma" }).first().waitFor();
  await window.run("Torquil: Open the Sheet to the Side");
  await window.view.getByText("Take the cover off").first().waitFor();
  // The raised point of N·m is a sign of the language, no letter that passes for another.
  expect(await window.page.locator(".view-overlays .unicode-highlight").count()).toBe(0);
  expect(await window.page.locator(".notifications-toasts .codicon-error").count()).toBe(0);
  await window.picture("restricted");

  await window.press("Control+1");
  await window.run("Torquil: Show How Everything Stands Here");
  await window.page.locator(".part.sidebar").getByText("Put the cursor into a procedure").waitFor();
  await window.go(lineOf(PROCEDURE, "5 to 25"), 1);
  await window.page.locator(".part.sidebar").getByText("cover.torquil is not understood").waitFor();

  // Git runs what a folder's own settings name, so comparing is not offered here; what is beside it in the list is.
  await window.press("F1");
  await window.page.locator(".quick-input-widget:visible input").fill(">Torquil: ");
  const offered = window.page.locator(".quick-input-list .monaco-list-row", { hasText: "Torquil: " });
  await offered.filter({ hasText: "Show the Log" }).waitFor();
  expect(await offered.filter({ hasText: "Compare with the Last Commit" }).count()).toBe(0);
});
