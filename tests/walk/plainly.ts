/**
 * Every way through a random program, one after the other, with the whole state of the machine at once: what is wrong
 * where, and whether it is wrong on every way that comes there. No code of the walk is used.
 */
import { DECIDED, type Instruction } from "./programs";

type State = Readonly<Record<string, string>>;

interface Configuration {
  readonly at: number;
  readonly decided: Readonly<Record<string, string>>;
  readonly used: readonly number[];
  readonly state: State;
}

const FRONT: Readonly<Record<string, string>> = { b: "a", c: "b" };
const START: State = { a: "on", b: "on", c: "on", bolts: "tight", pin: "out" };

/** Faults as `code thing line`, the line from 0 or `end`. */
export function enumerate(instructions: readonly Instruction[]): string[] {
  return [...follow(instructions, "").faults].sort();
}

/** Whether every way that comes to where a fault shows, shows it. */
export function isOnEveryWay(instructions: readonly Instruction[], fault: string): boolean {
  return follow(instructions, fault).always;
}

/**
 * Every fault, and whether one of them shows whenever its thing is looked at there. A way that shows it is not followed
 * further: what comes after is taken as if it were put right.
 */
function follow(
  instructions: readonly Instruction[],
  until: string,
): { faults: Set<string>; always: boolean } {
  const faults = new Set<string>();
  const seen = new Set<string>();
  const [, thing, where] = until.split(" ");
  let always = true;
  const open: Configuration[] = conditions().map((decided) => ({ at: 0, decided, used: [], state: START }));
  for (let now = open.pop(); now; now = open.pop()) {
    const key = `${now.at} ${Object.values(now.decided)} ${now.used} ${Object.values(now.state)}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const { faults: shown, next, asked } = step(now, instructions[now.at] as Instruction);
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

function step(now: Configuration, instruction: Instruction): Step {
  const { at, decided, used, state } = now;
  const to = (target: number, more: Partial<Configuration> = {}): Step => ({
    faults: [],
    asked: [],
    next: [{ ...now, at: target, ...more }],
  });
  switch (instruction.does) {
    case "act":
      return act(now, instruction);
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
    case "end-job":
      return { faults: [], asked: [], next: [] };
    case "end":
      return {
        faults: atEnd(state),
        asked: Object.keys(START).map((thing) => [thing, "end"] as const),
        next: [],
      };
  }
}

function act(now: Configuration, { verb, thing, line }: Extract<Instruction, { does: "act" }>): Step {
  const state: Record<string, string> = { ...now.state };
  const faults: string[] = [];
  const asked: [string, string][] = [];
  const front = FRONT[thing];
  if (front && (verb === "remove" || verb === "fit")) {
    asked.push([front, String(line)]);
    if (state[front] === "on") {
      faults.push(`blocked-by ${front} ${line}`);
      state[front] = "taken as off";
    }
  }
  if (verb === "remove" && thing === "a") {
    asked.push(["bolts", String(line)]);
    if (state.bolts !== "out" && state.bolts !== "taken as out") {
      faults.push(`fastener-still-holds bolts ${line}`);
      state.bolts = "taken as out";
    }
  }
  const moved = after(verb, thing, state[thing] as string);
  return { faults, asked, next: [{ ...now, at: now.at + 1, state: { ...state, [thing]: moved } }] };
}

function after(verb: string, thing: string, before: string): string {
  if (thing === "pin") return verb === "insert" ? "in" : "out";
  if (thing !== "bolts") return verb === "remove" ? "off" : "on";
  if (verb === "loosen") return before === "out" ? "out" : "loose";
  return { remove: "out", fit: "placed", "fit-by-hand": "by hand", tighten: "tight" }[verb] ?? before;
}

function atEnd(state: State): string[] {
  const left = ["a", "b", "c"]
    .filter((part) => state[part] === "off")
    .map((part) => `part-left-off ${part} end`);
  if (state.bolts === "out") left.push("part-left-off bolts end");
  if (["placed", "by hand", "loose"].includes(state.bolts ?? "")) left.push(`finger-tight-left bolts end`);
  if (state.pin === "in") left.push("temporary-left-in pin end");
  return left;
}
