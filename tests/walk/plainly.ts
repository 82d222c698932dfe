/**
 * Every way through a random program, one after the other, with the whole state of the machine at once: what is wrong
 * where, and whether it is wrong on every way that comes there. No code of the walk is used; what the acts need and make
 * is read from the same table, or from one with a wrong entry.
 */
import type { ActRow, Departure } from "../../server/walk";
import type { Instruction, Kind, World } from "./programs";

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

/** What is taken as true: what acts mean, and what the machine is made of. */
interface Given {
  readonly table: Table;
  readonly world: World;
  /** Whether something is supported at all. */
  readonly propped?: boolean;
}

/** Faults as `code thing line`, the line from 0 or `end`. */
export function enumerate(instructions: readonly Instruction[], table: Table, world: World): string[] {
  return [...follow(instructions, { table, world }, "").faults].sort();
}

/** Whether every way that comes to where a fault shows, shows it. */
export function isOnEveryWay(
  instructions: readonly Instruction[],
  table: Table,
  world: World,
  fault: string,
): boolean {
  return follow(instructions, { table, world }, fault).always;
}

/**
 * How things can stand before each instruction, by its place in the list: of each thing every set of words that some way
 * leads to, sorted and joined by commas. An instruction that no way comes to is left out.
 */
export function standings(
  instructions: readonly Instruction[],
  table: Table,
  world: World,
): Map<number, Map<string, Set<string>>> {
  const all = new Map<number, Map<string, Set<string>>>();
  follow(instructions, { table, world }, "", ({ at, state }) => {
    const here = all.get(at) ?? new Map<string, Set<string>>();
    all.set(at, here);
    for (const [thing, words] of Object.entries(state))
      here.set(thing, (here.get(thing) ?? new Set()).add([...words].sort().join()));
  });
  return all;
}

/**
 * Every fault, and whether one of them shows whenever its thing is looked at there. A way that shows it is not followed
 * further: what comes after is taken as if it were put right. `see` is told of every configuration that is come to.
 */
function follow(
  instructions: readonly Instruction[],
  given: Given,
  until: string,
  see: (now: Configuration) => void = () => {},
): { faults: Set<string>; always: boolean } {
  const faults = new Set<string>();
  const seen = new Set<string>();
  const [, thing, where] = until.split(" ");
  const acted = new Set(instructions.flatMap((i) => (i.does === "act" ? [i.thing] : [])));
  let always = true;
  const { parts, starts } = given.world;
  const propped = instructions.some(
    (i) => i.does === "act" && i.verb === "support" && parts[i.thing]?.machine !== true,
  );
  const touched = Object.keys(parts).filter((name) => acted.has(name) || starts[name]);
  const carried = touched.flatMap((name) => parts[name]?.carries ?? []);
  const state = Object.fromEntries([...touched, ...carried].map((name) => [name, starts[name] ?? []]));
  const open: Configuration[] = conditions(given.world).map((decided) => ({
    at: 0,
    decided,
    used: [],
    state,
  }));
  for (let now = open.pop(); now; now = open.pop()) {
    const state = Object.values(now.state).map((words) => [...words].sort().join("+"));
    const key = `${now.at} ${Object.values(now.decided)} ${now.used} ${state}`;
    if (seen.has(key)) continue;
    seen.add(key);
    see(now);
    const {
      faults: shown,
      next,
      asked,
    } = step(now, instructions[now.at] as Instruction, { ...given, propped }, acted);
    for (const fault of shown) faults.add(fault);
    const shows = shown.includes(until);
    if (!shows && asked.some(([t, w]) => t === thing && w === where)) always = false;
    if (!shows) open.push(...next);
  }
  return { faults, always };
}

function conditions({ decided, checks }: World): Record<string, string>[] {
  let all: Record<string, string>[] = [Object.fromEntries(checks.map((name) => [name, ""]))];
  for (const [name, values] of Object.entries(decided)) {
    if (checks.includes(name)) continue;
    all = all.flatMap((one) => values.map((value) => ({ ...one, [name]: value })));
  }
  return all;
}

interface Step {
  readonly faults: readonly string[];
  readonly next: readonly Configuration[];
  /** Things whose state was looked at, and where. */
  readonly asked: readonly (readonly [string, string])[];
}

function step(now: Configuration, instruction: Instruction, given: Given, acted: ReadonlySet<string>): Step {
  const { at, decided, used, state } = now;
  const to = (target: number, more: Partial<Configuration> = {}): Step => ({
    faults: [],
    asked: [],
    next: [{ ...now, at: target, ...more }],
  });
  switch (instruction.does) {
    case "act":
      return act(now, instruction, given, acted);
    case "test": {
      const { on, values, counters, still, past } = instruction;
      const isOut = counters.length > 0 && counters.every(([c, most]) => (used[c] ?? 0) >= most);
      return to(isOut === still && values.includes(decided[on] ?? "") ? at + 1 : past);
    }
    case "ask": {
      const next = (given.world.decided[instruction.check] ?? []).map((value) => ({
        ...now,
        at: at + 1,
        decided: { ...decided, [instruction.check]: value },
      }));
      return { faults: [], asked: [], next };
    }
    case "jump":
      return to(instruction.to);
    case "forget": {
      const { checks, counters } = instruction;
      const forgotten = Object.fromEntries(checks.map((name) => [name, ""]));
      return to(at + 1, {
        decided: { ...decided, ...forgotten },
        used: used.map((times, counter) => (counters.includes(counter) ? 0 : times)),
      });
    }
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
      const left = unfinished(state, given.world, given.propped === true).map(
        (thing) => `end-job-leaves ${thing} ${where}`,
      );
      return { faults: left, asked: [...acted].map((thing) => [thing, where] as const), next: [] };
    }
    case "end":
      return {
        faults: [...acted].flatMap((thing) => atEnd(thing, state[thing] ?? [], given)),
        asked: [...acted].map((thing) => [thing, "end"] as const),
        next: [],
      };
  }
}

