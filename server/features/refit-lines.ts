/**
 * The acts of a refit as lines: steps for what goes together, each with a title; acts under one condition in one block.
 */
import { partFacts } from "../facts";
import type { Thing } from "../model";
import { refitWords } from "../phrases/refit";
import type { Language } from "../phrases/sheet";
import type { RightingAct } from "../rules/righting";
import type { Relations } from "../walk";
import type { Guarded } from "./refit-guards";
import type { RefitPlace } from "./refit-spots";

/** One act as it is written: its lines by what is the case. */
export interface WrittenAct {
  readonly act: RightingAct;
  readonly lines: Guarded<readonly string[]>;
  /** The set for each member of which it is done, where the place does not say so. */
  readonly each: string | null;
}

/** Lines for a place, indented by two spaces a level. `taken` are the titles of sections that are there already. */
export function linesFor(
  relations: Relations,
  place: RefitPlace,
  acts: readonly WrittenAct[],
  taken: ReadonlySet<string>,
  language: Language,
): readonly string[] {
  if (place.holds === "lines") return forEach(acts, language);
  const steps = stepsOf(relations, acts).flatMap((own) => [
    `step "${titleOf(relations, own)}" {`,
    ...inside(forEach(own, language)),
    "}",
  ]);
  if (place.holds === "steps") return steps;
  const titles = [refitWords(language, "section"), refitWords(language, "section-rest")];
  const title = titles.find((one) => !taken.has(one)) ?? refitWords(language, "section-last");
  return [`section "${title}" {`, ...inside(steps), "}"];
}

const inside = (lines: readonly string[]): readonly string[] => lines.map((line) => `  ${line}`);

/** Asks nothing that was asked before, and nothing that makes no difference. */
export function collapsed(
  lines: Guarded<readonly string[]>,
  known: ReadonlyMap<string, boolean> = new Map(),
): Guarded<readonly string[]> {
  if ("leaf" in lines) return lines;
  const { condition } = lines;
  const is = known.get(condition.text);
  if (is !== undefined) return collapsed(is ? lines.yes : lines.no, known);
  const [yes, no] = [true, false].map((holds) => {
    const more = new Map(known).set(condition.text, holds);
    if (condition.opposite !== "") more.set(condition.opposite, !holds);
    return collapsed(holds ? lines.yes : lines.no, more);
  }) as [Guarded<readonly string[]>, Guarded<readonly string[]>];
  return JSON.stringify(yes) === JSON.stringify(no) ? yes : { ...lines, yes, no };
}

/** What an act on one thing does, by which acts stand in one step. */
type Work = "fasten" | "connect" | "fluids" | "let go" | "supply";

function workOf({ fastenersOf }: Relations, { verb, thing, onWheels }: RightingAct): Work {
  if (onWheels) return "let go";
  switch (verb) {
    case "connect":
      if (fastenersOf(thing).length > 0) return "fasten";
      return partFacts(thing.entry).battery ? "supply" : "connect";
    case "restore":
      return "supply";
    case "close":
    case "fill":
      return "fluids";
    case "pull":
    case "release":
    case "lower":
    case "stop":
      return "let go";
    default:
      return "fasten";
  }
}

/** Acts in steps: a part with what secures it, and the small parts right under it; a belt by itself. */
function stepsOf(relations: Relations, acts: readonly WrittenAct[]): readonly (readonly WrittenAct[])[] {
  const steps: WrittenAct[][] = [];
  for (const one of acts) {
    const last = steps.at(-1);
    if (
      last &&
      goesWith(
        relations,
        one.act,
        last.map(({ act }) => act),
      )
    )
      last.push(one);
    else steps.push([one]);
  }
  return steps;
}

function goesWith(relations: Relations, act: RightingAct, step: readonly RightingAct[]): boolean {
  const [first] = step;
  if (!first || workOf(relations, first) !== workOf(relations, act)) return false;
  if (workOf(relations, act) !== "fasten" || !isPart(act)) return true;
  if (step.some(({ thing }) => thing.kind === "fastener" || thing.kind === "belt")) return false;
  const last = step.findLast(isPart);
  return last?.verb === act.verb && (act.verb === "connect" || isUnder(relations, last.thing, act.thing));
}

const isUnder = ({ fronts }: Relations, thing: Thing, front: Thing): boolean =>
  front.kind !== "belt" && fronts(thing, "tighten").includes(front);

const isPart = ({ verb, thing }: RightingAct): boolean =>
  (verb === "fit" && thing.kind !== "fastener") || verb === "connect";

/** At most so many things are named in the title of a step. */
const MOST_NAMED = 3;

function titleOf({ fastenersOf }: Relations, acts: readonly WrittenAct[]): string {
  const things = [...new Set(acts.map(({ act }) => act.thing))];
  const parts = things.filter((thing) => thing.kind !== "fastener");
  const held = parts.filter((thing) => fastenersOf(thing).some((f) => things.includes(f)));
  const isFitting = acts.some(({ act }) => isPart(act));
  const named = isFitting ? (held.length > 0 ? held : parts.slice(-MOST_NAMED)) : things;
  const titles = named.slice(0, MOST_NAMED).map((thing: Thing) => thing.title || thing.name);
  return titles.join(", ").replace(/"/g, '\\"');
}

function forEach(acts: readonly WrittenAct[], language: Language): readonly string[] {
  return runsOf(acts, (one) => one.each ?? "").flatMap((run) => {
    const lines = guardedLines(
      run.map((one) => one.lines),
      language,
    );
    const set = run[0]?.each;
    return set ? [`for each ${set} {`, ...inside(lines), "}"] : lines;
  });
}

/** Lines one after the other, those under one condition in one block. */
export function guardedLines(
  all: readonly Guarded<readonly string[]>[],
  language: Language,
): readonly string[] {
  return runsOf(all, (one) => ("leaf" in one ? "" : one.condition.text)).flatMap((run) => {
    const [first] = run;
    if (!first || "leaf" in first) return run.flatMap((one) => ("leaf" in one ? one.leaf : []));
    const partings = run.flatMap((one) => ("leaf" in one ? [] : [one]));
    const yes = guardedLines(
      partings.map((one) => one.yes),
      language,
    );
    const no = guardedLines(
      partings.map((one) => one.no),
      language,
    );
    const { text, opposite } = first.condition;
    const when = (condition: string, lines: readonly string[]): readonly string[] =>
      lines.length === 0 ? [] : [condition, ...inside(lines), "}"];
    if (yes.length > 0) return [...when(`when ${text} {`, yes), ...when("otherwise {", no)];
    if (opposite !== "") return when(`when ${opposite} {`, no);
    return [
      ...when(`when ${text} {`, [`"${refitWords(language, "nothing-then")}"`]),
      ...when("otherwise {", no),
    ];
  });
}

function runsOf<T>(items: readonly T[], key: (item: T) => string): readonly (readonly T[])[] {
  const runs: T[][] = [];
  for (const item of items) {
    const last = runs.at(-1);
    if (last && key(last[0] as T) === key(item)) last.push(item);
    else runs.push([item]);
  }
  return runs;
}
