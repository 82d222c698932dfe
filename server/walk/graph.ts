/**
 * A procedure as a graph of points, in the order of the text, with the procedures it follows spliced in. What a line
 * could not be read to say never gets here: a procedure with doubtful lines is not followed.
 */
import { constructs } from "../../grammar";
import { CAUTION_WORDS, type Child, type Entry, keptByEntry, namesIn, timesOf } from "../facts";
import { type Part, type Place, type Procedure, placeAt, type Thing } from "../model";
import {
  type Around,
  type Block,
  type Draft,
  inBlock,
  inRegion,
  inStep,
  inTest,
  leadTo,
  put,
  type Region,
  spotOf,
  startAt,
} from "./build";
import { opposite, putCheck, putOutcome } from "./checks";
import { putAct } from "./doing";
import type { JumpPoint, Point, ReturnPoint } from "./points";
import { KINDS, type Scope, scopeOf, scopeWithin } from "./scope";
import { controlsOf, movedDown, type Placed, placed, type Segment, skeletonOf } from "./segments";
import { type Variables, variablesOf } from "./variables";

export interface Graph {
  readonly procedure: Procedure;
  readonly scope: Scope;
  /** The last point is the end. */
  readonly points: readonly Point[];
  readonly blocks: readonly Block[];
  readonly regions: readonly Region[];
  /** The points that decide where the way goes on. */
  readonly controls: readonly number[];
  /** Whether anything is supported at all. */
  readonly supports: boolean;
  /** The points that end the job unfinished. */
  readonly unfinished: readonly number[];
  readonly variables: Variables;
  /** How many returns each counter allows. */
  readonly bounds: readonly number[];
  /** The pieces it is made of, in order. */
  readonly segments: readonly Placed[];
}

/**
 * The graph of a procedure. From the graph of the same procedure before an edit, what has not changed is taken over.
 */
export function graphOf(procedure: Procedure, before: Graph | null = null): Graph {
  const old = before && seesTheSame(before.procedure, procedure) ? before : null;
  const variables = old?.variables ?? variablesOf(procedure);
  const scope = scopeOf(procedure);
  const kept = new Map(old?.segments.map((p) => [p.segment.parts[0]?.entry, p]));
  const isAlike = alikeIn(old, procedure);
  const current = (target: Thing): Thing => targetNow(procedure, target);
  const at = { points: 0, blocks: 1, regions: 0, counters: 0 };
  const taken = new Set<Segment>();
  const segments = grouped(procedure.parts).map((parts, index) => {
    const [first] = parts as [Part];
    const known = kept.get(first.entry);
    const isKept =
      known?.segment.lasts &&
      // Lines that are written alike are one entry; each has a segment of its own.
      !taken.has(known.segment) &&
      known.segment.parts.length === parts.length &&
      known.segment.parts.every((part, i) => isAlike(part, parts[i] as Part));
    const segment = isKept ? known.segment : segmentOf(procedure, parts, scope, variables, index);
    taken.add(segment);
    const one = placed(segment, { ...at, line: first.line }, known, current);
    at.points += segment.points.length;
    at.blocks += segment.blocks.length;
    at.regions += segment.regions.length;
    at.counters += segment.bounds.length;
    return one;
  });
  return composed(procedure, scope, variables, segments);
}

/** Parts by themselves, an `otherwise` with the `when` before it. */
function grouped(parts: readonly Part[]): readonly (readonly Part[])[] {
  const groups: Part[][] = [];
  for (const part of parts) {
    const last = groups.at(-1);
    if (part.entry.construct === "otherwise" && last?.[0]?.entry.construct === "when") last.push(part);
    else groups.push([part]);
  }
  return groups;
}

/** Tells whether a part says what it said, on whatever line; never where steps have other names, since it may be meant by one. */
function alikeIn(old: Graph | null, procedure: Procedure): (before: Part, now: Part) => boolean {
  let named: boolean | undefined;
  return (before, now) => {
    if (before === now) return true;
    named ??= old !== null && namesTheSame(old.procedure, procedure);
    return named && saysTheSame(before, now);
  };
}

