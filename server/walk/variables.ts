/**
 * What parts the ways: conditions, chosen once for a run, and outcomes of checks, fresh on each pass. Each is a
 * variable with a few values; a test is a set of them, as bits.
 */
import { type Check, checkOf, headerOf, keptBy, type Serials, serialsOf } from "../facts";
import type { Procedure, Thing } from "../model";

export interface Variable {
  readonly index: number;
  /** Chosen once for the whole run; an outcome is not. */
  readonly once: boolean;
  /** Every value, by bit. */
  readonly full: bigint;
}

/** A set of a variable's values. */
export interface Choice {
  readonly variable: Variable;
  readonly mask: bigint;
}

export interface Variables {
  readonly all: readonly Variable[];
  /** The variable of a check, as the outcome of asking it. */
  readonly ofCheck: (check: Thing) => Variable;
  /** The values with which a check has an outcome. */
  readonly outcome: (check: Thing, outcome: string) => Choice;
  /** The values with which a condition holds. */
  readonly condition: (thing: Thing) => Choice;
  /** The values with which one of some variants, options or bulletins holds. */
  readonly oneOf: (things: readonly Thing[]) => Choice | null;
}

const SERIAL_KINDS: ReadonlySet<string> = new Set(["variant", "bulletin"]);

/** The variables of a procedure; each is made when it is first asked for. */
export function variablesOf(procedure: Procedure): Variables {
  const all: Variable[] = [];
  const made = new Map<string, { readonly variable: Variable; readonly values: readonly string[] }>();
  const make = (key: string, once: boolean, values: () => readonly string[]) => {
    let entry = made.get(key);
    if (!entry) {
      const names = values();
      entry = {
        variable: { index: all.length, once, full: (1n << BigInt(Math.max(1, names.length))) - 1n },
        values: names,
      };
      all.push(entry.variable);
      made.set(key, entry);
    }
    return entry;
  };
  // A check that comes to have other outcomes is another variable: the first one may be known to what is kept.
  const ofCheck = (check: Thing) => {
    const outcomes = outcomesOf(checkOf(check.entry));
    return make(`${check.id} ${outcomes.join()}`, false, () => outcomes);
  };
  const machine = machineClasses(procedure);
  const condition = (thing: Thing): Choice => {
    if (thing.kind === "check") return outcome(thing, "met");
    if (SERIAL_KINDS.has(thing.kind) && machine.decides(thing)) {
      const { variable } = make("machine", true, () => machine.classes.map(String));
      return { variable, mask: maskWhere(machine.classes, (c) => c.has(thing)) };
    }
    const siblings = thing.kind === "choice" ? choicesBeside(procedure, thing) : null;
    if (siblings) {
      const { variable, values } = make(siblings.key, true, () => siblings.names);
      return { variable, mask: maskWhere(values, (v) => v === thing.name) };
    }
    return { variable: make(idOf(thing), true, () => ["yes", "no"]).variable, mask: 1n };
  };
  const outcome = (check: Thing, said: string): Choice => {
    const { variable, values } = ofCheck(check);
    return { variable, mask: maskWhere(values, (v) => matches(v.split(" + "), said)) };
  };
  const oneOf = (things: readonly Thing[]): Choice | null => {
    const choices = things.map(condition);
    const first = choices[0];
    if (!first || choices.some((c) => c.variable !== first.variable)) return null;
    return { variable: first.variable, mask: choices.reduce((mask, c) => mask | c.mask, 0n) };
  };
  return { all, ofCheck: (check) => ofCheck(check).variable, outcome, condition, oneOf };
}

/** Unique also where things share a name by mistake. */
const idOf = (thing: Thing): string => `${thing.id}:${thing.line}`;

function maskWhere<T>(values: readonly T[], holds: (value: T) => boolean): bigint {
  return values.reduce((mask, value, bit) => (holds(value) ? mask | (1n << BigInt(bit)) : mask), 0n);
}

