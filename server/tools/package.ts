/**
 * `npm run package`: makes the editor extension's package for a platform, dist/torquil-VERSION-PLATFORM.vsix, and tells
 * its size and what takes it. `-- --target PLATFORM` makes another platform's, with that one's Typst compiler from the
 * npm registry.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { deflateRawSync } from "node:zlib";
import { PLATFORMS, pack } from "./pack";
import { root } from "./setup.mjs";
import { version } from "./stage";

/** So many of the largest files are named. */
const NAMED = 12;

async function main(args: readonly string[]): Promise<void> {
  const target = targetOf(args);
  const made = join(root, "dist", `torquil-${version()}-${target}.vsix`);
  await pack(target, made, (folder) => console.log(sizes(folder, made)));
}

function targetOf(args: readonly string[]): string {
  const [option, target = `${process.platform}-${process.arch}`, ...more] = args;
  const known = Object.keys(PLATFORMS).join(", ");
  if ((option !== undefined && option !== "--target") || more.length > 0)
    throw new Error(`Say nothing, or --target and one of ${known}.`);
  if (!(target in PLATFORMS))
    throw new Error(`There is no package for ${target}: the platforms are ${known}.`);
  return target;
}

/** A table of the largest files as they lie in the package, and the size of the whole. */
function sizes(folder: string, made: string): string {
  const all = filesIn(folder).map((file) => {
    const contents = readFileSync(file);
    return { name: relative(folder, file), packed: deflateRawSync(contents).length, whole: contents.length };
  });
  const rows = all.sort((a, b) => b.packed - a.packed).slice(0, NAMED);
  const line = (packed: number, whole: number, name: string): string =>
    `${megabytes(packed)} ${megabytes(whole)}  ${name}`;
  const unpacked = all.reduce((sum, { whole }) => sum + whole, 0);
  return [
    "  packed  unpacked",
    ...rows.map(({ packed, whole, name }) => line(packed, whole, name)),
    line(statSync(made).size, unpacked, `in all: ${relative(root, made)}, ${all.length} files`),
  ].join("\n");
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? filesIn(path) : [path];
  });
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(2)} MB`.padStart(9);
}

main(process.argv.slice(2)).catch((error: Error) => {
  console.error(`The extension could not be packaged. ${error.message}`);
  process.exitCode = 1;
});
