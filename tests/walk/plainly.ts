/**
 * Every way through a random program, one after the other, with the whole state of the machine at once: what is wrong
 * where, and whether it is wrong on every way that comes there. No code of the walk is used; what the acts need and make
 * is read from the same table, or from one with a wrong entry.
 */
import type { ActRow, Departure } from "../../server/walk";
import { DECIDED, type Instruction, PARTS } from "./programs";

/** The data that a mechanic may correct: the acts, and how things can differ. */
export interface Table {
  readonly acts: Readonly<Record<string, ActRow>>;
  readonly departures: Readonly<
    Record<Departure, { left: string; twice: string; ended: string; stopsStart: boolean }>
  >;
}

/** How a thing stands: words for what is not as usual, and for a fastener how far it is tightened. */
type State = Readonly<Record<string, readonly string[]>>;

interface Configuration {
  readonly at: number;
  readonly decided: Readonly<Record<string, string>>;
  readonly used: readonly number[];
  readonly state: State;
}

/** Faults as `code thing line`, the line from 0 or `end`. */
export function enumerate(instructions: readonly Instruction[], table: Table): string[] {
  return [...follow(instructions, table, "").faults].sort();
}

/** Whether every way that comes to where a fault shows, shows it. */
export function isOnEveryWay(instructions: readonly Instruction[], table: Table, fault: string): boolean {
  return follow(instructions, table, fault).always;
}

/**
 * Every fault, and whether one of them shows whenever its thing is looked at there. A way that shows it is not followed
 * further: what comes after is taken as if it were put right.
 */