/** Whether a part says what it said, on whatever line: it is the same text, and its names mean the same things. */
function saysTheSame(before: Part, now: Part): boolean {
  return (
    before.entry === now.entry &&
    before.bindings.length === now.bindings.length &&
    before.bindings.every(({ name, thing }, i) => {
      const other = now.bindings[i] as Part["bindings"][number];
      return name === other.name && (thing === other.thing || isMoved(thing, other.thing));
    })
  );
}

/** Whether two are one step, check or section, on another line. */
function isMoved(before: Thing | null, now: Thing | null): boolean {
  if (!before || !now) return false;
  const isTarget = (KINDS.target as readonly string[]).includes(before.kind);
  return isTarget && before.named && before.id === now.id && before.entry === now.entry;
}

/** Whether steps, checks and sections have the names they had, in the same order, each only one. */
function namesTheSame(before: Procedure, now: Procedure): boolean {
  const old = targetsOf(before);
  const all = now.targets.filter((target) => target.named);
  // One entry has one name: only where the lines differ are names compared.
  const isSame = (target: Thing, i: number): boolean =>
    target.entry === old.all[i]?.entry || target.id === old.all[i]?.id;
  if (old.all.length !== all.length || old.nth.size !== all.length || !all.every(isSame)) return false;
  keptTargets.set(now, { all, nth: old.nth });
  return true;
}

/** The steps, checks and sections of a procedure that have a name, and which of them has it. */
interface Targets {
  readonly all: readonly Thing[];
  readonly nth: ReadonlyMap<string, number>;
}

const keptTargets = new WeakMap<Procedure, Targets>();

function targetsOf(procedure: Procedure): Targets {
  let known = keptTargets.get(procedure);
  if (!known) {
    const all = procedure.targets.filter((target) => target.named);
    known = { all, nth: new Map(all.map((target, i) => [target.name, i])) };
    keptTargets.set(procedure, known);
  }
  return known;
}

/** What a step, check or section of the procedure before an edit is now, if the names are the same. */
const targetNow = (procedure: Procedure, target: Thing): Thing => {
  const { all, nth } = targetsOf(procedure);
  return all[nth.get(target.name) ?? -1] ?? target;
};

/** Whether names that no binding of a part tells of are still understood as before: machine, variants, conditions. */
function seesTheSame(before: Procedure, now: Procedure): boolean {
  return (
    before.machine === now.machine &&
    before.thing.owns === now.thing.owns &&
    before.things.length === now.things.length &&
    before.things.every((thing, i) => thing === now.things[i]) &&
    headOf(before) === headOf(now)
  );
}

/** What the header says of the machines it is for. */
const headOf = ({ thing }: Procedure): Entry | undefined =>
  thing.entry.children.find((child) => child.entry.construct === "on")?.entry;

function composed(
  procedure: Procedure,
  scope: Scope,
  variables: Variables,
  segments: readonly Placed[],
): Graph {
  const { thing } = procedure;
  const spot = { entry: thing.entry, file: thing.file, line: thing.line, through: null };
  const points: Point[] = [];
  const procedureBlock: Block = { construct: "procedure", spot, start: 0, end: 0, parent: -1 };
  const blocks: Block[] = [procedureBlock];
  const regions: Region[] = [];
  const bounds: number[] = [];
  const controls: number[] = [];
  for (const one of segments) {
    const base = points.length;
    for (const point of one.points) points.push(point);
    for (const block of one.blocks) blocks.push(block);
    for (const region of one.regions) regions.push(region);
    for (const bound of one.segment.bounds) bounds.push(bound);
    for (const control of one.segment.controls) controls.push(base + control);
  }
  leadAcross(scope, segments, points);
  points.push({ kind: "end", spot, parent: -1, region: -1, block: 0 });
  controls.push(points.length - 1);
  procedureBlock.end = points.length;
  const unfinished = controls.filter((at) => points[at]?.kind === "end-job");
  const supports = segments.some(({ segment }) => segment.supports);
  return {
    procedure,
    scope,
    points,
    blocks,
    regions,
    controls,
    supports,
    unfinished,
    variables,
    bounds,
    segments,
  };
}

