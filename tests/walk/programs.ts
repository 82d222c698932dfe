/**
 * Small random procedures: acts under conditions, checks with returns, jumps, ends. As text for the walk, and as a list
 * of instructions for the plain enumeration in `plainly.ts`, which knows nothing of the walk.
 */
import { below, pick, type Random } from "../support/random";

export type Instruction =
  | {
      readonly does: "act";
      readonly verb: string;
      readonly thing: string;
      readonly line: number;
      /** As the line says: a new one, an old one; thrown away; by hand; to the first stage only. */
      readonly age: "new" | "old" | null;
      readonly discard: boolean;
      readonly byHand: boolean;
      readonly stage: "snug" | null;
      /** Enough people or gear lift it. */
      readonly lifted?: boolean;
      /** What is left off on purpose. */
      readonly without?: readonly string[];
    }
  /** Into the body, or on to `past`. With `counters`, whether they are used up must be as `still` says. */
  | {
      readonly does: "test";
      readonly on: string;
      readonly values: readonly string[];
      past: number;
      /** The counters of its returns, each with how many it allows. */
      readonly counters: readonly (readonly [number, number])[];
      readonly still: boolean;
    }
  | { readonly does: "ask"; readonly check: string }
  | { readonly does: "jump"; to: number }
  /** What is decided and counted so far makes no difference from here on. */
  | { readonly does: "forget"; readonly checks: readonly string[]; readonly counters: readonly number[] }
  | { readonly does: "back"; readonly to: number; readonly counter: number; readonly most: number }
  | { readonly does: "end-job"; readonly line: number }
  | { readonly does: "end" };

export interface Program {
  readonly text: string;
  readonly instructions: readonly Instruction[];
  /** First instructions of its steps and checks. */
  readonly begins: readonly number[];
}

/** What a thing of the machine is to the others. */
export interface Kind {
  readonly behind?: readonly string[];
  readonly fastener?: boolean;
  readonly secures?: readonly string[];
  readonly contains?: string;
  readonly carries?: readonly string[];
  readonly bears?: string;
  /** More than one person lifts. */
  readonly heavy?: boolean;
  /** A new one is due whenever it comes off. */
  readonly renewed?: boolean;
  /** Tightened by torque, then by angle. */
  readonly stretches?: boolean;
  readonly machine?: boolean;
}

/** What an enumeration knows beside the instructions. */
export interface World {
  readonly parts: Readonly<Record<string, Kind>>;
  /** The values of everything that is decided; what is not a check is decided once. */
  readonly decided: Readonly<Record<string, readonly string[]>>;
  readonly checks: readonly string[];
  /** How things stand when the job begins, and may stand when it ends; words as in a state. */
  readonly starts: Readonly<Record<string, readonly string[]>>;
  readonly ends: Readonly<Record<string, readonly string[]>>;
  /** What locks or holds something for a while. */
  readonly pins: readonly string[];
}

/** The machine of every program, for the enumeration. */
const PARTS: Readonly<Record<string, Kind>> = {
  a: { carries: ["d"] },
  b: { behind: ["a"], renewed: true },
  c: { behind: ["b"], heavy: true },
  d: { behind: ["b"] },
  tank: { contains: "oil", bears: "drum" },
  drum: {},
  oil: {},
  tap: {},
  plug: {},
  bolts: { fastener: true, secures: ["a"] },
  // What secures b stands behind what stands in front of b.
  nut: { fastener: true, secures: ["b"], behind: ["a"], renewed: true, stretches: true },
  pin: {},
  winch: { machine: true },
};

/** The same machine as a text. */
export const MACHINE = `torquil 1

machine winch "Winch" {
  fluid oil "Oil"  2 L
  tap tap "Tap"
  connector plug "Plug"
  part a "A" {
    spring-loaded
    carries d
  }
  part b "B"  behind a  renew every time
  part c "C"  behind b  weight 40 kg
  part d "D"  behind b
  part drum "Drum"
  part tank "Tank"  contains oil  bears drum
  fastener bolts "Bolts"  secures a  tighten 22 N·m
  fastener nut "Nut" {
    secures b
    dry
    stage snug 20 N·m
    stage final 90°
    renew every time
  }
  one-of size "Size" {
    choice small "Small"
    choice medium "Medium"
    choice large "Large"
  }
}
`;

const DECIDED: Readonly<Record<string, readonly string[]>> = {
  rattle: ["yes", "no"],
  leak: ["yes", "no"],
  size: ["small", "medium", "large"],
  k0: ["met", "over", "under"],
  k1: ["met", "over", "under"],
  k2: ["met", "over", "under"],
};

/** The machine and the conditions of every program. */
export const WORLD: World = {
  parts: PARTS,
  decided: DECIDED,
  checks: ["k0", "k1", "k2"],
  starts: {},
  ends: {},
  pins: ["pin"],
};

