/**
 * What tells apart the ways on which a thing stands differently: a condition that is chosen once, or how a recorded check
 * turned out. It is found by asking: a text is tried that parts the ways by it at the place, and the walk says how the
 * thing stands on either side.
 */
import { checkOf, type Entry, namesIn } from "../facts";
import type { Procedure, Project, Thing } from "../model";
import { type Asked, differencesAt, type Stand, type Walk } from "../walk";
import { graphOf } from "../walk/graph";
import { relationsOf } from "../walk/relations";
import { owedKey } from "./refit-dues";
import type { RefitPlace } from "./refit-spots";
import { tried } from "./trial";

/** Something that parts the ways, as it is written after `when`. */
export interface Condition {
  readonly text: string;
  /** The opposite, where it can be written; else it is `otherwise`. */
  readonly opposite: string;
}

/** What is the case on the ways, by conditions that are asked one after the other. */
export type Guarded<T> = { readonly leaf: T } | Parting<T>;

export interface Parting<T> {
  readonly condition: Condition;
  readonly yes: Guarded<T>;
  readonly no: Guarded<T>;
}

/** The same with something else on each side. */
export function mapped<A, B>(tree: Guarded<A>, make: (leaf: A) => B): Guarded<B> {
  if ("leaf" in tree) return { leaf: make(tree.leaf) };
  return { ...tree, yes: mapped(tree.yes, make), no: mapped(tree.no, make) };
}

/** Says by which conditions the ways part on which a thing stands differently at a place; null where none tell. */
export type Guards = (place: RefitPlace, thing: Thing) => Guarded<Stand> | null;

/** So many conditions, one in the other, are tried at most, and of those that tell something the best so many. */
const DEEPEST = 4;
const MOST_TRIED = 3;

/** What can be asked of a procedure. Texts that were tried are kept, since many things ask the same. */
export function guardsOf(project: Project, procedure: Procedure, walk: Walk): Guards {
  const conditions = conditionsIn(walk);
  const kept = new Map<string, Sides | null>();
  const sidesOf: SidesOf = (place, path) => {
    const key = `${place.line} ${path.map(({ condition, holds }) => `${holds} ${condition.text}`).join()}`;
    let sides = kept.get(key);
    if (sides === undefined) {
      sides = asked(project, procedure, place, path);
      kept.set(key, sides);
    }
    return sides;
  };
  return (place, thing) =>
    parted(sidesOf, conditions, place, thing, differencesAt(walk, thing, place.point), []);
}

interface Turn {
  readonly condition: Condition;
  readonly holds: boolean;
}

/** How a thing stands where the last condition of a path holds, and where it does not. */
type Sides = (thing: Thing) => readonly [readonly Stand[], readonly Stand[]];
type SidesOf = (place: RefitPlace, path: readonly Turn[]) => Sides | null;

const keysOf = (stands: readonly Stand[]): number => new Set(stands.map(owedKey)).size;

function parted(
  sidesOf: SidesOf,
  conditions: readonly Condition[],
  place: RefitPlace,
  thing: Thing,
  stands: readonly Stand[],
  path: readonly Turn[],
): Guarded<Stand> | null {
  const [first] = stands;
  if (keysOf(stands) <= 1) return first ? { leaf: first } : null;
  if (path.length >= DEEPEST) return null;
  const tries = conditions.flatMap((condition) => {
    if (path.some((turn) => turn.condition === condition)) return [];
    const [yes, no] = sidesOf(place, [...path, { condition, holds: true }])?.(thing) ?? [[], []];
    if (yes.length === 0 || no.length === 0) return [];
    const left = keysOf(yes) + keysOf(no);
    // Of two that tell as much, the one under which there is something to do.
    return [{ condition, yes, no, left, idle: yes.every((stand) => owedKey(stand) === "") }];
  });
  const all = keysOf(stands);
  const telling = tries.filter(({ yes, no }) => keysOf(yes) < all || keysOf(no) < all);
  const sorted = telling.sort((a, b) => a.left - b.left || Number(a.idle) - Number(b.idle));
  for (const one of sorted.slice(0, MOST_TRIED)) {
    const side = (on: readonly Stand[], holds: boolean): Guarded<Stand> | null =>
      parted(sidesOf, conditions, place, thing, on, [...path, { condition: one.condition, holds }]);
    const yes = side(one.yes, true);
    const no = yes && side(one.no, false);
    if (yes && no) return { condition: one.condition, yes, no };
  }
  return null;
}

