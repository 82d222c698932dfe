/**
 * A procedure as a graph of points, in the order of the text, with the procedures it follows spliced in. What a line
 * could not be read to say never gets here: a procedure with doubtful lines is not followed.
 */
import { constructs } from "../../grammar";
import { actOf, CAUTION_WORDS, type Child, type Entry, namesIn, timesOf } from "../facts";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import {
  type Around,
  type Block,
  type Draft,
  inBlock,
  inRegion,
  inTest,
  leadTo,
  put,
  type Region,
  spotOf,
} from "./build";
import { putCheck, putOutcome } from "./checks";
import type { Point } from "./points";
import { type Scope, scopeOf, scopeWithin } from "./scope";
import { type Variables, variablesOf } from "./variables";

export interface Graph {
  readonly procedure: Procedure;
  readonly scope: Scope;
  /** The last point is the end. */
  readonly points: readonly Point[];
  readonly blocks: readonly Block[];
  readonly regions: readonly Region[];
  readonly variables: Variables;
  /** How many returns each counter allows. */
  readonly bounds: readonly number[];
}

/** The graph of a procedure. */
export function graphOf(procedure: Procedure): Graph {
  const variables = variablesOf(procedure);
  const draft: Draft = {
    points: [],
    blocks: [],
    regions: [],
    variables,
    bounds: [],
    parent: -1,
    region: -1,
    block: -1,
  };
  const scope = scopeOf(procedure);
  const { thing } = procedure;
  const around = { draft, scope, file: thing.file, through: null, open: [thing], onward: null, asking: null };
  inBlock(draft, "procedure", () => {
    putProcedure({ ...around, starts: new Map(), pending: [] }, thing);
    put(draft, {
      kind: "end",
      spot: spotOf({ ...around, starts: new Map(), pending: [] }, thing.entry, thing.line),
    });
  });
  const { points, blocks, regions, bounds } = draft;
  return { procedure, scope, points, blocks, regions, variables, bounds };
}

function putProcedure(around: Around, procedure: Thing): void {
  putAll(around, procedure.entry.children, procedure.line);
  for (const { point, target } of around.pending) {
    const to = target && target.file === around.file ? around.starts.get(target.line) : undefined;
    leadTo(around.draft, [point], to ?? point + 1);
  }
}

/** Puts down what stands in a block, line by line. */
export function putAll(around: Around, children: readonly Child[], line: number): void {
  children.forEach((child, i) => {
    const next = children[i + 1];
    if (child.entry.construct === "otherwise" && children[i - 1]?.entry.construct === "when") return;
    const otherwise = next?.entry.construct === "otherwise" ? next : null;
    putEntry(
      around,
      child.entry,
      line + child.row,
      otherwise && { row: line + otherwise.row, entry: otherwise.entry },
    );
  });
}

function putEntry(around: Around, entry: Entry, line: number, otherwise: Child | null): void {
  const { construct } = entry;
  if (constructs.get(construct)?.act || construct === "hand-back") putAct(around, entry, line);
  else if (CAUTION_WORDS.includes(construct)) putCaution(around, entry, line);
  else if (construct === "section" || construct === "step") putStep(around, entry, line);
  else if (construct === "check") putCheck(around, entry, line, putAll);
  else if (construct === "if") putOutcome(around, entry, line, putAll);
  else if (construct === "when") putWhen(around, entry, line, otherwise);
  else if (construct === "for" || construct === "otherwise")
    inBlock(around.draft, construct, () => putAll(around, entry.children, line));
  else if (construct === "follow") putFollow(around, entry, line);
  else putFlow(around, entry, line);
}

function putAct(around: Around, entry: Entry, line: number): void {
  const act = actOf(entry);
  const spot = spotOf(around, entry, line);
  const supplies = act.tools.flatMap(
    (t) => around.scope.find(t.name, ["consumable", "tool", "temporary"]) ?? [],
  );
  const common = { kind: "act", verb: entry.construct, act, supplies } as const;
  const subjects = entry.form.slots
    .filter((slot) => SUBJECTS.has(slot.role))
    .flatMap((slot) =>
      slot.names.map(({ name, at }) => ({ at, thing: around.scope.find(name, slot.accepts) ?? null })),
    );
  // One line may take out a part and what secures it, in whatever order it names them.
  if (entry.construct === "remove")
    subjects.sort((a, b) => Number(b.thing?.kind === "fastener") - Number(a.thing?.kind === "fastener"));
  for (const { at, thing } of subjects) put(around.draft, { ...common, spot: { ...spot, at }, thing });
  if (subjects.length === 0) put(around.draft, { ...common, spot, thing: null });
}

