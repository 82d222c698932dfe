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

export interface Machine {
  readonly parts: Record<string, Kind>;
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

function declare(machine: Machine, node: Node): void {
  const { parts, stages, decided, conditions, lifters, pins, locked } = machine;
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
  // A fastener stands behind what its part stands behind, unless it says so itself.
  for (const [name, kind] of Object.entries(machine.parts))
    if (kind.fastener && !kind.behind) {
      const behind = (kind.secures ?? []).flatMap((part) => machine.parts[part]?.behind ?? []);
      machine.parts[name] = { ...kind, behind: [...new Set(behind)] };
    }
  return machine;
}
