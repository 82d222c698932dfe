/**
 * The refit of all that is owed at the end of a procedure, or at a step: a section whose steps put it right in an order
 * that can be worked. Where the ways differ it is written under the condition that tells them apart, and tried before
 * it is given: what is still wrong then is said.
 */
import { formatDocument, readDocument } from "../../grammar";
import { checkOf, namesIn } from "../facts";
import type { Place, Procedure, Project, Thing } from "../model";
import { refitPhrase as say } from "../phrases/refit";
import { checkProject, type TextEdit, walkOf } from "../rules";
import { type RightingAct, rightingActs } from "../rules/righting";
import { inWorkingOrder } from "../rules/righting-order";
import { findUnit } from "../units/lookup";
import { actRow, type Difference, type Stand, stateAt, type Walk } from "../walk";
import { tried } from "./trial";

/** A refit. */
export interface Refit {
  /** The lines of the section, without indentation of their own; none where nothing is owed. */
  readonly lines: readonly string[];
  /** Adds them; null where nothing is owed, or nobody can tell where the procedure's lines end. */
  readonly edit: TextEdit | null;
  /** What it does not put right, and why, as sentences. */
  readonly problems: readonly string[];
}

/** A condition that tells ways apart, as it is written after `when`. */
interface Condition {
  readonly text: string;
  /** The text of the opposite, where it can be written; else it is `otherwise`. */
  readonly opposite: string;
}

/** One act as it is on the ways that meet a condition, and on the others. */
interface Guarded extends RightingAct {
  readonly condition: Condition | null;
  readonly yes: readonly string[];
  readonly no: readonly string[];
}

/**
 * The refit of what is owed before a point of the procedure's graph, added in front of that point's part of the procedure;
 * at the end, before the machine is started where all of it is owed there already. The procedure must not be doubtful.
 */
export function refit(project: Project, procedure: Procedure, point: number | null = null): Refit {
  const walk = walkOf(procedure);
  const end = walk.graph.points.length - 1;
  const place =
    point === null || point === end ? endPlace(procedure, walk) : placeOfPart(procedure, walk, point);
  const problems: string[] = [];
  const acts = inWorkingOrder(walk, guardedActs(project, procedure, walk, place, problems));
  if (acts.length === 0) return { lines: [], edit: null, problems };
  if (!place.edit)
    return { lines: sectionOf(acts, []), edit: null, problems: [...problems, say("unbalanced")] };
  const lines = withCautions(project, place.edit, sectionOf(acts, []));
  const edit = editWith(place.edit, lines);
  return { lines, edit, problems: [...problems, ...stillOwed(project, procedure, edit)] };
}

/** Where the section goes, and the point of the graph before which that is. */
interface Position {
  readonly point: number;
  readonly edit: TextEdit | null;
}

function endPlace(procedure: Procedure, walk: Walk): Position {
  const { points } = walk.graph;
  const end = points.length - 1;
  const start = points.findIndex((p) => p.kind === "act" && actRow(p.verb).whole);
  if (start >= 0 && isOwedAlike(walk, start, end)) return placeOfPart(procedure, walk, start);
  const { line, entry, file } = procedure.thing;
  return { point: end, edit: lineEdit(procedure, file, line + entry.lineCount - 1) };
}

/** Whether what is owed at the end is owed at a start before it as well, so that it can be put right there. */
function isOwedAlike(walk: Walk, start: number, end: number): boolean {
  const owed = (point: number): ReadonlyMap<string, string> =>
    new Map(
      stateAt(walk, point).things.flatMap(({ thing, stands }) => {
        const key = stands.map(owedKey).sort().join(";");
        return stands.some((s) => owedKey(s) !== "") ? [[thing.id, key] as const] : [];
      }),
    );
  const then = owed(start);
  const now = owed(end);
  return now.size > 0 && [...now].every(([id, key]) => then.get(id) === key);
}