/** Leads the jumps and returns that name a step or check there; one that leads nowhere goes on. */
function leadAcross(scope: Scope, segments: readonly Placed[], points: Point[]): void {
  if (segments.every(({ segment }) => segment.pending.length === 0)) return;
  const starts = new Map<number, number>();
  for (const { segment, at } of segments)
    for (const [line, point] of segment.starts) starts.set(line + movedDown(segment, at), at.points + point);
  for (const { segment, at } of segments) {
    for (const { point, target } of segment.pending) {
      const from = at.points + point;
      const found = target && scope.find(target.name, KINDS.target);
      const to = found?.file === scope.procedure.file ? starts.get(found.line) : undefined;
      points[from] = { ...(points[from] as JumpPoint | ReturnPoint), to: to ?? from + 1 };
    }
  }
}

function segmentOf(
  procedure: Procedure,
  parts: readonly Part[],
  scope: Scope,
  variables: Variables,
  index: number,
): Segment {
  const draft: Draft = {
    points: [],
    blocks: [],
    regions: [],
    variables,
    bounds: [],
    parent: -1,
    region: -1,
    block: -1,
    onward: null,
    asking: null,
    segment: index,
    nameless: 0,
  };
  const { thing } = procedure;
  const around: Around = {
    draft,
    scope,
    file: thing.file,
    through: null,
    open: [thing],
    starts: new Map(),
    named: new Map(),
    pending: [],
  };
  putAll(
    around,
    parts.map(({ entry, line }) => ({ entry, row: line })),
    0,
  );
  const { points, blocks, regions, bounds } = draft;
  const controls = controlsOf(points);
  return {
    parts,
    points,
    blocks,
    regions,
    bounds,
    starts: around.starts,
    pending: around.pending,
    controls,
    skeleton: skeletonOf(points, controls, around.pending, bounds, around.named),
    supports: points.some((p) => p.kind === "act" && p.verb === "support" && p.thing?.kind === "part"),
    lasts: !parts.some(({ entry }) => entry.construct === "follow" || holdsFollow(entry)),
  };
}

const holdsFollow = keptByEntry((entry: Entry): boolean =>
  entry.children.some(({ entry: child }) => child.construct === "follow" || holdsFollow(child)),
);

function putProcedure(around: Around, procedure: Thing): void {
  putAll(around, procedure.entry.children, procedure.line);
  for (const { point, target } of around.pending) {
    const to = target && target.file === around.file ? around.starts.get(target.line) : undefined;
    leadTo(around.draft, [point], to ?? point + 1);
  }
}

/** Puts down what stands in a block, line by line. */
export function putAll(around: Around, children: readonly Child[], line: number): void {
  children.forEach(({ entry, row }, i) => {
    if (entry.construct === "otherwise" && children[i - 1]?.entry.construct === "when") return;
    const next = entry.construct === "when" ? children[i + 1] : undefined;
    const otherwise = next?.entry.construct === "otherwise" ? { ...next, row: line + next.row } : null;
    putEntry(around, entry, line + row, otherwise);
  });
}

function putEntry(around: Around, entry: Entry, line: number, otherwise: Child | null): void {
  const { construct } = entry;
  switch (construct) {
    case "section":
    case "step":
      putStep(around, entry, line);
      break;
    case "check":
      putCheck(around, entry, line, putAll);
      break;
    case "if":
      putOutcome(around, entry, line, putAll);
      break;
    case "when":
      putWhen(around, entry, line, otherwise);
      break;
    case "for":
    case "otherwise":
      inBlock(around.draft, spotOf(around, entry, line), () => putAll(around, entry.children, line));
      break;
    case "follow":
      putFollow(around, entry, line);
      break;
    default:
      if (constructs.get(construct)?.act || construct === "hand-back") putAct(around, entry, line);
      else if (CAUTION_WORDS.includes(construct)) putCaution(around, entry, line);
      else putFlow(around, entry, line);
  }
}

function putCaution(around: Around, entry: Entry, line: number): void {
  const hazard = namesIn(entry.form, "hazard")[0]?.name ?? "";
  put(around.draft, { kind: "caution", spot: spotOf(around, entry, line), hazard });
}

