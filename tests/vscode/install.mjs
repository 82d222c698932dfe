/**
 * Installs the VS Code that the tests drive: code-server, a real VS Code that is served to a browser, from the npm
 * registry alone. It goes into a folder outside the checkout, once, whole or not at all.
 *
 * Plain JavaScript on Node alone, for it is also run by hand: `node tests/vscode/install.mjs`.
 */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The newest that runs on Node 20; it holds VS Code 1.100. */
const VERSION = "4.100.3";

/** The commands that are needed, and the Debian package each comes from. */
const NEEDED = {
  chromium: "chromium",
  "g++": "g++",
  git: "git",
  make: "make",
  pdftotext: "poppler-utils",
  python3: "python3",
  rg: "ripgrep",
};

/** Where the installed code-server stands: a folder of its own in TORQUIL_VSCODE or in the user's cache. */
export const place = join(
  process.env.TORQUIL_VSCODE || join(process.env.XDG_CACHE_HOME || join(homedir(), ".cache"), "torquil"),
  `code-server-${VERSION}`,
);

/** The script that starts code-server. */
export const entry = join(place, "node_modules/code-server/out/node/entry.js");

/**
 * Finds a command on the path.
 *
 * @param {string} command
 * @returns {string | undefined} its full path
 */
export function find(command) {
  return (process.env.PATH ?? "")
    .split(":")
    .map((folder) => join(folder, command))
    .find((file) => existsSync(file));
}

/**
 * Installs code-server unless it is there.
 *
 * @param {(line: string) => void} say is told what goes on
 * @returns {Promise<string>} the script that starts it
 * @throws when a Debian package is missing, Node is not 20, or npm fails; the message tells the way out
 */
export async function install(say = () => {}) {
  const missing = Object.keys(NEEDED).filter((command) => !find(command));
  if (missing.length > 0)
    throw new Error(
      `VS Code cannot be tested without ${missing.join(", ")}; on Debian: ` +
        `apt-get install ${missing.map((command) => NEEDED[command]).join(" ")}`,
    );
  if (existsSync(entry)) return entry;
  if (!process.version.startsWith("v20."))
    throw new Error(`code-server ${VERSION} runs on Node 20 only; this is Node ${process.version.slice(1)}.`);
  mkdirSync(dirname(place), { recursive: true });
  const half = mkdtempSync(`${place}.part-`);
  try {
    say(`Installing code-server ${VERSION} into ${place} (a minute or two, once).`);
    await installInto(half);
    if (!existsSync(entry)) renameSync(half, place);
  } finally {
    rmSync(half, { recursive: true, force: true });
  }
  return entry;
}

/** The plain installation stops at a native package that nothing here uses, so scripts run only where they must. */
async function installInto(folder) {
  const server = join(folder, "node_modules/code-server");
  const vscode = join(server, "lib/vscode");
  await npm(folder, "init", "--yes");
  await npm(folder, "install", "--ignore-scripts", `code-server@${VERSION}`);
  await Promise.all([
    npm(folder, "rebuild", "argon2"),
    npm(vscode, "install", "--omit=dev", "--ignore-scripts").then(() =>
      npm(vscode, "rebuild", "@vscode/spdlog", "native-watchdog", "node-pty"),
    ),
    npm(join(vscode, "extensions"), "install", "--omit=dev", "--ignore-scripts"),
  ]);
  symlinkSync("node_modules", join(vscode, "node_modules.asar"));
  const search = join(vscode, "node_modules/@vscode/ripgrep/bin");
  mkdirSync(search, { recursive: true });
  rmSync(join(search, "rg"), { force: true });
  symlinkSync(find("rg"), join(search, "rg"));
}

/** Runs npm in a folder; fails with what npm wrote. */
function npm(folder, ...words) {
  const { npm_config_local_prefix: _, ...env } = process.env;
  // One of the packages calls a builder through npx, which would ask whether it may.
  env.npm_config_yes = "true";
  const headers = [dirname(dirname(realpathSync(process.execPath))), "/usr"].find((at) =>
    existsSync(join(at, "include/node/node.h")),
  );
  if (headers) env.npm_config_nodedir = headers;
  const child = spawn("npm", [...words, "--no-audit", "--no-fund", "--loglevel=error"], { cwd: folder, env });
  let written = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (data) => (written += data));
  return new Promise((done, fail) => {
    child.on("error", fail);
    child.on("close", (code) => {
      if (code === 0) done();
      else fail(new Error(`"npm ${words.join(" ")}" failed in ${folder}:\n${written.trim()}`));
    });
  });
}

async function main() {
  await install((line) => console.error(line));
  console.log(`code-server ${VERSION} is in ${place}.`);
}

if (process.argv[1] && realpathSync(process.argv[1]) === realpathSync(fileURLToPath(import.meta.url))) {
  main().catch((error) => {
    console.error(error.message);
    process.exit(1);
  });
}
