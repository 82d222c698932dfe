/** Runs a program of the tests as the product runs: bundled. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** Bundles a module, given from the root folder, and runs it there; its exit code. */
export async function runBundled(module: string, args: readonly string[]): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), "torquil-bundled-"));
  try {
    const outfile = join(folder, "program.cjs");
    await build({
      absWorkingDir: root,
      entryPoints: [module],
      outfile,
      bundle: true,
      platform: "node",
      target: "node20",
      format: "cjs",
      mainFields: ["module", "main"],
      charset: "utf8",
      logLevel: "warning",
    });
    const run = spawnSync(process.execPath, ["--expose-gc", outfile, ...args], {
      cwd: root,
      stdio: "inherit",
    });
    return run.status ?? 1;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
