/**
 * The benchmark, `npm run bench`. It is bundled like the product before it runs, so that what is timed is what is used.
 *
 * `npm run bench -- 1000 10000` names the numbers of steps.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "torquil-bench-"));
try {
  const outfile = join(folder, "compare.cjs");
  await build({
    absWorkingDir: root,
    entryPoints: ["tests/bench/compare.ts"],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    mainFields: ["module", "main"],
    charset: "utf8",
    logLevel: "warning",
  });
  const run = spawnSync(process.execPath, ["--expose-gc", outfile, ...process.argv.slice(2)], {
    cwd: root,
    stdio: "inherit",
  });
  process.exitCode = run.status ?? 1;
} finally {
  rmSync(folder, { recursive: true });
}
