/**
 * Makes the checkout ready to run: installs the packages that package-lock.json names when they are missing or differ.
 *
 * Every npm script starts with it, so that a fresh clone needs no separate installation. It is plain JavaScript on
 * Node alone, for it runs before any package is there. When nothing is to do it only reads two files.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, realpathSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The root folder of the checkout. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

const OLDEST_NODE = [20, 20];

/**
 * Tells why the installed packages of a checkout do not serve, in words; undefined when they do.
 *
 * npm keeps a list of what it installed in node_modules/.package-lock.json. A package that the lock file calls
 * optional may be absent (it is another platform's), but a present one has to be of the stated version.
 *
 * @param {string} folder the root folder of the checkout
 * @returns {string | undefined}
 */
export function reasonToInstall(folder) {
  const wanted = readPackages(join(folder, "package-lock.json"));
  if (!wanted) return undefined;
  const present = readPackages(join(folder, "node_modules", ".package-lock.json"));
  if (!present) return "no packages are installed yet";
  for (const [place, entry] of Object.entries(wanted)) {
    if (place === "") continue;
    const found = present[place];
    if (!found && entry.optional) continue;
    if (!found || !existsSync(join(folder, place))) return `${place} is missing`;
    if (found.version !== entry.version) return `${place} is ${found.version}, not ${entry.version}`;
    if (found.integrity !== entry.integrity) return `${place} ${found.version} is not the one locked`;
  }
  return undefined;
}

/**
 * Installs what is missing with `npm ci`; quick when nothing is. Ends the process with a message when it cannot.
 *
 * @returns {void}
 */
export function setUp() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor < OLDEST_NODE[1]))
    give(`Torquil needs Node ${OLDEST_NODE.join(".")} or newer; this is Node ${process.versions.node}.`);
  const reason = reasonToInstall(root);
  if (!reason) return;
  console.error(`Setting up: ${reason}; running "npm ci" (under a minute, once).`);
  const result = runNpm([
    "ci",
    "--include=dev",
    "--include=optional",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
  ]);
  if (result.error || result.status !== 0) {
    console.error(`${result.stdout ?? ""}${result.stderr ?? ""}${result.error?.message ?? ""}`.trim());
    give('The packages could not be installed: see above, then try again or run "npm ci" by hand.');
  }
}

/** Runs npm: the one that runs this script when there is one, else the one on the path. */
function runNpm(args) {
  const options = { cwd: root, encoding: "utf8" };
  const own = process.env.npm_execpath;
  if (own && /npm-cli\.c?js$/.test(own)) return spawnSync(process.execPath, [own, ...args], options);
  return spawnSync("npm", args, { ...options, shell: process.platform === "win32" });
}

/** The `packages` of an npm lock file by place; undefined when the file is absent or cannot be read. */
function readPackages(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8")).packages;
  } catch {
    return undefined;
  }
}

function give(message) {
  console.error(message);
  process.exit(1);
}

if (process.argv[1] && realpathSync(process.argv[1]) === realpathSync(fileURLToPath(import.meta.url)))
  setUp();