const owedKey = ({ differences }: Stand): string =>
  differences
    .filter((d) => d.owed)
    .map((d) => `${d.kind} ${d.stage}`)
    .join();

/** In front of the section or step right under the procedure's head that a point stands in. */
function placeOfPart(procedure: Procedure, walk: Walk, point: number): Position {
  const spot = walk.graph.points[point]?.spot;
  const line = spot?.through?.line ?? spot?.line ?? -1;
  const part = procedure.parts.findLast((p) => p.line <= line);
  const { file, line: head, entry } = procedure.thing;
  const row = part && line < head + entry.lineCount - 1 ? part.line : head + entry.lineCount - 1;
  const first = walk.graph.segments.find(({ segment }) => segment.parts.some((p) => p === part));
  return { point: first?.at.points ?? point, edit: lineEdit(procedure, file, row) };
}

function lineEdit(procedure: Procedure, file: string, line: number): TextEdit | null {
  const start = { line, character: 0 };
  return procedure.thing.entry.hasBlock ? { file, start, end: start, text: "" } : null;
}

/** The acts that are due, each under the condition that tells the ways apart. */
function guardedActs(
  project: Project,
  procedure: Procedure,
  walk: Walk,
  place: Position,
  problems: string[],
): Guarded[] {
  const state = stateAt(walk, place.point);
  const acts: Guarded[] = [];
  const conditions = conditionsIn(walk);
  const probes = new Map<string, readonly [StandsById, StandsById] | null>();
  const probe = (condition: Condition): readonly [StandsById, StandsById] | null => {
    let found = probes.get(condition.text);
    if (found === undefined) {
      found = place.edit ? probed(project, procedure, place.edit, condition) : null;
      probes.set(condition.text, found);
    }
    return found;
  };
  for (const { thing, stands } of state.things) {
    const keys = new Set(stands.map(owedKey));
    if (keys.size === 1 && keys.has("")) continue;
    if (procedure.find(thing.name) === undefined) {
      problems.push(say("not-in-sight", { title: titleOf(thing) }));
      continue;
    }
    const linesOf = (stand: Stand | undefined): readonly RightingAct[] =>
      stand ? rightingActs(procedure, walk, { thing, differences: owedOnly(stand), since: stand.since }) : [];
    const first = stands.find((s) => owedKey(s) !== "") as Stand;
    if (keys.size === 1) {
      acts.push(...linesOf(first).map((act) => ({ ...act, condition: null, yes: act.lines, no: [] })));
      continue;
    }
    const told = conditions
      .map((condition) => ({ condition, sides: probe(condition) }))
      .find(({ sides }) => sides?.every((side) => isOne(side.get(thing.id))));
    if (!told?.sides) {
      const ways = stands.filter((s) => owedKey(s) !== "").map((s) => s.way.join(", then "));
      problems.push(
        say("not-told-apart", { title: titleOf(thing), ways: ways.filter((w) => w !== "").join("; or ") }),
      );
      continue;
    }
    const [yes, no] = told.sides.map((side) => linesOf((side.get(thing.id) ?? [])[0])) as [
      readonly RightingAct[],
      readonly RightingAct[],
    ];
    acts.push(...merged(yes, no, told.condition, first.since));
  }
  return acts;
}

const owedOnly = ({ differences }: Stand): readonly Difference[] => differences.filter((d) => d.owed);

const isOne = (stands: readonly Stand[] | undefined): boolean =>
  new Set((stands ?? []).map(owedKey)).size <= 1;

/** The acts of both sides, those on one thing by one verb in one. */
function merged(
  yes: readonly RightingAct[],
  no: readonly RightingAct[],
  condition: Condition,
  since: number,
): Guarded[] {
  const twin = (act: RightingAct, others: readonly RightingAct[]): RightingAct | undefined =>
    others.find((o) => o.verb === act.verb && o.onWheels === act.onWheels);
  const alone = no.filter((act) => !twin(act, yes));
  return [
    ...yes.map((act) => ({ ...act, since, condition, yes: act.lines, no: twin(act, no)?.lines ?? [] })),
    ...alone.map((act) => ({ ...act, since, condition, yes: [], no: act.lines })),
  ].map((act) => (act.yes.join("\n") === act.no.join("\n") ? { ...act, condition: null, no: [] } : act));
}

