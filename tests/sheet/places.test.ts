/** The sheet is the same bytes in another place: bundled, in other folders, time zones and languages. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, expect, it } from "vitest";
import { renderHtml } from "../../server/sheet/html";
import { BELT_SHEET } from "./fixture";
import { pdfOf } from "./typesetter";

const ROOT = join(import.meta.dirname, "../..");
// In the project's own tree, since the bundle looks for its packages from where it lies.
mkdirSync(join(ROOT, "node_modules/.cache"), { recursive: true });
const folder = mkdtempSync(join(ROOT, "node_modules/.cache/sheet-"));
afterAll(() => rmSync(folder, { recursive: true }));

it("gives the same bytes", async () => {
  const outfile = join(folder, "print.mjs");
  await build({
    entryPoints: [join(import.meta.dirname, "print.ts")],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["@myriaddreamin/typst-ts-node-compiler"],
    logLevel: "silent",
  });
  const digest = (content: string | Uint8Array) => createHash("sha256").update(content).digest("hex");
  const here = `${digest(pdfOf(BELT_SHEET).bytes)} ${digest(renderHtml(BELT_SHEET))}\n`;
  const places = [
    { cwd: tmpdir(), TZ: "Pacific/Kiritimati", LANG: "ja_JP.UTF-8", LC_ALL: "ja_JP.UTF-8" },
    { cwd: folder, TZ: "America/Anchorage", LANG: "C", LC_ALL: "C" },
  ];
  for (const { cwd, ...env } of places) {
    const there = execFileSync(process.execPath, [outfile], {
      cwd,
      env: { ...process.env, ...env },
      encoding: "utf8",
    });
    expect(there).toBe(here);
  }
});