const ACTS: readonly (readonly [verb: string, thing: string, weight: number])[] = [
  ...["a", "b", "c", "d", "tank", "bolts", "nut"].flatMap((thing) => [
    ["remove", thing, 3] as const,
    ["fit", thing, 3] as const,
  ]),
  ...["bolts", "nut"].flatMap((thing) => [["tighten", thing, 3] as const, ["loosen", thing, 1] as const]),
  ...["insert", "pull"].map((verb) => [verb, "pin", 2] as const),
  ...["drain", "fill"].map((verb) => [verb, "oil", 2] as const),
  ...["open", "close"].map((verb) => [verb, "tap", 1] as const),
  ...["disconnect", "connect", "isolate", "restore"].map((verb) => [verb, "plug", 1] as const),
  ...["support", "release", "raise", "lower"].map((verb) => [verb, "drum", 1] as const),
  ...["support", "release"].map((verb) => [verb, "c", 1] as const),
  ...["start", "stop", "run-in"].map((verb) => [verb, "winch", 1] as const),
  ["throw-away", "d", 1],
];

const WEIGHTED = ACTS.flatMap(([verb, thing, weight]) =>
  Array.from({ length: weight }, () => [verb, thing] as const),
);

const MOST_THINGS = 5;

/** The step that jumps lead to. */
const LAST = "last";

interface Draft {
  readonly random: Random;
  /** The acts of this program: on a few of the things only, or the whole states would be too many to enumerate. */
  readonly acts: readonly (readonly [verb: string, thing: string])[];
  readonly lines: string[];
  readonly instructions: Instruction[];
  /** First instructions of the steps so far, by name, and jumps to steps still to come. */
  readonly steps: Map<string, number>;
  readonly begins: number[];
  readonly forward: { readonly at: Extract<Instruction, { does: "jump" }>; readonly target: string }[];
  counters: number;
  checks: number;
}

const HEAD = `torquil 1

use "winch.torquil"

procedure job "Job" {
  on winch
  temporary pin "Pin"  into a
  symptom rattle "Rattle"
  symptom leak "Leak"`;

/** A program with so many steps and checks. */
export function makeProgram(random: Random, parts: number): Program {
  const names = Object.keys(PARTS);
  const few = new Set(Array.from({ length: MOST_THINGS }, () => pick(random, names)));
  const draft: Draft = {
    random,
    acts: WEIGHTED.filter(([, thing]) => few.has(thing)),
    lines: HEAD.split("\n"),
    instructions: [],
    steps: new Map(),
    begins: [],
    forward: [],
    counters: 0,
    checks: 0,
  };
  for (let part = 0; part < parts - 1; part++) putPart(draft, part, parts);
  putStep(draft, LAST, parts - 1, parts);
  draft.lines.push("}");
  draft.instructions.push({ does: "end" });
  for (const { at, target } of draft.forward) at.to = draft.steps.get(target) as number;
  const { lines, instructions, begins } = draft;
  return { text: `${lines.join("\n")}\n`, instructions, begins };
}

function putPart(draft: Draft, part: number, parts: number): void {
  const { random, lines } = draft;
  const around = below(random, 6) === 0 && part < parts - 1;
  if (around) putWhen(draft, "  ", () => putStep(draft, `x${part}`, part, parts));
  else if (below(random, 5) < 2 && draft.checks < 3) putCheck(draft, part, parts);
  else putStep(draft, `s${part}`, part, parts);
  lines.push("");
}

function putStep(draft: Draft, name: string, part: number, parts: number): void {
  draft.steps.set(name, draft.instructions.length);
  draft.begins.push(draft.instructions.length);
  draft.lines.push(`  step ${name} "Step ${name}" {`);
  putActs(draft, "    ", 3, 2);
  if (part < parts - 2 && below(draft.random, 8) === 0) {
    putWhen(draft, "    ", () => putExit(draft, "      ", part, parts, []));
  }
  draft.lines.push("  }");
}

function putActs(draft: Draft, indent: string, most: number, depth: number): void {
  const count = 1 + below(draft.random, most);
  for (let i = 0; i < count; i++) {
    if (depth > 0 && below(draft.random, 4) === 0)
      putWhen(draft, indent, () => putActs(draft, `${indent}  `, 2, depth - 1));
    else putAct(draft, indent);
  }
}

function putAct({ random, acts, lines, instructions }: Draft, indent: string): void {
  const [verb, thing] = pick(random, acts);
  const isFastener = PARTS[thing]?.fastener === true;
  const fits = verb === "fit";
  const byHand = fits && isFastener && below(random, 2) === 0;
  const age = fits ? pick(random, [null, null, "new", "new", "old"] as const) : null;
  const discard = verb === "remove" && !isFastener && below(random, 4) === 0;
  const stage = verb === "tighten" && thing === "nut" && below(random, 3) === 0 ? "snug" : null;
  instructions.push({ does: "act", verb, thing, line: lines.length, age, discard, byHand, stage });
  const tail = `${byHand ? "  by hand" : ""}${discard ? "  discard" : ""}${stage ? "  to snug" : ""}`;
  const after = verb === "run-in" ? " 5 min" : "";
  lines.push(`${indent}${verb} ${age ? `${age} ` : ""}${thing}${after}${tail}`);
}

