/** The set-up installs when packages are missing or differ from the lock file, and only then. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { reasonToInstall } from "../../server/tools/setup.mjs";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "torquil-setup-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const LOCKED = {
  "": { version: "0.1.0" },
  "node_modules/one": { version: "1.0.0", integrity: "sha512-1" },
  "node_modules/two": { version: "2.0.0", integrity: "sha512-2", optional: true },
};

/** Writes a lock file, and what npm would leave beside packages it installed. */
function checkout(installed?: Record<string, { version: string; integrity?: string }>): string {
  writeFileSync(join(folder, "package-lock.json"), JSON.stringify({ packages: LOCKED }));
  if (!installed) return folder;
  for (const place of Object.keys(installed)) mkdirSync(join(folder, place), { recursive: true });
  const list = JSON.stringify({ packages: installed });
  writeFileSync(join(folder, "node_modules", ".package-lock.json"), list);
  return folder;
}

test("nothing is to do when all that is needed is there, an optional package or not", () => {
  const { "": _, "node_modules/two": two, ...needed } = LOCKED;
  expect(reasonToInstall(checkout({ ...needed, "node_modules/two": two }))).toBeUndefined();
  expect(reasonToInstall(checkout(needed))).toBeUndefined();
});

test("a fresh clone has to install", () => {
  expect(reasonToInstall(checkout())).toBe("no packages are installed yet");
});

test("a package that is missing, deleted, or of another version or content has to be installed", () => {
  const one = LOCKED["node_modules/one"];
  const two = LOCKED["node_modules/two"];
  expect(reasonToInstall(checkout({ "node_modules/two": two }))).toBe("node_modules/one is missing");
  const other = { ...two, version: "1.9.0" };
  expect(reasonToInstall(checkout({ "node_modules/one": one, "node_modules/two": other }))).toBe(
    "node_modules/two is 1.9.0, not 2.0.0",
  );
  expect(reasonToInstall(checkout({ "node_modules/one": { ...one, integrity: "sha512-9" } }))).toBe(
    "node_modules/one 1.0.0 is not the one locked",
  );
  checkout({ "node_modules/one": one });
  rmSync(join(folder, "node_modules/one"), { recursive: true });
  expect(reasonToInstall(folder)).toBe("node_modules/one is missing");
});
