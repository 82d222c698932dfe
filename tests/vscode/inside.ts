/** Runs the tests of `inside/` in a real extension host and tells what became of each. */
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { Browser } from "playwright-core";
import type { Outcome } from "./inside/runner";
import { address, remote } from "./window";

const main = fileURLToPath(new URL("inside/main.ts", import.meta.url));

/** How long all of them may take, in ms. */
const PATIENCE = 600_000;

/**
 * Opens a window on a folder whose extension host runs the tests; the extension under test is the one installed.
 *
 * @throws when the tests could not be started or did not end; the message holds what the extension host wrote
 */
export async function runInside(
  browser: Browser,
  origin: string,
  folder: string,
): Promise<readonly Outcome[]> {
  // VS Code runs tests for the sake of an extension under development: an empty one serves.
  const place = realpathSync(mkdtempSync(join(tmpdir(), "torquil-inside-")));
  const outfile = join(place, "tests.cjs");
  const about = { name: "inside", publisher: "tests", version: "0.0.0", engines: { vscode: "*" } };
  mkdirSync(join(place, "extension"));
  writeFileSync(join(place, "extension/package.json"), JSON.stringify(about));
  await build({
    entryPoints: [main],
    outfile,
    bundle: true,
    platform: "node",
    format: "cjs",
    external: ["vscode"],
  });
  const context = await browser.newContext({ viewport: { width: 1200, height: 800 } });
  try {
    const page = await context.newPage();
    const written: string[] = [];
    await page.exposeFunction("codeAutomationLog", (_: string, words: readonly unknown[]) => {
      written.push(words.join(" "));
    });
    const ended = new Promise<void>((done, fail) => {
      const late = setTimeout(() => fail(new Error("The tests did not end.")), PATIENCE);
      void page.exposeFunction("codeAutomationExit", () => {
        clearTimeout(late);
        done();
      });
    });
    await page.goto(
      address(origin, folder, [
        ["extensionDevelopmentPath", remote(origin, join(place, "extension"))],
        ["extensionTestsPath", remote(origin, outfile)],
      ]),
    );
    const why = await ended.then(
      () => "They ended without an outcome.",
      (error: Error) => error.message,
    );
    const outcomes = join(place, "outcomes.json");
    if (!existsSync(outcomes)) throw new Error(`${why} The extension host wrote:\n${written.join("\n")}`);
    return JSON.parse(readFileSync(outcomes, "utf8"));
  } finally {
    await context.close();
    rmSync(place, { recursive: true });
  }
}