/** The roles of what an act is done on; its clips, pulleys and events are not. */
const SUBJECTS: ReadonlySet<string> = new Set([
  "what",
  "marks",
  "shaft",
  "belt",
  "tester",
  "thing",
  "things",
]);

function putCaution(around: Around, entry: Entry, line: number): void {
  const hazard = namesIn(entry.form, "hazard")[0]?.name ?? "";
  put(around.draft, { kind: "caution", spot: spotOf(around, entry, line), hazard });
}

function putStep(around: Around, entry: Entry, line: number): void {
  const { draft } = around;
  around.starts.set(line, draft.points.length);
  const onward: number[] = [];
  inBlock(draft, entry.construct, () => {
    putAll({ ...around, onward, asking: null }, entry.children, line);
    leadTo(draft, onward, draft.points.length);
    const thing = doneThing(around, entry, line);
    if (thing) put(draft, { kind: "done", spot: spotOf(around, entry, line), thing });
  });
}

/** The step or check that a head declares, if it has a name that another line can mean. */
export function doneThing(around: Around, entry: Entry, line: number): Thing | null {
  const name = namesIn(entry.form, "name")[0]?.name;
  const thing = name === undefined ? undefined : around.scope.find(name, [entry.construct]);
  return thing?.line === line ? thing : null;
}

function putWhen(around: Around, entry: Entry, line: number, otherwise: Child | null): void {
  const { draft } = around;
  const name = namesIn(entry.form, "condition")[0]?.name ?? "";
  const thing = around.scope.find(name, CONDITION_KINDS);
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
        no: isCheck ? `${title} is not ${outcome || "met"}` : `when not ${title}`,
      },
      () => {
        inBlock(draft, "when", () => putAll(around, entry.children, line));
        if (otherwise) jumps.push(put(draft, { kind: "jump", spot, to: 0 }));
      },
    );
    if (otherwise) {
      const before = draft.parent;
      draft.parent = test;
      inBlock(draft, "otherwise", () => putAll(around, otherwise.entry.children, otherwise.row));
      draft.parent = before;
    }
    leadTo(draft, jumps, draft.points.length);
  });
}

const CONDITION_KINDS = ["symptom", "bulletin", "option", "choice", "variant", "check"];

/** Procedures that follow many that follow many are joined in until there are so many points. */
const MOST_POINTS = 1_000_000;

function putFollow(around: Around, entry: Entry, line: number): void {
  const name = namesIn(entry.form, "procedure")[0];
  const other = name && around.scope.find(name.name, ["procedure"]);
  if (!other || around.open.includes(other) || around.draft.points.length > MOST_POINTS) return;
  const through: Place = around.through ?? placeAt(around.file, line, name.at);
  putProcedure(
    {
      ...around,
      scope: scopeWithin(around.scope, other),
      file: other.file,
      through,
      open: [...around.open, other],
      starts: new Map(),
      pending: [],
      onward: null,
      asking: null,
    },
    other,
  );
}

function putFlow(around: Around, entry: Entry, line: number): void {
  const { draft } = around;
  const spot = spotOf(around, entry, line);
  const target = namesIn(entry.form, "target")[0];
  const found = target ? (around.scope.find(target.name, ["step", "check", "section"]) ?? null) : null;
  switch (entry.construct) {
    case "go-on":
      if (around.onward) around.onward.push(put(draft, { kind: "go-to", spot, to: 0 }));
      return;
    case "go-to":
      around.pending.push({ point: put(draft, { kind: "go-to", spot, to: 0 }), target: found });
      return;
    case "repeat":
      around.pending.push({ point: putReturn(draft, spot, timesOf(entry)), target: found });
      return;
    case "check-again":
      if (around.asking) leadTo(draft, [putReturn(draft, spot, timesOf(entry))], around.asking.first);
      return;
    case "end-job":
      put(draft, { kind: "end-job", spot });
  }
}

function putReturn(draft: Draft, spot: Point["spot"], bound: number | null): number {
  const counter = bound === null ? -1 : draft.bounds.push(bound) - 1;
  return put(draft, { kind: "return", spot, to: 0, counter, bound });
}