/** What a check can turn out: what is measured, what is answered and what is chosen, each with each. */
const outcomesOf = keptBy((check: Check): readonly string[] => {
  const parts = [measuredOf(check), check.questions.length > 0 ? ["yes", "no"] : []];
  parts.push(check.choices.map((c) => c.name.name));
  const said = parts.filter((part) => part.length > 0);
  if (said.length === 0) return ["met", "not met", "yes", "no"];
  return said.reduce((all, part) => all.flatMap((a) => part.map((b) => `${a} + ${b}`)));
});

function measuredOf(check: Check): string[] {
  if (check.limits.length === 0 && check.marks.length === 0) return [];
  const outcomes = ["met"];
  if (check.limits.some((l) => l.value === null || l.value.high !== null)) outcomes.push("over");
  if (check.limits.some((l) => l.value === null || l.value.low !== null)) outcomes.push("under");
  if (check.marks.length > 0 || outcomes.length === 1) outcomes.push("not met");
  return outcomes;
}

function matches(parts: readonly string[], said: string): boolean {
  if (said === "not met") return parts.some((p) => p === "over" || p === "under" || p === "not met");
  return parts.includes(said);
}

function choicesBeside(
  procedure: Procedure,
  choice: Thing,
): { key: string; names: readonly string[] } | null {
  const near = [...procedure.things, ...(procedure.machine?.things ?? [])];
  const group = near.find(
    (t) =>
      t.kind === "one-of" &&
      t.file === choice.file &&
      t.line < choice.line &&
      choice.line < t.line + t.entry.lineCount,
  );
  if (!group) return null;
  const inside = near.filter(
    (t) =>
      t.kind === "choice" &&
      t.file === group.file &&
      t.line > group.line &&
      t.line < group.line + group.entry.lineCount,
  );
  return { key: idOf(group), names: inside.map((t) => t.name) };
}

interface MachineClasses {
  readonly classes: readonly ReadonlySet<Thing>[];
  /** Whether variants and serial numbers decide this condition. */
  readonly decides: (thing: Thing) => boolean;
}

/**
 * The machines a procedure is for, parted by variant and serial number: each class is the set of variants and
 * bulletins that hold in it. Exactly one variant holds where the variants leave no serial number out.
 */
function machineClasses(procedure: Procedure): MachineClasses {
  const near = [...procedure.things, ...(procedure.machine?.things ?? [])];
  const bySerial = near.filter((t) => SERIAL_KINDS.has(t.kind) && serialsOf(t.entry).length > 0);
  const byName = near.filter((t) => t.kind === "variant" && serialsOf(t.entry).length === 0);
  const header = headerOf(procedure.thing.entry);
  const allowed = header.variants.flatMap((v) => procedure.find(v.name, ["variant"]) ?? []);
  const classes: ReadonlySet<Thing>[] = [];
  for (const serial of serialSamples(header.serials, bySerial)) {
    const held = bySerial.filter((t) => within(serialsOf(t.entry), serial));
    const named = held.some((t) => t.kind === "variant") || byName.length === 0 ? [null] : byName;
    for (const variant of named) {
      const set = new Set(variant ? [...held, variant] : held);
      if (allowed.length === 0 || allowed.some((v) => set.has(v))) classes.push(set);
    }
  }
  return { classes, decides: (thing) => bySerial.includes(thing) || byName.includes(thing) };
}

const within = (ranges: readonly Serials[], serial: number): boolean =>
  ranges.some((r) => serial >= r.from && serial <= r.to);

/** One serial number out of each class that the ranges part, among those the procedure is for. */
function serialSamples(allowed: readonly Serials[], things: readonly Thing[]): readonly number[] {
  const edges = new Set<number>([0]);
  for (const { from, to } of [...allowed, ...things.flatMap((t) => serialsOf(t.entry))]) {
    edges.add(from);
    if (to < Number.MAX_SAFE_INTEGER) edges.add(to + 1);
  }
  const samples = [...edges].sort((a, b) => a - b);
  return allowed.length === 0 ? samples : samples.filter((s) => within(allowed, s));
}
