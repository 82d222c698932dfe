/**
 * The texts that tests try things on: our own examples, and machine and procedure fixtures of the grammar.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** A file of the language, with its path from the root folder. */
export interface Example {
  readonly path: string;
  readonly text: string;
}

/** Every file of the language in a folder and below, in the order of the paths. */
export function examplesIn(folder: string): Example[] {
  const read = (at: string): Example[] =>
    readdirSync(at)
      .sort()
      .flatMap((name) => {
        const path = join(at, name);
        if (statSync(path).isDirectory()) return read(path);
        return name.endsWith(".torquil")
          ? [{ path: relative(root, path), text: readFileSync(path, "utf8") }]
          : [];
      });
  return read(join(root, folder));
}

/** The examples without a fault, and the fixtures of the grammar. */
export function cleanExamples(): Example[] {
  const faulty = (example: Example): boolean => example.path.startsWith("examples/faulty/");
  return [...examplesIn("tests/grammar/fixtures"), ...examplesIn("examples").filter((one) => !faulty(one))];
}