function putStep(around: Around, entry: Entry, line: number): void {
  const { draft } = around;
  const thing = doneThing(around, entry, line);
  startAt(around, thing, line);
  inBlock(draft, spotOf(around, entry, line), () => {
    inStep(draft, null, () => putAll(around, entry.children, line));
    if (thing) put(draft, { kind: "done", spot: spotOf(around, entry, line), thing });
    // A step of words alone would else share its place with what comes after it.
    const first = draft.blocks[draft.block]?.start;
    if (entry.construct === "step" && draft.points.length === first)
      put(draft, { kind: "words", spot: spotOf(around, entry, line) });
  });
}

/** The step or check that a head declares, if it has a name that another line can mean. */
function doneThing(around: Around, entry: Entry, line: number): Thing | null {
  const name = namesIn(entry.form, "name")[0]?.name;
  const thing = name === undefined ? undefined : around.scope.find(name, KINDS.target);
  return thing?.line === line ? thing : null;
}

function putWhen(around: Around, entry: Entry, line: number, otherwise: Child | null): void {
  const { draft } = around;
  const name = namesIn(entry.form, "condition")[0]?.name ?? "";
  const thing = around.scope.find(name, KINDS.condition);
  if (!thing) return;
  const outcome = entry.form.slots.find((s) => s.role === "outcome")?.text ?? "";
  const choice =
    thing.kind === "check"
      ? draft.variables.outcome(thing, outcome || "met")
      : draft.variables.condition(thing);
  const title = `“${thing.title || thing.name}”`;
  const isCheck = thing.kind === "check";
  inRegion(draft, () => {
    const jumps: number[] = [];
    const spot = spotOf(around, entry, line);
    const test = inTest(
      draft,
      {
        kind: "test",
        spot,
        variable: choice.variable.index,
        mask: choice.mask,
        counters: [],
        usedUp: false,
        passes: false,
        yes: isCheck ? `${title} is ${outcome || "met"}` : `when ${title}`,
        no: isCheck ? `${title} is ${opposite(outcome || "met")}` : `when not ${title}`,
      },
      () => {
        inBlock(draft, spot, () => putAll(around, entry.children, line));
        if (otherwise) jumps.push(put(draft, { kind: "jump", spot, to: 0 }));
      },
    );
    if (otherwise) {
      const before = draft.parent;
      draft.parent = test;
      const head = spotOf(around, otherwise.entry, otherwise.row);
      inBlock(draft, head, () => putAll(around, otherwise.entry.children, otherwise.row));
      draft.parent = before;
    }
    leadTo(draft, jumps, draft.points.length);
  });
}

/** Procedures that follow many that follow many are joined in until there are so many points. */
const MOST_POINTS = 1_000_000;

function putFollow(around: Around, entry: Entry, line: number): void {
  const name = namesIn(entry.form, "procedure")[0];
  const other = name && around.scope.find(name.name, KINDS.procedure);
  if (!other || around.open.includes(other) || around.draft.points.length > MOST_POINTS) return;
  const through: Place = around.through ?? placeAt(around.file, line, name.at);
  const within = {
    ...around,
    scope: scopeWithin(around.scope, other),
    file: other.file,
    through,
    open: [...around.open, other],
    starts: new Map(),
    named: new Map(),
    pending: [],
  };
  inStep(around.draft, null, () => putProcedure(within, other));
}

function putFlow(around: Around, entry: Entry, line: number): void {
  const { draft } = around;
  const spot = spotOf(around, entry, line);
  const target = namesIn(entry.form, "target")[0];
  const found = target ? (around.scope.find(target.name, KINDS.target) ?? null) : null;
  switch (entry.construct) {
    case "go-on":
      draft.onward?.push(put(draft, { kind: "go-to", spot, to: 0 }));
      return;
    case "go-to":
      around.pending.push({ point: put(draft, { kind: "go-to", spot, to: 0 }), target: found });
      return;
    case "repeat":
      around.pending.push({ point: putReturn(draft, spot, timesOf(entry)), target: found });
      return;
    case "check-again":
      if (draft.asking) leadTo(draft, [putReturn(draft, spot, timesOf(entry))], draft.asking.first);
      return;
    case "end-job":
      put(draft, { kind: "end-job", spot });
  }
}

function putReturn(draft: Draft, spot: Point["spot"], bound: number | null): number {
  const counter = bound === null ? -1 : draft.bounds.push(bound) - 1;
  return put(draft, { kind: "return", spot, to: 0, counter, bound });
}