/** Tries a text in which a path of conditions is asked for at a place. */
function asked(
  project: Project,
  procedure: Procedure,
  place: RefitPlace,
  path: readonly Turn[],
): Sides | null {
  const { file, line } = place;
  const start = { line, character: 0 };
  const nested = (turns: readonly Turn[]): readonly string[] => {
    const [turn, ...rest] = turns;
    if (!turn) return [WAIT];
    const inner = nested(rest);
    return [
      `when ${turn.condition.text} {`,
      ...(turn.holds ? inner : [WAIT]),
      "}",
      "otherwise {",
      ...(turn.holds ? [WAIT] : inner),
      "}",
    ];
  };
  const rows = nested(path);
  const lines = place.holds === "lines" ? rows : ['step "" {', ...rows, "}"];
  const text = lines.map((one) => `${one}\n`).join("");
  const after = tried(project, [{ file, start, end: start, text }])
    .files.get(procedure.thing.file)
    ?.procedures.find((p) => p.thing.name === procedure.thing.name);
  if (!after || after.doubtful) return null;
  const graph = graphOf(after);
  const walk: Asked = { graph, relations: relationsOf(after) };
  // The last condition of the path is the innermost: its body, then that of its opposite.
  const inmost = lines.indexOf(`when ${path.at(-1)?.condition.text} {`);
  const at = (row: number): number =>
    graph.points.findIndex((p) => p.kind === "act" && p.spot.file === file && p.spot.line === line + row);
  const [yes, no] = [at(inmost + 1), at(inmost + 4)];
  return (thing) => {
    const same = thing.file === file ? after.find(thing.name, [thing.kind]) : thing;
    return [same ? differencesAt(walk, same, yes) : [], same ? differencesAt(walk, same, no) : []];
  };
}
const WAIT = "wait 1 min";

const OPPOSITES: Readonly<Record<string, string>> = {
  yes: "no",
  no: "yes",
  met: "not met",
  "not met": "met",
};

/** A condition or outcome with its opposite. */
export function opposed(name: string, outcome: string): Condition {
  const other = OPPOSITES[outcome];
  return { text: `${name} ${outcome}`.trim(), opposite: other ? `${name} ${other}` : "" };
}

/** Conditions that the procedure names already: chosen once for the run, or how a recorded check turned out. */
function conditionsIn({ graph }: Walk): readonly Condition[] {
  const found = new Map<string, Condition>();
  const add = (name: string, outcome: string): void => {
    const condition = opposed(name, outcome);
    if (!found.has(condition.text)) found.set(condition.text, condition);
  };
  for (const at of graph.controls) {
    const point = graph.points[at];
    if (point?.kind !== "test" || point.spot.through) continue;
    const { entry } = point.spot;
    const outcome = entry.form.slots.find((s) => s.role === "outcome")?.text ?? "";
    if (entry.construct === "when") {
      const name = namesIn(entry.form, "condition")[0]?.name;
      if (name) add(name, outcome);
      continue;
    }
    const check = checkAround(graph, point.block);
    const name = check && namesIn(check.form, "name")[0]?.name;
    if (check && name && checkOf(check).record) add(name, outcome);
  }
  for (const thing of graph.procedure.machine?.things ?? [])
    if (thing.kind === "variant" || thing.kind === "bulletin") add(thing.name, "");
  return [...found.values()];
}

function checkAround({ blocks }: Walk["graph"], block: number): Entry | null {
  for (let b = block; b >= 0; b = blocks[b]?.parent ?? -1)
    if (blocks[b]?.construct === "check") return blocks[b]?.spot.entry ?? null;
  return null;
}
