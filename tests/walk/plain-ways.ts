/**
 * Every way through a random program, told apart by how its tests are answered, one after the other: with the list of all
 * that may still be so, instead of sets of values. No code of the walk is used.
 */
import type { Instruction, Program, World } from "./programs";

/** The ways from somewhere: how many, and how many steps and checks they begin, by whether they end the work or end early. */
export interface Ways {
  readonly count: bigint;
  readonly complete: Bounds;
  readonly early: Bounds;
}

/** The fewest and the most; null where there is no way. */
export type Bounds = { readonly least: number; readonly most: number } | null;

/** One of the things that may be so: what was decided, by name; a check not made yet has none. */
type Case = Readonly<Record<string, string>>;

interface State {
  readonly at: number;
  readonly cases: readonly Case[];
  readonly used: readonly number[];
}

/** All ways of a program. Ways that come to the same place with the same left to be so are counted once and multiplied. */
export function waysThrough({ instructions, begins }: Program, world: World): Ways {
  const known = new Map<string, Ways>();
  const starts = new Set(begins);
  const from = (state: State): Ways => {
    const key = `${state.at} ${state.used} ${keyOf(state.cases)}`;
    const before = known.get(key);
    if (before) return before;
    const instruction = instructions[state.at] as Instruction;
    const here = starts.has(state.at) ? 1 : 0;
    const ways =
      instruction.does === "end" || instruction.does === "end-job" ? ended(instruction.does) : null;
    const all = ways ?? joined(nextOf(state, instruction, world).map(({ state: next }) => from(next)));
    const made = { ...all, complete: later(all.complete, here), early: later(all.early, here) };
    known.set(key, made);
    return made;
  };
  return from(startOf(world));
}

/** How many ways take each branch of each test at least once, by `3 in` and `3 past` for the third test; one way at a time. */
export function waysTaking({ instructions }: Program, world: World): Map<string, bigint> {
  const tests = instructions.flatMap((one, at) => (one.does === "test" ? [at] : []));
  const counts = new Map<string, bigint>();
  const go = (state: State, taken: readonly string[]): void => {
    const instruction = instructions[state.at] as Instruction;
    if (instruction.does === "end" || instruction.does === "end-job") {
      for (const one of new Set(taken)) counts.set(one, (counts.get(one) ?? 0n) + 1n);
      return;
    }
    for (const { state: next, branch } of nextOf(state, instruction, world))
      go(next, branch === null ? taken : [...taken, `${tests.indexOf(state.at)} ${branch}`]);
  };
  go(startOf(world), []);
  return counts;
}

function startOf({ decided, checks }: World): State {
  let cases: Case[] = [Object.fromEntries(checks.map((name) => [name, ""]))];
  for (const [name, values] of Object.entries(decided))
    if (!checks.includes(name))
      cases = cases.flatMap((one) => values.map((value) => ({ ...one, [name]: value })));
  return { at: 0, cases, used: [] };
}

const keyOf = (cases: readonly Case[]): string => cases.map((one) => Object.values(one)).join(";");

const ended = (does: "end" | "end-job"): Ways => ({
  count: 1n,
  complete: does === "end" ? { least: 0, most: 0 } : null,
  early: does === "end" ? null : { least: 0, most: 0 },
});

const later = (bounds: Bounds, steps: number): Bounds =>
  bounds && { least: bounds.least + steps, most: bounds.most + steps };

function joined(ways: readonly Ways[]): Ways {
  const of = (all: readonly Bounds[]): Bounds => {
    const some = all.filter((one) => one !== null);
    if (some.length === 0) return null;
    return {
      least: Math.min(...some.map(({ least }) => least)),
      most: Math.max(...some.map(({ most }) => most)),
    };
  };
  return {
    count: ways.reduce((sum, { count }) => sum + count, 0n),
    complete: of(ways.map(({ complete }) => complete)),
    early: of(ways.map(({ early }) => early)),
  };
}

/** Where an instruction leads; the branch where it is a test. */
function nextOf(
  { at, cases, used }: State,
  instruction: Instruction,
  { decided }: World,
): { readonly state: State; readonly branch: "in" | "past" | null }[] {
  const go = (to: number, more: Partial<State> = {}, branch: "in" | "past" | null = null) => ({
    state: { at: to, cases, used, ...more },
    branch,
  });
  switch (instruction.does) {
    case "test": {
      const { on, values, counters, still, past } = instruction;
      const isOut = counters.length > 0 && counters.every(([c, most]) => (used[c] ?? 0) >= most);
      const enters = (one: Case): boolean => isOut === still && values.includes(one[on] ?? "");
      const inside = cases.filter(enters);
      const beside = cases.filter((one) => !enters(one));
      return [
        ...(inside.length > 0 ? [go(at + 1, { cases: inside }, "in" as const)] : []),
        ...(beside.length > 0 ? [go(past, { cases: beside }, "past" as const)] : []),
      ];
    }
    case "ask": {
      const { check } = instruction;
      const all = cases.flatMap((one) => (decided[check] ?? []).map((value) => ({ ...one, [check]: value })));
      return [go(at + 1, { cases: [...new Map(all.map((one) => [keyOf([one]), one])).values()] })];
    }
    case "jump":
      return [go(instruction.to)];
    case "back": {
      const { counter, most, to } = instruction;
      const times = used[counter] ?? 0;
      if (times >= most) return [go(at + 1)];
      const counted = Array.from({ length: Math.max(used.length, counter + 1) }, (_, i) => used[i] ?? 0);
      counted[counter] = times + 1;
      return [go(to, { used: counted })];
    }
    default:
      return [go(at + 1)];
  }
}
