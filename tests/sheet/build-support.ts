/** Sheets built from texts and from the examples, and ways to look into them. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Procedure, Project } from "../../server/model";
import type { Block, Runs, Sheet, Step, Work } from "../../server/sheet/blocks";
import { buildSheet, type SheetOptions } from "../../server/sheet/build";
import { projectOf } from "../support/project";

const OPTIONS: SheetOptions = {
  language: "en",
  paper: "a4",
  units: "both",
  draft: false,
  pictures: () => undefined,
};

/** The project of an example's folder. */
export function exampleProject(name: string): Project {
  const folder = fileURLToPath(new URL(`../../examples/${name}/`, import.meta.url));
  const files = readdirSync(folder).filter((file) => file.endsWith(".torquil"));
  return projectOf(Object.fromEntries(files.map((file) => [file, readFileSync(join(folder, file), "utf8")])));
}

/** The procedure of this name, or the only one. */
export function procedureIn(project: Project, name?: string): Procedure {
  const all = [...project.files.values()].flatMap(({ procedures }) => procedures);
  const found = name === undefined ? all[0] : all.find(({ thing }) => thing.name === name);
  if (!found) throw new Error(`no procedure ${name}`);
  return found;
}

/** The sheet of an example. */
export function exampleSheet(name: string, options: Partial<SheetOptions> = {}): Sheet {
  const project = exampleProject(name);
  return buildSheet(project, procedureIn(project), { ...OPTIONS, ...options });
}

/** The sheet of one text, or of several by path. */
export function sheetOf(
  text: string | Readonly<Record<string, string>>,
  options: Partial<SheetOptions> = {},
  name?: string,
): Sheet {
  const project = projectOf(typeof text === "string" ? { "a.torquil": text } : text);
  return buildSheet(project, procedureIn(project, name), { ...OPTIONS, ...options });
}

/** A procedure on a machine: what is declared of the machine, the procedure's header, and its steps. */
export function small(machine: string, header: string, steps: string): string {
  return `torquil 1\nmachine gull "Gull"  {\n${machine}\n}\nprocedure job "Job" {\non gull\n${header}\n${steps}\n}\n`;
}

/** The block of a kind. */
export function block<K extends Block["kind"]>(sheet: Sheet, kind: K): Extract<Block, { kind: K }> {
  const found = sheet.blocks.find((one): one is Extract<Block, { kind: K }> => one.kind === kind);
  if (!found) throw new Error(`no block ${kind}`);
  return found;
}

/** Everything in the sections, what stands in steps, conditions and outcomes included. */
export function works(sheet: Sheet): readonly (Work | Step)[] {
  const deep = (work: Work | Step): readonly (Work | Step)[] => {
    const body = "body" in work ? work.body : [];
    const outcomes = "outcomes" in work ? work.outcomes.flatMap((outcome) => outcome.body) : [];
    return [work, ...body.flatMap(deep), ...outcomes.flatMap(deep)];
  };
  return sheet.blocks.flatMap((one) => (one.kind === "section" ? one.blocks.flatMap(deep) : []));
}

/** The works of a kind. */
export function all<K extends (Work | Step)["kind"]>(
  sheet: Sheet,
  kind: K,
): readonly ((Work | Step) & { readonly kind: K })[] {
  return works(sheet).filter((work): work is (Work | Step) & { readonly kind: K } => work.kind === kind);
}

/** The step or check with this number. */
export function numbered(sheet: Sheet, number: number): Step {
  const found = works(sheet).find(
    (work): work is Step => "outcomes" in work && work.number === String(number),
  );
  if (!found) throw new Error(`no step ${number}`);
  return found;
}

/** Runs as text, no-break spaces as spaces. */
export function text(runs: Runs | undefined): string {
  return (runs ?? [])
    .map((run) => run.text)
    .join("")
    .replaceAll("\u00a0", " ");
}

/** The sentences of a step's acts, those of its conditions and outcomes included. */
export function sentencesOf(sheet: Sheet, number: number): string[] {
  const of = (work: Work | Step): string[] => {
    if (work.kind === "action" || work.kind === "wait") return [text(work.sentence)];
    const outcomes = "outcomes" in work ? work.outcomes.flatMap((outcome) => outcome.body.flatMap(of)) : [];
    return ["body" in work ? work.body.flatMap(of) : [], outcomes].flat();
  };
  return of(numbered(sheet, number));
}

/** The ids of everything in a sheet. */
export function idsOf(value: unknown): string[] {
  if (value === null || typeof value !== "object") return [];
  const own = "id" in value && typeof value.id === "string" && !isRef(value) ? [value.id] : [];
  return [...own, ...Object.values(value).flatMap(idsOf)];
}

const isRef = (value: object): boolean => "number" in value && !("kind" in value);
