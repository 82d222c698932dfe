/**
 * What the judge's reader knows of a machine: what stands in front of what, what secures, contains, carries and bears
 * what, and which conditions there are.
 */
import type { Kind } from "../walk/programs";
import type { Node } from "./nodes";

const DECLARES =
  /^(part|clip|belt|chain|gear|connector|cable|hose|pipe|wire|tap|circuit|fluid|fastener|mark|temporary) ([\w-]+)/;

/** The names behind a word of a thing's facts. */
export function namesAfter(facts: string, word: string): string[] {
  const found = new RegExp(`(?<![\\w-])${word} ([\\w-]+(?:, ?[\\w-]+)*)`).exec(facts);
  return found ? (found[1] as string).split(/, ?/) : [];
}

/** What stands between a thing that is there for each member of a set and the member's name. */
const OF_MEMBER = "@";

/** A thing's name without the member it is for. */
export const withoutMember = (name: string): string => name.split(OF_MEMBER)[0] as string;

export interface Machine {
  readonly parts: Record<string, Kind>;
  /** The members of each set. */
  readonly sets: Map<string, readonly string[]>;
  /** The set of each thing that is there once for each of its members. */
  readonly oneForEach: Map<string, string>;
  readonly stages: Map<string, readonly string[]>;
  readonly decided: Record<string, readonly string[]>;
  /** Which decision a word of `when` is about, and the value it asks for. */
  readonly conditions: Map<string, readonly [string, string]>;
  readonly lifters: Set<string>;
  /** What is put into something, with what it goes into. */
  readonly pins: (readonly [string, string])[];
  /** What turns or springs, so that a pin in it is no mere cap. */
  readonly locked: Set<string>;
}

/** The things that a name means: for one member where one is taken, else for each. */
export function membersOf({ sets, oneForEach }: Machine, name: string, member: string | null): string[] {
  const set = sets.get(oneForEach.get(name) ?? "");
  if (!set) return [name];
  return (member !== null && set.includes(member) ? [member] : set).map((m) => name + OF_MEMBER + m);
}

export function declare(machine: Machine, node: Node): void {
  const { parts, stages, decided, conditions, lifters, pins, locked, sets, oneForEach } = machine;
  const set = /^set ([\w-]+) "" of (.+)$/.exec(node.text.replace(/ +/g, " "));
  if (set) sets.set(set[1] as string, (set[2] as string).split(/, ?/));
  const shaft = /^shaft ([\w-]+)/.exec(node.text)?.[1];
  if (shaft) locked.add(shaft);
  const head = DECLARES.exec(node.text);
  const facts = [node.text, ...node.inside.map((inside) => inside.text)].join(" ; ").replace(/ +/g, " ");
  const one = /^(symptom|option|bulletin|one-of|tool) ([\w-]+)/.exec(node.text);
  const [, what, name = ""] = one ?? [];
  if (what === "tool" && facts.includes(" rating ")) lifters.add(name);
  else if (what === "one-of") {
    const values = node.inside.flatMap((inside) => /^choice ([\w-]+)/.exec(inside.text)?.[1] ?? []);
    decided[name] = values;
    for (const value of values) conditions.set(value, [name, value]);
  } else if (what && what !== "tool") {
    decided[name] = ["yes", "no"];
    conditions.set(name, [name, "yes"]);
  }
  if (!head) return;
  const [, kind, thing = ""] = head;
  const each = / one for each ([\w-]+)/.exec(facts)?.[1];
  if (each) oneForEach.set(thing, each);
  if (kind === "temporary" && facts.includes(" into "))
    pins.push([thing, namesAfter(facts, "into")[0] as string]);
  if (facts.includes(" spring-loaded")) locked.add(thing);
  for (const inside of node.inside) {
    const pulley = /^pulley +([\w-]+).* on [\w-]/.exec(inside.text);
    if (pulley) locked.add(pulley[1] as string);
  }
  if (kind === "fastener")
    stages.set(
      thing,
      [...facts.matchAll(/; stage ([\w-]+)/g)].map((m) => m[1] as string),
    );
  const weight = /weight (\d+(?:\.\d+)?) kg/.exec(facts);
  const behind = namesAfter(facts, "behind");
  parts[thing] = {
    ...(behind.length > 0 ? { behind } : {}),
    ...(kind === "fastener" ? { fastener: true, secures: namesAfter(facts, "secures") } : {}),
    ...(facts.includes(" contains ") ? { contains: namesAfter(facts, "contains")[0] as string } : {}),
    ...(facts.includes(" bears ") ? { bears: namesAfter(facts, "bears")[0] as string } : {}),
    carries: namesAfter(facts, "carries"),
    heavy: weight !== null && Number(weight[1]) > 25,
    renewed: facts.includes(" renew every time"),
    stretches: /stage [\w-]+ [\d./]+ ?(?:°|turn)/.test(facts),
  };
}

export function readMachine(files: readonly Node[][], procedure: Node): Machine {
  const machine: Machine = {
    parts: {},
    sets: new Map(),
    oneForEach: new Map(),
    stages: new Map(),
    decided: {},
    conditions: new Map(),
    lifters: new Set(),
    pins: [],
    locked: new Set(),
  };
  for (const node of files.flat()) {
    const found = /^machine ([\w-]+)/.exec(node.text);
    if (!found) continue;
    machine.parts[found[1] as string] = { machine: true };
    for (const inside of node.inside) declare(machine, inside);
    const variants = node.inside.flatMap((n) => /^variant ([\w-]+)/.exec(n.text)?.[1] ?? []);
    if (variants.length > 0) machine.decided.variant = variants;
    for (const variant of variants) machine.conditions.set(variant, ["variant", variant]);
  }
  for (const node of procedure.inside) declare(machine, node);
  return machine;
}

/** The parts as they stand to each other, with what is there for each member of a set told apart. */
export function partsOf(machine: Machine): Record<string, Kind> {
  const { parts, sets, oneForEach } = machine;
  const all: Record<string, Kind> = {};
  for (const [name, kind] of Object.entries(parts)) {
    // A fastener stands behind what its part stands behind, unless it says so itself.
    const behind =
      kind.fastener && !kind.behind
        ? [...new Set((kind.secures ?? []).flatMap((part) => parts[part]?.behind ?? []))]
        : kind.behind;
    for (const member of sets.get(oneForEach.get(name) ?? "") ?? [null]) {
      const own = (names: readonly string[]): string[] =>
        names.flatMap((other) => membersOf(machine, other, member));
      all[member === null ? name : name + OF_MEMBER + member] = {
        ...kind,
        ...(behind ? { behind: own(behind) } : {}),
        ...(kind.secures ? { secures: own(kind.secures) } : {}),
        ...(kind.carries ? { carries: own(kind.carries) } : {}),
      };
    }
  }
  return all;
}
