/**
 * The clean procedures that the judge spoils: the projects under `examples/`, hand-written ones in `clean/`, and
 * generated ones.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { readSettings } from "../../server/project/settings";
import { DEFAULT_RULE_SETTINGS, type RuleSettings } from "../../server/rules";
import { ACTS, DEPARTURES } from "../../server/walk";
import { seeded } from "../support/random";
import { enumerate, type Table } from "../walk/plainly";
import { generate, JOB, type Texts } from "./generate";
import { type Reading, readProcedure } from "./reader";

export const TABLE: Table = { acts: ACTS, departures: DEPARTURES };

export interface Source {
  readonly name: string;
  readonly origin: "example" | "by hand" | "generated";
  readonly texts: Texts;
  /** The file with the procedure. */
  readonly main: string;
  readonly settings: RuleSettings;
  /** As the enumeration takes it; null where the reader cannot follow, with why. */
  readonly reading: Reading | null;
  readonly unread: string;
}

/** All clean sources; so many of them generated, from a seed. */
export function sourcesFrom(root: string, generated: number, seed: number): Source[] {
  const random = seeded(seed);
  const jobs = Array.from({ length: generated }, (_, i) =>
    sourceOf(`generated ${i + 1}`, "generated", generate(random, 3 + (i % 3)), JOB, DEFAULT_RULE_SETTINGS),
  );
  return [...byHand(root), ...examples(root), ...jobs];
}

function byHand(root: string): Source[] {
  const folder = join(root, "tests/judge/clean");
  const alone = readdirSync(folder)
    .filter((name) => name.endsWith(".torquil"))
    .sort()
    .map((name) => {
      const texts = { [name]: readFileSync(join(folder, name), "utf8") };
      return sourceOf(name, "by hand", texts, name, DEFAULT_RULE_SETTINGS);
    });
  return [...alone, ...projectsIn(folder, "by hand")];
}

const examples = (root: string): Source[] =>
  projectsIn(join(root, "examples"), "example").filter(({ name }) => !name.startsWith("faulty/"));

/** Each procedure of each folder that is a project. */
function projectsIn(folder: string, origin: Source["origin"]): Source[] {
  return readdirSync(folder)
    .filter((name) => statSync(join(folder, name)).isDirectory())
    .sort()
    .flatMap((name) => {
      const project = join(folder, name);
      const texts = Object.fromEntries(
        filesIn(project).map((path) => [relative(project, path), readFileSync(path, "utf8")]),
      );
      const settings = settingsIn(project);
      return Object.keys(texts)
        .filter((path) => /^procedure /m.test(texts[path] as string))
        .map((path) => sourceOf(`${name}/${path}`, origin, texts, path, settings));
    });
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".torquil"))
    .sort()
    .map((path) => join(folder, path));
}

function settingsIn(project: string): RuleSettings {
  if (!readdirSync(project).includes("torquil.json")) return DEFAULT_RULE_SETTINGS;
  const { settings } = readSettings(readFileSync(join(project, "torquil.json"), "utf8"));
  return settings.rules;
}

function sourceOf(
  name: string,
  origin: Source["origin"],
  texts: Texts,
  main: string,
  settings: RuleSettings,
): Source {
  const reading = readProcedure(texts, main);
  if (typeof reading === "string")
    return { name, origin, texts, main, settings, reading: null, unread: reading };
  const faults = enumerate(reading.instructions, TABLE, reading.world);
  const unread = faults.length > 0 ? `the enumeration finds ${faults[0]}` : "";
  return { name, origin, texts, main, settings, reading: unread === "" ? reading : null, unread };
}