/** What may not be left so when the job ends early: nothing runs, nothing hangs on a jack, no pin is in a spring. */
function unfinished(state: State, { pins, ends }: World, propped: boolean): string[] {
  return Object.entries(state).flatMap(([thing, words]) => {
    // Supported at a part of it, it does not hang.
    const hangs = words.includes("raised") && !words.includes("supported") && !propped;
    return words.includes("running") ||
      hangs ||
      (pins.includes(thing) && words.includes("in") && !ends[thing])
      ? [thing]
      : [];
  });
}

const LEVELS = ["out", "by hand", "placed", "loose", "snug"];

function atEnd(thing: string, words: readonly string[], { table: { departures }, world }: Given): string[] {
  const meant = world.ends[thing] ?? [];
  if (meant.some((word) => words.includes(word))) return [];
  if (world.parts[thing]?.fastener) {
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
  {
    verb: said,
    thing,
    line,
    age,
    discard,
    byHand,
    stage,
    lifted,
    without,
  }: Extract<Instruction, { does: "act" }>,
  { table: { acts, departures }, world: { parts } }: Given,
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
    state[name] = parts[name]?.fastener ? ["taken"] : [...(state[name] ?? []), "taken"];
  };
  const own = parts[thing] ?? {};
  const AWAY = ["off", "out", "disconnected", "taken", "carried"];
  if (row.reach) for (const front of own.behind ?? []) ask(front, "blocked-by", AWAY);
  if (row.released && !own.fastener) {
    for (const [name, other] of Object.entries(parts))
      if (other.secures?.includes(thing)) ask(name, "fastener-still-holds", ["out", "taken"]);
  }
  if (row.emptied && own.contains) ask(own.contains, "not-drained", ["drained", ...AWAY]);
  if (row.held && own.bears) ask(own.bears, "support-missing", ["supported", "raised", ...AWAY]);
  if (row.held && own.heavy && !lifted) ask(thing, "support-missing", ["supported", "raised", "taken"]);
  const [held = "", ...others] = own.secures ?? [];
  if (row.clamps && held !== "" && others.length === 0) {
    asked.push([held, String(line)]);
    if (has(held, "off")) fault("tightened-before-fitted", held);
  }
  if (own.fastener) {
    state[thing] = turned(thing, state[thing] ?? [], { own, row, age, byHand, stage }, fault);
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
    for (const name of moved ? (own.carries ?? []) : []) {
      const rest = (state[name] ?? []).filter((word) => word !== "carried");
      state[name] = makes === "off" ? [...rest, "carried"] : rest;
    }
  }
  if (row.whole && own.machine) {
    for (const name of acted) {
      if (parts[name]?.machine || without?.includes(name)) continue;
      asked.push([name, String(line)]);
      const wrong = parts[name]?.fastener
        ? has(name, ...LEVELS)
        : Object.entries(departures).some(([d, r]) => r.stopsStart && has(name, d));
      if (wrong) fault("started-too-soon", name);
    }
  }
  return { faults, asked, next: [{ ...now, at: now.at + 1, state }] };
}

interface Turning {
  readonly own: Kind;
  readonly row: ActRow;
  readonly age: "new" | "old" | null;
  readonly byHand: boolean;
  readonly stage: "snug" | null;
}

/** How a fastener stands after an act. */
function turned(
  name: string,
  words: readonly string[],
  { own, row, age, byHand, stage }: Turning,
  fault: (code: string, name: string) => void,
): readonly string[] {
  const level = words.find((word) => LEVELS.includes(word) || word === "taken") ?? "tight";
  const isStretched = words.includes("stretched") || (words.length === 0 && own.stretches === true);
  const old = words.includes("old") ? ["old"] : [];
  const renewed = own.renewed === true;
  switch (row.fastener) {
    case "out":
      if (level === "out") fault("removed-twice", name);
      return ["out", ...old, ...(renewed ? ["thrown"] : [])];
    case "placed":
      if (level !== "out" && level !== "taken") fault("part-fitted-twice", name);
      else if (age === null && renewed) fault("used-bolt-refitted", name);
      return [byHand ? "by hand" : "placed", ...(age === "old" && renewed ? ["old"] : [])];
    case "loose":
      return level === "out" ? words : ["loose", ...old];
    case "tightened": {
      const stretches = own.stretches === true;
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
