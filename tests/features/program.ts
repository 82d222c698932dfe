/**
 * Instances of the program for the tests that compare two of them: bundled like the product, and loaded anew each
 * time, so that no instance shares a cache with another. A bundle also runs as fast as the product does.
 */
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { compileFunction } from "node:vm";
import { build } from "esbuild";

/** The modules of one instance of the program. */
export interface Program {
  readonly grammar: typeof import("../../grammar");
  readonly project: typeof import("../../server/project");
  readonly features: typeof import("../../server/features");
}

const root = fileURLToPath(new URL("../../", import.meta.url));
const ENTRY = `
export * as grammar from "./grammar";
export * as project from "./server/project";
export * as features from "./server/features";
`;

let bundled: Promise<string> | undefined;

async function bundle(): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents: ENTRY, resolveDir: root, loader: "ts" },
    bundle: true,
    write: false,
    platform: "node",
    target: "node20",
    format: "cjs",
    charset: "utf8",
    mainFields: ["module", "main"],
    external: ["@myriaddreamin/typst-ts-node-compiler"],
    // Fonts are found from where a module lies, which a text has no place to tell; nothing here prints.
    define: { "import.meta.url": "undefined" },
    logLevel: "silent",
  });
  return outputFiles[0]?.text ?? "";
}

/** Loads an instance of its own; `Weak` takes the place of the class that its caches are made of. */
export async function loadProgram(Weak: WeakMapConstructor = WeakMap): Promise<Program> {
  bundled ??= bundle();
  const module: { exports: unknown } = { exports: {} };
  const run = compileFunction(await bundled, ["module", "exports", "require", "WeakMap"]);
  run(module, module.exports, createRequire(import.meta.url), Weak);
  return module.exports as Program;
}
