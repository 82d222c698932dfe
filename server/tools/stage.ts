/**
 * Lays out in a folder what the editor extension's package holds: its manifest, its programs, and of the packages that
 * are not in those only what is read when a sheet is set.
 */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { FONT_FILES } from "../project/fonts";
import { bundleExtension } from "./build.mjs";
import { root } from "./setup.mjs";

const ENGINE = "node_modules/@myriaddreamin/typst-ts-node-compiler";
const FONTS = "node_modules/@expo-google-fonts";

/** What is copied as it is: from the checkout, into the package. */
const COPIED: Readonly<Record<string, string>> = {
  LICENSE: "LICENSE.txt",
  "CHANGELOG.md": "CHANGELOG.md",
  "client/README.md": "README.md",
  "client/language-configuration.json": "language-configuration.json",
  "grammar/torquil.tmLanguage.json": "grammar/torquil.tmLanguage.json",
  "server/project/torquil.schema.json": "torquil.schema.json",
};

/** Whole folders that are copied: from the checkout, into the package. */
const FOLDERS: Readonly<Record<string, string>> = { "client/icons": "icons", "client/media": "media" };

/**
 * Fills an empty folder.
 *
 * @param engine the folder of the platform's part of the Typst compiler
 */
export async function stage(folder: string, engine: string): Promise<void> {
  const copy = (from: string, to: string): void => {
    mkdirSync(dirname(join(folder, to)), { recursive: true });
    copyFileSync(from, join(folder, to));
  };
  const write = (to: string, contents: string | Uint8Array): void => {
    mkdirSync(dirname(join(folder, to)), { recursive: true });
    writeFileSync(join(folder, to), contents);
  };
  const copyFolder = (from: string, to: string): void => {
    for (const { name } of readdirSync(from, { withFileTypes: true }).filter((entry) => entry.isFile()))
      copy(join(from, name), join(to, name));
  };
  for (const [from, to] of Object.entries(COPIED)) copy(join(root, from), to);
  for (const [from, to] of Object.entries(FOLDERS)) copyFolder(join(root, from), to);
  write("package.json", manifest());
  const { files, packages } = await bundleExtension();
  for (const { path, contents } of files) write(`dist/${path}`, contents);
  write("THIRD-PARTY-LICENSES.txt", licences(packages));
  // Beside the programs, where Node looks for them first.
  for (const name of readdirSync(join(root, ENGINE)).filter((name) => !/\.d\.ts$|\.md$/.test(name)))
    copy(join(root, ENGINE, name), join("dist", ENGINE, name));
  copyFolder(engine, join("dist", dirname(ENGINE), manifestOf(engine).name.split("/").at(-1) as string));
  for (const file of FONT_FILES) copy(join(root, FONTS, file), join("dist", FONTS, file));
  for (const name of new Set(FONT_FILES.map((file) => file.split("/")[0] as string)))
    copy(join(root, FONTS, name, "LICENSE_FONT"), join("dist", FONTS, name, "LICENSE_FONT"));
}

/** The extension's manifest, with the version that this checkout has. */
function manifest(): string {
  const own = manifestOf(join(root, "client"));
  return `${JSON.stringify({ ...own, version: version() }, null, 2)}\n`;
}

/** The version of this checkout. */
export function version(): string {
  return manifestOf(root).version;
}

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** The package.json of a folder. */
export function manifestOf(folder: string): Manifest {
  return JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
}

/** What the licences of bundled packages want said wherever they go. */
function licences(packages: readonly string[]): string {
  const parts = packages.map((folder) => {
    const { name, version: own, license } = manifestOf(join(root, folder));
    const file = readdirSync(join(root, folder)).find((entry) => /^licen[cs]e/i.test(entry));
    const text =
      file && existsSync(join(root, folder, file)) ? readFileSync(join(root, folder, file), "utf8") : "";
    return `${name} ${own} (${license ?? "licence below"})\n\n${text.trim()}\n`;
  });
  return parts.join(`\n${"-".repeat(80)}\n\n`);
}
