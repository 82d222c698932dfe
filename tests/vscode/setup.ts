/** Before all tests in VS Code: installs it if need be, packages the extension and starts one code-server for all. */
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { root } from "../../server/tools/setup.mjs";
import { install } from "./install.mjs";
import { startServer } from "./server";

declare module "vitest" {
  export interface ProvidedContext {
    /** Where the code-server for all tests is served. */
    readonly origin: string;
    /** The packaged extension. */
    readonly vsix: string;
    /** The script that starts a code-server. */
    readonly entry: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const entry = await install((line: string) => console.error(line));
  const vsix = packaged();
  const server = await startServer({ entry, vsix: [vsix], trusting: true });
  project.provide("origin", server.origin);
  project.provide("vsix", vsix);
  project.provide("entry", entry);
  return server.stop;
}

/** Packages the extension as it is now, or takes the package that TORQUIL_VSIX names. */
function packaged(): string {
  if (process.env.TORQUIL_VSIX) return process.env.TORQUIL_VSIX;
  const made = spawnSync("npm", ["run", "package"], { cwd: root, encoding: "utf8" });
  const target = `${process.platform}-${process.arch}.vsix`;
  const name = made.status === 0 && readdirSync(join(root, "dist")).find((file) => file.endsWith(target));
  if (!name)
    throw new Error(`"npm run package" made no package for ${target}:\n${made.stdout}${made.stderr}`);
  return join(root, "dist", name);
}