function follow(
  instructions: readonly Instruction[],
  table: Table,
  until: string,
): { faults: Set<string>; always: boolean } {
  const faults = new Set<string>();
  const seen = new Set<string>();
  const [, thing, where] = until.split(" ");
  const acted = new Set(instructions.flatMap((i) => (i.does === "act" ? [i.thing] : [])));
  let always = true;
  const open: Configuration[] = conditions().map((decided) => ({
    at: 0,
    decided,
    used: [],
    state: Object.fromEntries(Object.keys(PARTS).map((name) => [name, []])),
  }));
  for (let now = open.pop(); now; now = open.pop()) {
    const state = Object.values(now.state).map((words) => [...words].sort().join("+"));
    const key = `${now.at} ${Object.values(now.decided)} ${now.used} ${state}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const { faults: shown, next, asked } = step(now, instructions[now.at] as Instruction, table, acted);
    for (const fault of shown) faults.add(fault);
    const shows = shown.includes(until);
    if (!shows && asked.some(([t, w]) => t === thing && w === where)) always = false;
    if (!shows) open.push(...next);
  }
  return { faults, always };
}

function conditions(): Record<string, string>[] {
  let all: Record<string, string>[] = [{}];
  for (const name of ["k0", "k1", "k2"]) all = all.map((one) => ({ ...one, [name]: "" }));
  for (const name of ["rattle", "leak", "size"]) {
    all = all.flatMap((one) => (DECIDED[name] ?? []).map((value) => ({ ...one, [name]: value })));
  }
  return all;
}

interface Step {
  readonly faults: readonly string[];
  readonly next: readonly Configuration[];
  /** Things whose state was looked at, and where. */
  readonly asked: readonly (readonly [string, string])[];
}

function step(now: Configuration, instruction: Instruction, table: Table, acted: ReadonlySet<string>): Step {
  const { at, decided, used, state } = now;
  const to = (target: number, more: Partial<Configuration> = {}): Step => ({
    faults: [],
    asked: [],
    next: [{ ...now, at: target, ...more }],
  });
  switch (instruction.does) {
    case "act":
      return act(now, instruction, table, acted);
    case "test": {
      const { on, values, counters, still, past } = instruction;
      const isOut = counters.length > 0 && counters.every(([c, most]) => (used[c] ?? 0) >= most);
      return to(isOut === still && values.includes(decided[on] ?? "") ? at + 1 : past);
    }
    case "ask": {
      const next = (DECIDED[instruction.check] ?? []).map((value) => ({
        ...now,
        at: at + 1,
        decided: { ...decided, [instruction.check]: value },
      }));
      return { faults: [], asked: [], next };
    }
    case "jump":
      return to(instruction.to);
    case "back": {
      const { counter, most } = instruction;
      const times = used[counter] ?? 0;
      if (times >= most) return to(at + 1);
      const counted = Array.from({ length: Math.max(used.length, counter + 1) }, (_, i) => used[i] ?? 0);
      counted[counter] = times + 1;
      return to(instruction.to, { used: counted });
    }
    case "end-job": {
      const where = String(instruction.line);
      const left = unfinished(state).map((thing) => `end-job-leaves ${thing} ${where}`);
      return { faults: left, asked: [...acted].map((thing) => [thing, where] as const), next: [] };
    }
    case "end":
      return {
        faults: [...acted].flatMap((thing) => atEnd(thing, state[thing] ?? [], table)),
        asked: [...acted].map((thing) => [thing, "end"] as const),
        next: [],
      };
  }
}

/** What may not be left so when the job ends early: nothing runs, nothing hangs on a jack, no pin is in a spring. */
function unfinished(state: State): string[] {
  return Object.entries(state).flatMap(([thing, words]) => {
    const hangs = words.includes("raised") && !words.includes("supported");
    return words.includes("running") || hangs || (thing === "pin" && words.includes("in")) ? [thing] : [];
  });
}

const LEVELS = ["out", "by hand", "placed", "loose", "snug"];

function atEnd(thing: string, words: readonly string[], { departures }: Table): string[] {
  if (PARTS[thing]?.secures) {
    const level = words.find((w) => LEVELS.includes(w));
    const faults = level === "out" ? [`part-left-off ${thing} end`] : [];
    if (level && level !== "out") faults.push(`finger-tight-left ${thing} end`);
    if (!level && !words.includes("taken") && words.includes("old"))
      faults.push(`used-bolt-refitted ${thing} end`);
    return faults;
  }
  return Object.entries(departures).flatMap(([departure, row]) =>
    words.includes(departure) ? [`${row.left} ${thing} end`] : [],
  );
}

function act(
  now: Configuration,
  { verb: said, thing, line, age, discard, byHand, stage }: Extract<Instruction, { does: "act" }>,
  { acts, departures }: Table,
  acted: ReadonlySet<string>,
): Step {
  const row = acts[said] as ActRow;
  const state: Record<string, readonly string[]> = { ...now.state };
  const faults: string[] = [];
  const asked: [string, string][] = [];
  const has = (name: string, ...words: readonly string[]): boolean =>
    words.some((word) => state[name]?.includes(word) === true);
  const fault = (code: string, name: string): void => void faults.push(`${code} ${name} ${line}`);
  const ask = (name: string, code: string, enough: readonly string[]): void => {
    asked.push([name, String(line)]);
    if (has(name, ...enough)) return;
    fault(code, name);
    state[name] = PARTS[name]?.secures ? ["taken"] : [...(state[name] ?? []), "taken"];
  };
  const own = PARTS[thing] ?? {};
  const AWAY = ["off", "disconnected", "taken", "carried"];
  if (row.reach) for (const front of own.behind ?? []) ask(front, "blocked-by", AWAY);
  if (row.released && !own.secures) {
    for (const [name, other] of Object.entries(PARTS))
      if (other.secures === thing) ask(name, "fastener-still-holds", ["out", "taken"]);
  }
  if (row.emptied && own.contains) ask(own.contains, "not-drained", ["drained", ...AWAY]);
  if (row.held && own.bears) ask(own.bears, "support-missing", ["supported", "raised", ...AWAY]);
  if (row.held && own.heavy) ask(thing, "support-missing", ["supported", "raised", "taken"]);
  if (own.secures) {
    state[thing] = turned(thing, state[thing] ?? [], { row, age, byHand, stage }, fault);
    asked.push([thing, String(line)]);
  } else {
    asked.push([thing, String(line)]);
    const before = state[thing] ?? [];
    const { makes, ends } = row;
    if (makes && !row.repeatable && before.includes(makes)) fault(departures[makes].twice, thing);
    if (ends && !row.repeatable && !before.includes(ends) && !before.includes("taken"))
      fault(departures[ends].ended, thing);
    else if (ends === "off" && age === null && before.includes("thrown")) fault("old-part-refitted", thing);
    const moved = makes === "off" || ends === "off";
    const gone = (word: string): boolean =>
      word === ends || word === makes || (moved && word === "taken") || (ends === "off" && word === "thrown");
    const made = makes ? [makes] : [];
    const thrown = said === "throw-away" || (makes === "off" && (discard || own.renewed)) ? ["thrown"] : [];
    state[thing] = [...new Set([...before.filter((word) => !gone(word)), ...made, ...thrown])];
    if (moved && own.carries) {
      const rest = (state[own.carries] ?? []).filter((word) => word !== "carried");
      state[own.carries] = makes === "off" ? [...rest, "carried"] : rest;
    }
  }
  if (row.whole && own.machine) {
    for (const name of acted) {
      if (PARTS[name]?.machine) continue;
      asked.push([name, String(line)]);
      const wrong = PARTS[name]?.secures
        ? has(name, ...LEVELS)
        : Object.entries(departures).some(([d, r]) => r.stopsStart && has(name, d));
      if (wrong) fault("started-too-soon", name);
    }
  }
  return { faults, asked, next: [{ ...now, at: now.at + 1, state }] };
}

interface Turning {
  readonly row: ActRow;
  readonly age: "new" | "old" | null;
  readonly byHand: boolean;
  readonly stage: "snug" | null;
}

/** How a fastener stands after an act. */
function turned(
  name: string,
  words: readonly string[],
  { row, age, byHand, stage }: Turning,
  fault: (code: string, name: string) => void,
): readonly string[] {
  const level = words.find((word) => LEVELS.includes(word) || word === "taken") ?? "tight";
  const isStretched = words.includes("stretched") || (words.length === 0 && PARTS[name]?.stretches === true);
  const old = words.includes("old") ? ["old"] : [];
  const renewed = PARTS[name]?.renewed === true;
  switch (row.fastener) {
    case "out":
      if (level === "out") fault("removed-twice", name);
      return ["out", ...old];
    case "placed":
      if (level !== "out" && level !== "taken") fault("part-fitted-twice", name);
      else if (age === null && renewed) fault("used-bolt-refitted", name);
      return [byHand ? "by hand" : "placed", ...(age === "old" && renewed ? ["old"] : [])];
    case "loose":
      return level === "out" ? words : ["loose", ...old];
    case "tightened": {
      const stretches = PARTS[name]?.stretches === true;
      const turnsNow = stretches && stage === null;
      if (level === "out") fault("tightened-before-fitted", name);
      else if (isStretched && turnsNow && level === "tight") fault("angle-twice", name);
      else if (stage === "snug" && level === "snug") fault("stage-out-of-order", name);
      const stretched = turnsNow || isStretched ? ["stretched"] : [];
      return [...(stage === "snug" ? ["snug"] : []), ...stretched, ...old, "turned"];
    }
    default:
      return words;
  }
}
