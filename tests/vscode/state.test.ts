/** How everything stands at the cursor, in a real VS Code: the view follows the cursor, and leads to the lines behind it. */
import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject, test } from "vitest";
import { root } from "../../server/tools/setup.mjs";
import { type Folder, makeFolder } from "../lsp/client";
import { MACHINE, PROCEDURE } from "./texts";
import { lineOf, openWindow, startBrowser, type Window } from "./window";

/** The procedure with a symptom under which the machine is opened further. */
const JOB = PROCEDURE.replace("  tool ruler", '  symptom drips "Oil drips"\n  tool ruler')
  .replace(
    "      remove seal  discard\n",
    "      remove seal  discard\n      when drips {\n        drain oil\n      }\n",
  )
  .replace("      fit new seal\n", "      fit new seal\n      when drips {\n        fill oil\n      }\n");
const FLUID = MACHINE.replace("  part cover ", '  fluid oil "Gear oil"  2 L\n  part cover ');

const EXAMPLE = join(root, "examples/marine-generator");
const GENERATOR = readFileSync(join(EXAMPLE, "belt-service.torquil"), "utf8");

let browser: Browser;
let folder: Folder;
let window: Window;

beforeAll(async () => {
  browser = await startBrowser();
  folder = makeFolder({
    "torquil.json": "{}",
    "wren-4.torquil": FLUID,
    "cover.torquil": JOB,
    "notes.txt": "",
  });
  cpSync(EXAMPLE, join(folder.path, "marine-generator"), { recursive: true });
  window = await openWindow(browser, inject("origin"), folder.path, "cover.torquil");
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await window.picture(`failed ${task.name}`);
  await window.press("Escape");
});
afterAll(async () => {
  await browser?.close();
  folder?.dispose();
});

const view = (): Locator => window.page.locator(".part.sidebar", { hasText: "State at the Cursor" });
const row = (words: string | RegExp): Locator =>
  view().locator(".monaco-list-row", { hasText: words }).first();

test("the command shows the view, which says what is off and what is owed before the step at the cursor", async () => {
  await window.go(lineOf(JOB, 'step "Put the seal in"'), 8);
  await window.run("Torquil: Show How Everything Stands Here");
  await row("Off or out").waitFor();
  await view().getByText("Before 3, “Put the seal in”.").waitFor();
  await row(/Belt cover.*off/).waitFor();
  await row(/Cover seal.*off, thrown away, a new one goes in/).waitFor();
  await row("fit a new “Cover seal”").waitFor();
  await row(/drained.*when “Oil drips”/).waitFor();
  await row(/as it should be.*when not “Oil drips”/).waitFor();
  await window.picture("state light");
  await window.page.emulateMedia({ colorScheme: "dark" });
  await window.page.locator(".monaco-workbench.vs-dark").waitFor();
  await window.picture("state dark");
  await window.page.emulateMedia({ colorScheme: "light" });
});

test("a thing leads to the line that brought it about, and the view follows the cursor there", async () => {
  await row(/Belt cover.*off/).click();
  await expect.poll(window.cursor).toContain(`Ln ${lineOf(JOB, "remove cover-bolts, cover")},`);
  await view().getByText("Everything is as it should be.").waitFor();
  await row("Off or out").waitFor({ state: "detached" });
});

test("by the keyboard alone: into the view, down to a thing, and to its line", async () => {
  await window.press("Control+1");
  await window.go(lineOf(JOB, 'step "Put the cover on"'), 8);
  await row(/Cover bolts.*out/).waitFor();
  await window.press("Control+k", "h");
  await view().locator(".monaco-list:focus-within, .monaco-list.focused").first().waitFor();
  await window.press("Home", "ArrowDown", "Enter");
  await expect.poll(window.cursor).toContain(`Ln ${lineOf(JOB, "remove cover-bolts, cover")},`);
});

test("it follows the text; a line that cannot be read is named, and leads there", async () => {
  await window.press("Control+1");
  const { length } = "      remove cover-bolts, cover";
  const line = lineOf(JOB, "remove cover-bolts, cover");
  await window.go(line, length + 1);
  await window.type("s");
  await view().getByText(`line ${line} of cover.torquil is not understood`).waitFor();
  await window.picture("state not followed");
  await window.press("Control+Home");
  await row(`Line ${line} of cover.torquil`).click();
  await expect.poll(window.cursor).toContain(`Ln ${line},`);
  await window.press("Control+1", "Control+z");
  await view().getByText("Everything is as it should be.").waitFor();
});

test("the largest example: what is off, where shafts and marks stand, what differs", async () => {
  await window.open("marine-generator/belt-service.torquil");
  await window.go(lineOf(GENERATOR, 'step "Lay the belt on"'), 8);
  await row("Shafts and marks").waitFor();
  await row(/Belt guard.*off/).waitFor();
  await window.picture("state generator");
});

test("outside a procedure it says what it is for, and beside another file it is not there", async () => {
  await window.open("wren-4.torquil");
  await view().getByText("Put the cursor into a procedure").waitFor();
  await window.open("notes.txt");
  await view().waitFor({ state: "detached" });
});
