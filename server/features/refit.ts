/**
 * The refit of all that is owed at the end of a procedure, as steps in an order that can be worked, each at a place where
 * it can be. Where the ways differ it is written under what tells them apart. It is tried before it is given: what is
 * left, or would be wrong, is said.
 */
import type { Document } from "../../grammar";
import type { Procedure, Project } from "../model";
import { refitPhrase as say } from "../phrases/refit";
import type { Language } from "../phrases/sheet";
import { DEFAULT_RULE_SETTINGS, type RuleSettings, type TextEdit, walkOf } from "../rules";
import { inWorkingOrder } from "../rules/righting-order";
import { DEPARTURES, type Stand, standsAt, type Walk } from "../walk";
import { duesOf, owedKey, type RefitDue } from "./refit-dues";
import { type Guarded, type Guards, guardsOf } from "./refit-guards";
import { collapsed, linesFor, type WrittenAct } from "./refit-lines";
import { actKey, bodyOf, type Placeable, placedActs } from "./refit-places";
import { renewed } from "./refit-renewal";
import type { RefitPlace } from "./refit-spots";
import { tryRefit } from "./refit-trial";
import { inWords } from "./state";
import { editsBetween, inUsualForm } from "./usual-form";

/** A refit. */
export interface Refit {
  /** What it adds to the procedure's file; none where there is nothing to write. */
  readonly edits: readonly TextEdit[];
  /** What it does not put right, and why, as sentences. */
  readonly problems: readonly string[];
}

/** Whether a refit has something to do in a procedure. Nothing more than checking it is asked for. */
export function owesRefit(procedure: Procedure): boolean {
  if (procedure.doubtful) return false;
  const { faults, graph } = walkOf(procedure);
  const end = graph.points.length - 1;
  return faults.some(
    ({ code, point, thing }) =>
      (OWED.has(code) && (code !== "tightened-before-fitted" || thing.kind === "fastener")) ||
      (code === "used-bolt-refitted" && point === end),
  );
}

/** The codes of what a refit puts right. */
const OWED: ReadonlySet<string> = new Set([
  ...Object.values(DEPARTURES).map(({ left }) => left),
  "finger-tight-left",
  "tightened-before-fitted",
]);

/** Writes the refit of a procedure. It must not be doubtful. */
export function refit(
  project: Project,
  procedure: Procedure,
  settings: RuleSettings = DEFAULT_RULE_SETTINGS,
): Refit {
  const title = procedure.thing.title || procedure.thing.name;
  const { file } = procedure.thing;
  const document = project.files.get(file)?.document;
  const walk = walkOf(procedure);
  const { dues, cutShort } = duesOf(procedure, walk);
  const problems = cutShort ? [say("cut-short", { title })] : [];
  if (dues.length === 0 || !document) return { edits: [], problems };
  if (!document.tree.balanced) return { edits: [], problems: [say("unbalanced", { title })] };
  const guards = guardsOf(project, procedure, walk);
  const attempt = (bodies: boolean): Refit & { readonly usesBodies: boolean } => {
    const { placed, written, untold, given, usesBodies } = guarded(walk, dues, guards, procedure, bodies);
    const edits = editsFor(walk, procedure, document, placed, written, settings.language);
    const trial = tryRefit(project, procedure, edits, settings, given);
    const after = trial.project.files.get(file)?.document ?? document;
    const usual = inUsualForm(project, editsBetween(file, document, after));
    return { edits: usual, problems: [...problems, ...untold, ...trial.problems], usesBodies };
  };
  const first = attempt(true);
  if (!first.usesBodies || first.problems.length === 0) return first;
  const second = attempt(false);
  return second.problems.length < first.problems.length ? second : first;
}

interface Written {
  readonly placed: readonly Placeable[];
  readonly written: ReadonlyMap<Placeable, WrittenAct>;
  readonly untold: readonly string[];
  /** The ids of the things that are given up, as `untold` says. */
  readonly given: ReadonlySet<string>;
  readonly usesBodies: boolean;
}

/** Places what is due, under what tells its ways apart; else in the body where it came off; else it is told. */
function guarded(
  walk: Walk,
  dues: readonly RefitDue[],
  guards: Guards,
  procedure: Procedure,
  bodies: boolean,
): Written {
  const inBodies = new Set<RefitDue>();
  const untold: string[] = [];
  const given = new Set<string>();
  const seen = dues.filter(({ thing }) => procedure.find(thing.name) === thing);
  for (const { thing, stands } of dues.filter((due) => !seen.includes(due))) {
    untold.push(say("not-in-sight", { title: thing.title || thing.name, state: stateOf(stands) }));
    given.add(thing.id);
  }
  let left: readonly RefitDue[] = seen;
  for (;;) {
    const placed = placedActs(walk, left, inBodies);
    const written = new Map<Placeable, WrittenAct>();
    const lost = new Set<RefitDue>();
    for (const one of placed) {
      const tree = inBodies.has(one.due) ? leafOf(one) : treeOf(procedure, one, guards);
      if (tree) written.set(one, { act: one.act, lines: collapsed(tree), each: eachOf(walk, one) });
      else lost.add(one.due);
    }
    if (lost.size === 0) return { placed, written, untold, given, usesBodies: inBodies.size > 0 };
    for (const due of lost) {
      if (bodies && isInBodies(walk, due)) inBodies.add(due);
      else {
        untold.push(say("not-told-apart", untoldArgs(walk, due)));
        given.add(due.thing.id);
      }
    }
    left = left.filter((due) => !lost.has(due) || inBodies.has(due));
  }
}