function putWhen(draft: Draft, indent: string, body: () => void): void {
  const { random, lines, instructions } = draft;
  const conditions = ["rattle", "leak", "small", "medium", "large"];
  const asked = draft.checks > 0 && below(random, 3) === 0 ? `k${below(random, draft.checks)}` : null;
  const word = asked ? pick(random, ["met", "over", "under", "not met"]) : pick(random, conditions);
  lines.push(`${indent}when ${asked ? `${asked} ${word}` : word} {`);
  const isSize = ["small", "medium", "large"].includes(word);
  const on = asked ?? (isSize ? "size" : word);
  const values = asked ? (word === "not met" ? ["over", "under"] : [word]) : [isSize ? word : "yes"];
  const test: Instruction = { does: "test", on, values, past: 0, counters: [], still: false };
  instructions.push(test);
  body();
  lines.push(`${indent}}`);
  if (below(random, 3) > 0) {
    test.past = instructions.length;
    return;
  }
  const jump: Instruction = { does: "jump", to: 0 };
  instructions.push(jump);
  test.past = instructions.length;
  lines.push(`${indent}otherwise {`);
  putActs(draft, `${indent}  `, 2, 0);
  lines.push(`${indent}}`);
  jump.to = instructions.length;
}

function putCheck(draft: Draft, part: number, parts: number): void {
  const { random, lines, instructions } = draft;
  const name = `k${draft.checks}`;
  const first = instructions.length;
  draft.begins.push(first);
  lines.push(`  check ${name} "Check ${name}" {`, "    limit 0.1 to 0.2 mm", "    record");
  if (below(random, 2) === 0) putAct(draft, "    ");
  instructions.push({ does: "ask", check: name });
  const on: Extract<Instruction, { does: "jump" }>[] = [];
  const earlier = [...draft.steps].filter(([step]) => step.startsWith("s"));
  for (const outcome of ["over", "under"]) {
    if (below(random, 3) === 0) continue;
    const counters: [number, number][] = [];
    putOutcome(draft, name, outcome, false, counters, on, () => {
      putActs(draft, "      ", 2, 1);
      const choice = below(random, 5);
      if (choice < 2) putBack(draft, counters, earlier, first);
      else if (choice === 2) putExit(draft, "      ", part, parts, on);
    });
    if (counters.length > 0 && below(random, 3) > 0) {
      putOutcome(draft, name, outcome, true, counters, on, () => {
        putActs(draft, "      ", 1, 0);
        if (below(random, 2) === 0) putExit(draft, "      ", part, parts, on);
      });
    }
  }
  lines.push("  }");
  for (const jump of on) jump.to = instructions.length;
  draft.checks++;
}

function putOutcome(
  { lines, instructions }: Draft,
  check: string,
  outcome: string,
  still: boolean,
  counters: readonly [number, number][],
  on: Extract<Instruction, { does: "jump" }>[],
  body: () => void,
): void {
  lines.push(`    if ${still ? "still " : ""}${outcome} {`);
  const test: Instruction = { does: "test", on: check, values: [outcome], past: 0, counters, still };
  instructions.push(test);
  body();
  lines.push("    }");
  const jump: Instruction = { does: "jump", to: 0 };
  instructions.push(jump);
  on.push(jump);
  test.past = instructions.length;
}

function putBack(
  draft: Draft,
  counters: [number, number][],
  earlier: readonly (readonly [string, number])[],
  first: number,
): void {
  const { random, lines, instructions } = draft;
  const most = 1 + below(random, 2);
  const target = earlier.length > 0 && below(random, 2) === 0 ? pick(random, earlier) : null;
  lines.push(`      ${target ? `repeat from ${target[0]}` : "check again"}  at most ${most} times`);
  counters.push([draft.counters, most]);
  instructions.push({ does: "back", to: target ? target[1] : first, counter: draft.counters++, most });
}

/** Ends the job, goes on, or goes to the last step. */
function putExit(
  draft: Draft,
  indent: string,
  part: number,
  parts: number,
  on: Extract<Instruction, { does: "jump" }>[],
): void {
  const { random, lines, instructions } = draft;
  const choice = below(random, 3);
  if (choice === 0) {
    instructions.push({ does: "end-job", line: lines.length });
    lines.push(`${indent}end job "No."`);
    return;
  }
  const jump: Extract<Instruction, { does: "jump" }> = { does: "jump", to: 0 };
  if (choice === 1 && on.length > 0) {
    lines.push(`${indent}go on`);
    on.push(jump);
  } else {
    if (part >= parts - 1) return;
    lines.push(`${indent}go to ${LAST}`);
    draft.forward.push({ at: jump, target: LAST });
  }
  instructions.push(jump);
}
