/**
 * Makes the editor extension's package for a platform: staged in a folder of its own, and packed with the editor's own
 * tool.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { root } from "./setup.mjs";
import { manifestOf, stage } from "./stage";

/** The editor's names of platforms, and what the Typst compiler calls them. */
export const PLATFORMS: Readonly<Record<string, string>> = {
  "linux-x64": "linux-x64-gnu",
  "linux-arm64": "linux-arm64-gnu",
  "linux-armhf": "linux-arm-gnueabihf",
  "alpine-x64": "linux-x64-musl",
  "alpine-arm64": "linux-arm64-musl",
  "darwin-x64": "darwin-x64",
  "darwin-arm64": "darwin-arm64",
  "win32-x64": "win32-x64-msvc",
  "win32-arm64": "win32-arm64-msvc",
};

const ENGINE = "@myriaddreamin/typst-ts-node-compiler";

/** The stage holds exactly what is to be packed, and the programs in it are bundled. */
const PACK = ["package", "--no-dependencies", "--allow-missing-repository", "--no-rewrite-relative-links"];

/**
 * Makes the package of a platform at a place, whole or not at all, and tells of its folder before that goes.
 *
 * @param told is given the folder that was packed
 * @throws Error when a source cannot be bundled, or a program that is needed fails
 */
export async function pack(
  target: string,
  made: string,
  told: (folder: string) => void = () => undefined,
): Promise<void> {
  mkdirSync(dirname(made), { recursive: true });
  const half = `${made}.${process.pid}.part`;
  const work = mkdtempSync(join(tmpdir(), "torquil-package-"));
  try {
    const folder = join(work, "extension");
    mkdirSync(folder);
    await stage(folder, engineFor(target, work));
    const packer = join(root, "node_modules/@vscode/vsce/vsce");
    run(process.execPath, [packer, ...PACK, "--target", target, "--out", half], folder);
    renameSync(half, made);
    told(folder);
  } finally {
    rmSync(work, { recursive: true, force: true });
    rmSync(half, { force: true });
  }
}

/** The folder of a platform's part of the Typst compiler: the installed one, or fetched from the registry. */
function engineFor(target: string, work: string): string {
  const name = `${ENGINE}-${PLATFORMS[target]}`;
  const installed = join(root, "node_modules", name);
  if (existsSync(installed)) return installed;
  const wanted = manifestOf(join(root, "node_modules", ENGINE)).version;
  run("npm", ["pack", `${name}@${wanted}`, "--pack-destination", work, "--loglevel=error"], work);
  const archive = readdirSync(work).find((file) => file.endsWith(".tgz"));
  if (!archive) throw new Error(`The npm registry gave no ${name}.`);
  run("tar", ["-xzf", archive], work);
  return join(work, "package");
}

/** Runs a program to its end; what it says is kept unless it fails. */
function run(program: string, args: readonly string[], cwd: string): void {
  const shell = process.platform === "win32" && program === "npm";
  const { status, error, stdout, stderr } = spawnSync(program, args, { cwd, encoding: "utf8", shell });
  if (status !== 0)
    throw new Error(
      `"${[program, ...args].join(" ")}" failed.\n${error?.message ?? `${stdout}${stderr}`.trim()}`,
    );
}