const leafOf = ({ act }: Placeable): Guarded<readonly string[]> => ({ leaf: act.lines });

function treeOf(
  procedure: Procedure,
  { due, key, place }: Placeable,
  guards: Guards,
): Guarded<readonly string[]> | null {
  const linesOf = (tree: Guarded<Stand>): Guarded<readonly string[]> =>
    "leaf" in tree
      ? renewed(procedure, due.thing, due.actsFor(tree.leaf).find((act) => actKey(act) === key)?.lines ?? [])
      : { condition: tree.condition, yes: linesOf(tree.yes), no: linesOf(tree.no) };
  const tree = guards(place, due.thing);
  return tree && linesOf(tree);
}

/** Whether whatever is owed came about in the body of a condition or an outcome. */
const isInBodies = (walk: Walk, { stands }: RefitDue): boolean =>
  stands.filter((stand) => owedKey(stand) !== "").every(({ since }) => bodyOf(walk, since) > 0);

/** The set for each of which a thing was worked on, where its place is outside of that. */
function eachOf({ graph }: Walk, { act, place }: Placeable): string | null {
  if (place.set !== null) return null;
  for (let b = graph.points[act.since]?.block ?? 0; b > 0; b = graph.blocks[b]?.parent ?? 0) {
    const { construct, spot } = graph.blocks[b] ?? {};
    if (construct === "for")
      return spot?.entry.form.slots.find((s) => s.role === "set")?.names[0]?.name ?? null;
  }
  return null;
}

const stateOf = (stands: readonly Stand[]): string =>
  inWords((stands.find((stand) => owedKey(stand) !== "")?.differences ?? []).filter((d) => d.owed));

function untoldArgs(walk: Walk, { thing, stands, at }: RefitDue): Record<string, string> {
  const ways = standsAt(walk, thing, at)
    .filter((stand) => owedKey(stand) !== "")
    .map(({ way }) => way.join(", then "));
  const said = ways.filter((way) => way !== "");
  return {
    title: thing.title || thing.name,
    state: stateOf(stands),
    ways: said.length > 0 ? ` (${said.join("; or ")})` : "",
  };
}

/** One edit for each place. */
function editsFor(
  walk: Walk,
  procedure: Procedure,
  document: Document,
  placed: readonly Placeable[],
  written: ReadonlyMap<Placeable, WrittenAct>,
  language: Language,
): readonly TextEdit[] {
  const byLine = new Map<number, Placeable[]>();
  for (const one of placed) byLine.set(one.place.line, [...(byLine.get(one.place.line) ?? []), one]);
  const sections = walk.graph.blocks.filter((b) => b.construct === "section");
  const taken = new Set(
    sections.map((b) => b.spot.entry.form.slots.find((s) => s.role === "title")?.text ?? ""),
  );
  const inOrder = [...byLine].sort(([a], [b]) => a - b);
  return inOrder.flatMap(([, all]) => {
    const [first] = all;
    const acts = inWorkingOrder(
      walk,
      all.map((one) => ({ ...one.act, one })),
    );
    const own = acts.flatMap(({ one }) => written.get(one) ?? []);
    const isIdle = own.every(({ lines }) => "leaf" in lines && lines.leaf.length === 0);
    if (!first || isIdle) return [];
    const lines = linesFor(walk.relations, first.place, own, taken, language);
    if (first.place.holds === "sections") taken.add(/"(.*)"/.exec(lines[0] ?? "")?.[1] ?? "");
    return [edit(procedure, document, first.place, lines, walk)];
  });
}

/** Lines at a place, indented as their neighbours are, blank lines about steps where the text has them. */
function edit(
  procedure: Procedure,
  { lines, shape }: Document,
  place: RefitPlace,
  added: readonly string[],
  { graph }: Walk,
): TextEdit {
  const indentAt = (line: number): string => /^\s*/.exec(lines[line]?.text ?? "")?.[0] ?? "";
  const head = procedure.thing.line;
  const unit =
    indentAt(head + (procedure.thing.entry.children[0]?.row ?? 0)).slice(indentAt(head).length) || "  ";
  const block = graph.blocks[place.block];
  const base = indentAt(block?.spot.line ?? head) + unit;
  const spaced = place.holds !== "lines" && isSpaced(lines, graph);
  const rows = added.flatMap((row, i) => {
    const { length } = /^ */.exec(row)?.[0] ?? "";
    const text = base + unit.repeat(length / 2) + row.slice(length);
    return spaced && i > 0 && row.trimStart().startsWith("step ") && !isOpening(added[i - 1])
      ? ["", text]
      : [text];
  });
  const above = lines[place.line - 1]?.text ?? "";
  const below = lines[place.line]?.text ?? "";
  if (spaced && above.trim() !== "" && !isOpening(above)) rows.unshift("");
  if (spaced && below.trim() !== "" && below.trim() !== "}") rows.push("");
  const start = { line: place.line, character: 0 };
  return { file: place.file, start, end: start, text: rows.map((row) => row + shape.eol).join("") };
}

const isOpening = (row: string | undefined): boolean => row?.trimEnd().endsWith("{") ?? false;

/** Whether blank lines stand between the steps of a procedure. */
function isSpaced(lines: Document["lines"], { blocks }: Walk["graph"]): boolean {
  const later = blocks.filter(
    ({ construct, spot }) =>
      (construct === "step" || construct === "section") &&
      !spot.through &&
      !isOpening(lines[spot.line - 1]?.text),
  );
  return later.length === 0 || later.some(({ spot }) => lines[spot.line - 1]?.kind === "blank");
}
