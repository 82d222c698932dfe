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
import { dirname, join } from "node:path";
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
  const result = await bundle({
    absWorkingDir: root,
    entryPoints: [source],
    outfile: target,
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
    legalComments: "eof",
    logLevel: "silent",
  });
  const file = join(root, target);
  const half = `${file}.${process.pid}.part`;
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(half, result.outputFiles[0].contents);
  renameSync(half, file);
  return true;
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