/** Conditions that the procedure names already: chosen once for the run, or how a recorded check turned out. */
function conditionsIn({ graph }: Walk): readonly Condition[] {
  const found = new Map<string, Condition>();
  const add = (text: string, opposite = ""): void => {
    if (!found.has(text)) found.set(text, { text, opposite });
  };
  const OPPOSITE: Readonly<Record<string, string>> = {
    yes: "no",
    no: "yes",
    met: "not met",
    "not met": "met",
  };
  for (const at of graph.controls) {
    const point = graph.points[at];
    if (point?.kind !== "test" || point.spot.through) continue;
    const { entry } = point.spot;
    const outcome = entry.form.slots.find((s) => s.role === "outcome")?.text ?? "";
    if (entry.construct === "when") {
      const name = namesIn(entry.form, "condition")[0]?.name ?? "";
      const opposite = OPPOSITE[outcome];
      add(`${name} ${outcome}`.trim(), opposite ? `${name} ${opposite}` : "");
      continue;
    }
    const check = checkAround(graph, point.block);
    const name = check && namesIn(check.form, "name")[0]?.name;
    if (!check || !name || !checkOf(check).record) continue;
    add(`${name} ${outcome}`, OPPOSITE[outcome] ? `${name} ${OPPOSITE[outcome]}` : "");
  }
  for (const thing of graph.procedure.machine?.things ?? [])
    if (thing.kind === "variant" || thing.kind === "bulletin") add(thing.name);
  return [...found.values()];
}

function checkAround({ blocks }: Walk["graph"], block: number) {
  for (let b = block; b >= 0; b = blocks[b]?.parent ?? -1)
    if (blocks[b]?.construct === "check") return blocks[b]?.spot.entry ?? null;
  return null;
}

type StandsById = ReadonlyMap<string, readonly Stand[]>;

/** How things stand there where a condition holds and where it does not: asked of the walk through a text that asks for it. */
function probed(
  project: Project,
  procedure: Procedure,
  edit: TextEdit,
  { text }: Condition,
): readonly [StandsById, StandsById] | null {
  const lines = [`when ${text} {`, "  wait 1 min", "}", "otherwise {", "  wait 1 min", "}"];
  const after = sameProcedure(tried(project, [editWith(edit, ['step "" {', ...lines, "}"])]), procedure);
  if (!after || after.doubtful) return null;
  const walk = walkOf(after);
  const at = (row: number): StandsById => {
    const line = edit.start.line + row;
    const point = walk.graph.points.findIndex((p) => p.spot.file === edit.file && p.spot.line === line);
    const { things } = stateAt(walk, Math.max(0, point));
    return new Map(things.map(({ thing, stands }) => [thing.id, stands]));
  };
  return [at(2), at(5)];
}

function sameProcedure(project: Project, { thing }: Procedure): Procedure | undefined {
  return project.files.get(thing.file)?.procedures.find((p) => p.thing.name === thing.name);
}

const titleOf = (thing: Thing): string => thing.title || thing.name;

/** The section: a step for each thing that goes back, with what secures it. */
function sectionOf(acts: readonly Guarded[], head: readonly string[]): readonly string[] {
  const steps: { readonly title: string; readonly acts: Guarded[] }[] = [];
  for (const act of acts) {
    const last = steps.at(-1);
    const isSame =
      last &&
      (act.thing.kind === "fastener" ||
        last.acts.some((a) => a.thing === act.thing) ||
        isSmall(act, last.acts));
    if (isSame) last.acts.push(act);
    else steps.push({ title: titleOf(act.thing), acts: [act] });
  }
  const lines = steps.flatMap(({ title, acts: own }) => [
    `  step "${title.replace(/"/g, "'")}" {`,
    ...conditional(own).map((line) => `    ${line}`),
    "  }",
  ]);
  return [`section "${say("section")}" {`, ...head, ...lines, "}"];
}

