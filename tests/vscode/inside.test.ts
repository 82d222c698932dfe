/** The tests that run inside the extension host of a real VS Code, each told here under its own name. */
import { inject, test } from "vitest";
import { makeFolder } from "../lsp/client";
import { runInside } from "./inside";
import { MACHINE, PROCEDURE } from "./texts";
import { startBrowser } from "./window";

const folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
const browser = await startBrowser();
const outcomes = await runInside(browser, inject("origin"), folder.path).finally(async () => {
  await browser.close();
  folder.dispose();
});

for (const { name, failure } of outcomes) {
  test(name, () => {
    if (failure) throw new Error(failure);
  });
}
