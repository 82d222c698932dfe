/**
 * How things stand at a line of a procedure, as far as the text before it tells: each act is taken as done, in the order
 * of the text; what belongs to an outcome or a condition counts only within it. Quick enough for every keystroke; the
 * walk-through knows better, and takes longer.
 */
import { constructs } from "../../grammar";
import { actOf, type Entry, fastenerFacts, keptByEntry, namesOfClause, partFacts } from "../facts";
import { followed, type Procedure, type Thing } from "../model";
import { actRow, DEPARTURE_NAMES, DEPARTURES, type Departure } from "../walk/acts";

/** What has become of one thing. */
export interface ThingState {
  /** How it differs from normal. */
  readonly departed: ReadonlySet<Departure>;
  readonly fastener: "tight" | "out" | "placed" | "loose";
  /** It was put in by hand and not tightened since. */
  readonly byHand: boolean;
  /** Which act touched it last, counted from the start; 0 where none did. */
  readonly touched: number;
}

/** The state of every thing by name; a thing without one is as normal. */
export type States = ReadonlyMap<string, ThingState>;

const NORMAL: ThingState = { departed: new Set(), fastener: "tight", byHand: false, touched: 0 };

/** The state of a thing at a line. */
export function stateOf(states: States, name: string): ThingState {
  return states.get(name) ?? NORMAL;
}

interface Changing {
  readonly departed: Set<Departure>;
  fastener: ThingState["fastener"];
  byHand: boolean;
  touched: number;
}

interface Run {
  readonly states: Map<string, Changing>;
  readonly procedure: Procedure;
  /** The line that is asked about. */
  readonly row: number;
  readonly open: readonly Thing[];
  acts: number;
}

/** How things stand where a line begins; then after an act on that line is done on some things. */
export function statesAt(
  procedure: Procedure,
  row: number,
  verb = "",
  names: readonly string[] = [],
): States {
  const run: Run = { states: new Map(), procedure, row, open: [procedure.thing], acts: 0 };
  go(run, procedure.thing.entry, procedure.thing.line, true);
  done(run, verb, names, false);
  return run.states;
}

const ON_CONDITION: ReadonlySet<string> = new Set(["if", "when", "otherwise"]);

/** `here`: the entries stand in the text that the line is in, so that its place ends the run. */
function go(run: Run, entry: Entry, line: number, here: boolean): void {
  for (const child of entry.children) {
    const at = line + child.row;
    if (here && at >= run.row) return;
    const inside = here && run.row < at + child.entry.lineCount;
    const { construct } = child.entry;
    if (construct === "starts") start(run, child.entry);
    else if (construct === "ends" || (ON_CONDITION.has(construct) && !inside)) continue;
    else if (construct === "follow") join(run, child.entry);
    else if (constructs.get(construct)?.act) act(run, child.entry);
    else go(run, child.entry, at, here);
  }
}

function start(run: Run, entry: Entry): void {
  for (const { entry: said } of entry.children) {
    const departure = DEPARTURE_NAMES.find((one) => DEPARTURES[one].said === said.construct);
    for (const { name } of said.form.slots.flatMap((s) => s.names)) {
      const state = own(run, name);
      if (departure) state.departed.add(departure);
      if (departure) state.fastener = "out";
      else if (said.construct === "loose") state.fastener = "loose";
    }
  }
}

function join(run: Run, entry: Entry): void {
  const other = followed(run.procedure, entry);
  if (!other || run.open.includes(other)) return;
  const inside: Run = { ...run, open: [...run.open, other] };
  go(inside, other.entry, other.line, false);
  run.acts = inside.acts;
}

/** The state of a thing, to be changed. */
function own({ states }: Run, name: string): Changing {
  let state = states.get(name);
  if (!state) {
    state = { departed: new Set(), fastener: "tight", byHand: false, touched: 0 };
    states.set(name, state);
  }
  return state;
}

function act(run: Run, entry: Entry): void {
  const { verb, what, byHand } = actOf(entry);
  const names = what.map(({ name }) => name);
  done(run, verb, names, byHand);
}

function done(run: Run, verb: string, names: readonly string[], byHand: boolean): void {
  const row = actRow(verb);
  const touched = ++run.acts;
  for (const name of names) {
    const carried = row.makes === "off" || row.ends === "off" ? carriedBy(run.procedure, name) : [];
    for (const one of [name, ...carried]) {
      const state = own(run, one);
      if (row.makes) state.departed.add(row.makes);
      if (row.ends) state.departed.delete(row.ends);
      state.touched = touched;
      state.byHand = byHand && one === name;
    }
    if (row.fastener === "tightened") own(run, name).fastener = "tight";
    else if (row.fastener && row.fastener !== "set") own(run, name).fastener = row.fastener;
  }
}

function carriedBy({ find }: Procedure, name: string): readonly string[] {
  const thing = find(name, ["part"]);
  return thing ? partFacts(thing.entry).carries.map((n) => n.name) : [];
}

/** Whether something that stands in front of a thing is still there. */
export function isCovered(thing: Thing, states: States, find: Procedure["find"]): boolean {
  const front = frontOf(thing.entry);
  if (front.some((name) => !isOff(states, name))) return true;
  if (thing.kind !== "fastener" || front.length > 0) return false;
  return heldBy(thing).some((name) => {
    const held = find(name);
    return held !== undefined && frontOf(held.entry).some((one) => !isOff(states, one));
  });
}

const frontOf = keptByEntry((entry: Entry): readonly string[] =>
  namesOfClause(entry, "behind", "things").map((n) => n.name),
);

/** Whether something is off, out or disconnected: no longer in the way. */
export function isOff(states: States, name: string): boolean {
  const { departed, fastener } = stateOf(states, name);
  return departed.has("off") || departed.has("disconnected") || fastener === "out";
}

/** The names of what a fastener holds. */
export function heldBy(thing: Thing): readonly string[] {
  return thing.kind === "fastener" ? fastenerFacts(thing.entry).secures.map((n) => n.name) : [];
}
