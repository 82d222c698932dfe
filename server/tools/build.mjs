/**
 * Bundles the command line and the language server, one file each: dist/torquil.js and dist/server.js.
 *
 * Everything is in the bundle but the Typst compiler, which is native code and stays in node_modules. An entry whose
 * source is absent is skipped. Bundles are written whole or not at all.
 */
import {
  existsSync,
  mkdirSync,
  readdirSync,
  realpathSync,
  renameSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "./setup.mjs";

/** What is built: the source each bundle starts from, and where the bundle goes; paths from the root folder. */
export const bundles = {
  torquil: { source: "server/cli/main.ts", target: "dist/torquil.js" },
  server: { source: "server/lsp/main.ts", target: "dist/server.js" },
};

// Packages in CommonJS call `require`, which a bundle of ES modules does not have by itself.
const REQUIRE_FOR_COMMONJS =
  'import { createRequire as torquilRequire } from "node:module"; globalThis.require ??= torquilRequire(import.meta.url);';

/** How a program for Node is bundled. */
const PROGRAM = {
  absWorkingDir: root,
  bundle: true,
  write: false,
  platform: "node",
  target: "node20",
  format: "esm",
  charset: "utf8",
  // Some packages hold ES modules beside a form for browsers that cannot be bundled; take the modules.
  mainFields: ["module", "main"],
  external: ["@myriaddreamin/typst-ts-node-compiler"],
  banner: { js: REQUIRE_FOR_COMMONJS },
  logLevel: "silent",
};

/** How the editor extension's own part is bundled: the editor loads it with `require`, and is itself what it imports. */
const CLIENT = {
  ...PROGRAM,
  format: "cjs",
  mainFields: ["main", "module"],
  external: ["vscode"],
  banner: {},
};

const BUILT_FROM = ["grammar", "server", "package-lock.json"];

/**
 * Tells whether a bundle has to be built: its source is there, and the bundle is absent or older than any source.
 *
 * @param {{ source: string, target: string }} bundle
 * @returns {boolean}
 */
export function isStale({ source, target }) {
  if (!existsSync(join(root, source))) return false;
  const built = modified(join(root, target));
  return built === undefined || BUILT_FROM.some((place) => newest(join(root, place)) > built);
}

/**
 * Builds one bundle.
 *
 * @param {{ source: string, target: string }} bundle
 * @returns {Promise<boolean>} whether there was a source to build from
 * @throws when the source cannot be bundled; esbuild's messages tell the place
 */
export async function build({ source, target }) {
  if (!existsSync(join(root, source))) return false;
  const { build: bundle } = await import("esbuild");
  const result = await bundle({ ...PROGRAM, entryPoints: [source], outfile: target, legalComments: "eof" });
  const file = join(root, target);
  const half = `${file}.${process.pid}.part`;
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(half, result.outputFiles[0].contents);
  renameSync(half, file);
  return true;
}

/**
 * Bundles what the editor extension runs, as small as it can be: client.js for the editor; server.mjs and torquil.mjs,
 * which share what both need.
 *
 * @returns {Promise<{ files: { path: string, contents: Uint8Array }[], packages: string[] }>} the files, by their names
 *   in one folder, and the folders of the packages that are in them, from the root folder
 * @throws when a source cannot be bundled; esbuild's messages tell the place
 */
export async function bundleExtension() {
  const { build: bundle } = await import("esbuild");
  // Whose work is in a bundle is said in a file beside it, and not once more in the code.
  const small = { minify: true, legalComments: "none", metafile: true, outdir: "dist" };
  const results = await Promise.all([
    bundle({ ...CLIENT, ...small, entryPoints: { client: "client/src/extension.ts" } }),
    bundle({
      ...PROGRAM,
      ...small,
      splitting: true,
      outExtension: { ".js": ".mjs" },
      entryPoints: { server: bundles.server.source, torquil: bundles.torquil.source },
    }),
  ]);
  const files = results.flatMap(({ outputFiles }) =>
    outputFiles.map(({ path, contents }) => ({ path: basename(path), contents })),
  );
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const packages = inputs.flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path) ?? []);
  return { files, packages: [...new Set(packages)].sort() };
}

/** The newest time of change (ms since 1970) of a file, or of the files anywhere in a folder; 0 when there is none. */
function newest(place) {
  if (!existsSync(place)) return 0;
  if (!statSync(place).isDirectory()) return modified(place) ?? 0;
  return Math.max(
    0,
    ...readdirSync(place, { withFileTypes: true }).map((entry) => newest(join(place, entry.name))),
  );
}

function modified(file) {
  return existsSync(file) ? statSync(file).mtimeMs : undefined;
}

async function main() {
  for (const bundle of Object.values(bundles)) {
    if (await build(bundle)) console.error(`Built ${bundle.target} from ${bundle.source}.`);
  }
}

if (process.argv[1] && realpathSync(process.argv[1]) === realpathSync(fileURLToPath(import.meta.url))) {
  main().catch((error) => {
    console.error(`The build failed. ${error.message}`);
    process.exit(1);
  });
}
