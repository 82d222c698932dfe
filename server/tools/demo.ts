/**
 * `npm run demo`: checks every example, the faulty ones aside, and prints each as PDF and as a web page into `out/`.
 * It ends with 1 when anything is found in them, hints too, or when one cannot be printed.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { bundles } from "./build.mjs";
import { root } from "./setup.mjs";

/** Runs the bundle in the root folder; what it says goes to the terminal unless it is kept. */
function torquil(args: readonly string[], keep = false): { readonly code: number; readonly out: string } {
  const done = spawnSync(process.execPath, [join(root, bundles.torquil.target), ...args], {
    cwd: root,
    encoding: "utf8",
    stdio: ["ignore", keep ? "pipe" : "inherit", "inherit"],
    maxBuffer: 1 << 28,
  });
  return { code: done.status ?? 2, out: done.stdout ?? "" };
}

/** The folders of examples that have to be clean. */
function cleanExamples(): string[] {
  const folder = join(root, "examples");
  const names = existsSync(folder) ? readdirSync(folder, { withFileTypes: true }) : [];
  return names
    .filter((entry) => entry.isDirectory() && entry.name !== "faulty" && holdsText(join(folder, entry.name)))
    .map((entry) => `examples/${entry.name}`)
    .filter((place) =>
      readdirSync(join(root, place), { recursive: true, encoding: "utf8" }).some(isProcedureFile),
    )
    .sort();
}

function isProcedureFile(path: string): boolean {
  return path.endsWith(".torquil");
}

const holdsText = (folder: string): boolean => readdirSync(folder).some((name) => name.endsWith(".torquil"));

function demo(): number {
  const examples = cleanExamples();
  console.log(`Checking ${examples.join(", ")} …`);
  const report = JSON.parse(torquil(["check", "--json", ...examples], true).out);
  const found = report.findings.length + report.problems.length;
  console.log(`${report.summary.files} files, ${found === 0 ? "nothing" : found} found.\n`);
  if (found > 0) {
    torquil(["check", ...examples]);
    return 1;
  }
  console.log("Printing the sheets …");
  if (torquil(["print", ...examples, "--to", "both", "--out", "out"]).code !== 0) return 1;
  const here = relative(process.cwd(), root);
  console.log(
    `\nThe sheets are in ${join(here, "out")}/, and index.html there lists them: PDF to hang in the workshop, HTML to open in a browser.`,
  );
  console.log('For what the checker says about mistakes: "npx torquil check examples/faulty".');
  return 0;
}

process.exitCode = demo();
