/** A window of VS Code in a browser, and what a writer does in it: open, type, hover, complete, fix, rename. */
import { mkdirSync } from "node:fs";
import { basename, join } from "node:path";
import { type Browser, chromium, type FrameLocator, type Locator, type Page } from "playwright-core";
import { root } from "../../server/tools/setup.mjs";
import { find } from "./install.mjs";

/** How long anything may take before the test gives up, in ms: long, for a machine may be busy with other work. */
const PATIENCE = 60_000;

/** The folder that pictures of the window go to; git does not keep it. */
const pictures = join(root, "out/vscode");

/** Where the pointer is left: over nothing that says something when pointed at. */
const ASIDE = [700, 2] as const;

export interface Window {
  readonly page: Page;
  /** Opens a file of the folder by its path within it. */
  readonly open: (file: string) => Promise<void>;
  /** Runs a command by the words it has in the command palette. */
  readonly run: (command: string) => Promise<void>;
  /** Puts the cursor at a line and column, both counted from 1. */
  readonly go: (line: number, column: number) => Promise<void>;
  /** Where the cursor is, as `Ln 3, Col 5`. */
  readonly cursor: () => Promise<string>;
  readonly type: (text: string) => Promise<void>;
  readonly press: (...keys: string[]) => Promise<void>;
  /** Presses keys until what they are for shows: the language server may still be starting. */
  readonly call: (shown: Locator, ...keys: string[]) => Promise<void>;
  /** What the window says in its notifications. */
  readonly notices: Locator;
  /** The lines of the list of problems. */
  readonly problems: Locator;
  /** The inside of the newest web view. */
  readonly view: FrameLocator;
  /** Takes a picture into out/vscode. */
  readonly picture: (name: string) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Starts the browser. Everything runs without a screen. */
export function startBrowser(): Promise<Browser> {
  const executablePath = find("chromium") ?? "chromium";
  // A test machine may run as root and in a container, where Chromium's own sandbox cannot be set up.
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-dev-shm-usage"] });
}

/** The address of a window on a folder, with a file open. */
export function address(
  origin: string,
  folder: string,
  extra: readonly (readonly [string, string])[],
): string {
  const url = new URL(origin);
  url.searchParams.set("folder", folder);
  url.searchParams.set("payload", JSON.stringify(extra));
  return url.href;
}

/** What VS Code calls a file of the machine it runs on. */
export const remote = (origin: string, path: string): string =>
  `vscode-remote://${new URL(origin).host}${path}`;

/** Opens a window on a folder with one of its files in the editor, and waits until that file is there. */
export async function openWindow(
  browser: Browser,
  origin: string,
  folder: string,
  file: string,
  viewport = { width: 1400, height: 900 },
): Promise<Window> {
  const context = await browser.newContext({ viewport, colorScheme: "light", reducedMotion: "reduce" });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(address(origin, folder, [["openFile", remote(origin, join(folder, file))]]));
  const window = windowOn(page);
  await shown(page, file);
  return window;
}

function windowOn(page: Page): Window {
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  /** Types into the box that a key brings up and takes the line wanted; again while the line is not offered yet. */
  const pick = async (key: string, text: string, wanted: string): Promise<void> => {
    const box = page.locator(".quick-input-widget:visible input");
    const row = page.locator(".quick-input-list .monaco-list-row", { hasText: wanted }).first();
    const end = Date.now() + PATIENCE;
    do {
      await press("Escape", key);
      await box.waitFor();
      await box.fill(text);
      if (!(await appears(row, 3000))) continue;
      await row.click();
      await page.mouse.move(...ASIDE);
      await box.waitFor({ state: "hidden" });
      return;
    } while (Date.now() < end);
    throw new Error(`"${wanted}" is not offered.`);
  };
  return {
    page,
    press,
    call: async (shown, ...keys) => {
      const end = Date.now() + PATIENCE;
      do {
        await press(...keys);
        if (await appears(shown, 1500)) return;
      } while (Date.now() < end);
      throw new Error(`${keys.join(" ")} brought nothing up.`);
    },
    open: async (file) => {
      await pick("Control+p", file, basename(file));
      await shown(page, file);
    },
    run: async (command) => {
      await pick("F1", `>${command}`, command);
    },
    go: async (line, column) => {
      await press("Control+g");
      const box = page.locator(".quick-input-widget:visible input");
      await box.fill(`:${line}:${column}`);
      await press("Enter");
      await box.waitFor({ state: "hidden" });
      await page.getByRole("button", { name: `Ln ${line}, Col ${column}` }).waitFor();
    },
    cursor: async () => (await page.locator("[id='status.editor.selection']").textContent()) ?? "",
    type: (text) => page.keyboard.type(text),
    notices: page.locator(".notifications-toasts .notification-list-item-message"),
    problems: page.locator(".markers-panel-container .monaco-list-row"),
    view: page.frameLocator("iframe.webview:visible").frameLocator("iframe#active-frame"),
    picture: async (name) => {
      mkdirSync(pictures, { recursive: true });
      await page.screenshot({ path: join(pictures, `${name}.png`) });
    },
    close: () => page.context().close(),
  };
}

/** Whether something shows within so many ms. */
const appears = (shown: Locator, timeout: number): Promise<boolean> =>
  shown
    .first()
    .waitFor({ timeout })
    .then(
      () => true,
      () => false,
    );

/** The number of the line of a text on which words stand first, counted from 1. */
export const lineOf = (text: string, words: string): number =>
  text.slice(0, text.indexOf(words)).split("\n").length;

/** Waits until a file stands in the editor, and puts the keyboard into it. */
async function shown(page: Page, file: string): Promise<void> {
  await page
    .locator(".tab.active", { hasText: basename(file) })
    .first()
    .waitFor();
  await page.locator(".editor-group-container.active .monaco-editor .view-line").first().waitFor();
  await page.keyboard.press("Control+1");
  await page.locator(".editor-group-container.active .monaco-editor.focused").waitFor();
}