/** Acts of one kind that are not the fitting of a part stand together. */
const isSmall = (act: Guarded, before: readonly Guarded[]): boolean =>
  act.verb !== "fit" && before.at(-1)?.verb === act.verb;

/** Acts one after the other, those under one condition in one block. */
function conditional(acts: readonly Guarded[]): readonly string[] {
  const lines: string[] = [];
  for (let i = 0; i < acts.length; ) {
    const { condition } = acts[i] as Guarded;
    let past = i + 1;
    while (past < acts.length && acts[past]?.condition?.text === condition?.text) past++;
    const run = acts.slice(i, past);
    i = past;
    const yes = run.flatMap((act) => act.yes);
    const no = run.flatMap((act) => act.no);
    const block = (head: string, inside: readonly string[]): void => {
      lines.push(head, ...inside.map((line) => `  ${line}`), "}");
    };
    if (!condition) lines.push(...yes);
    else if (yes.length === 0 && condition.opposite !== "") block(`when ${condition.opposite} {`, no);
    else {
      block(`when ${condition.text} {`, yes.length > 0 ? yes : [`"${say("nothing-then")}"`]);
      if (no.length > 0) block("otherwise {", no);
    }
  }
  return lines;
}

function editWith(edit: TextEdit, lines: readonly string[]): TextEdit {
  return { ...edit, text: lines.map((line) => `  ${line}\n`).join("") };
}

/** At most so many cautions are added. */
const MOST_CAUTIONS = 20;

/** Adds what must be told before the acts of the section: the repairs of the rule that misses it. */
function withCautions(project: Project, edit: TextEdit, lines: readonly string[]): readonly string[] {
  let now = [...lines];
  for (let i = 0; i < MOST_CAUTIONS; i++) {
    const from = edit.start.line;
    const findings = checkProject(tried(project, [editWith(edit, now)])).get(edit.file) ?? [];
    const missing = findings.find(
      (f) => f.code === "caution-missing" && f.place.line >= from && f.place.line < from + now.length,
    );
    const change = missing?.fixes[0]?.changes[0];
    if (!change || change.place.file !== edit.file) break;
    const added = change.text.split("\n").filter((line) => line !== "");
    now = now.toSpliced(change.place.line - from, 0, ...added.map((line) => line.slice(2)));
  }
  return now;
}

/** Codes that say that something is left at the end. */
const LEFT: ReadonlySet<string> = new Set([
  "part-left-off",
  "finger-tight-left",
  "not-refilled",
  "connection-left-open",
  "support-left",
  "temporary-left-in",
  "left-running",
]);

/** What is left at the end although the refit is there, as sentences. */
function stillOwed(project: Project, procedure: Procedure, edit: TextEdit): string[] {
  const after = sameProcedure(tried(project, [edit]), procedure);
  if (!after || after.doubtful) return [say("unread")];
  const own: Place["line"][] = [edit.start.line, edit.start.line + edit.text.split("\n").length - 1];
  const { faults, graph } = walkOf(after);
  return faults.flatMap(({ code, thing, point, way }) => {
    const line = graph.points[point]?.spot.line ?? -1;
    const isHere = line >= (own[0] as number) && line < (own[1] as number);
    if (!isHere && !LEFT.has(code)) return [];
    const args = { title: titleOf(thing), code, ways: way.join(", then ") };
    return [say(way.length > 0 ? "still-on-some-ways" : "still", args)];
  });
}

/** The section as it would be laid out in a procedure. */
export function refitText({ lines }: Refit): string {
  const document = readDocument(`procedure refit "" {\n${lines.map((line) => `  ${line}\n`).join("")}}\n`);
  return formatDocument(document, findUnit).split("\n").slice(1, -2).join("\n");
}
