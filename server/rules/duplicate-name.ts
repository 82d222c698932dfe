/** One name for two things in sight of each other. */
import type { FileModel, Machine, Thing } from "../model";
import { kindOf, twins } from "./say";
import type { FileRule } from "./types";

/** Kinds that nothing refers to by name among others: they clash only with their own kind. */
const APART: ReadonlySet<string> = new Set(["view", "person", "hazard", "member"]);

export const duplicateName: FileRule = {
  code: "duplicate-name",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "The name “{name}” is taken: {is} has it already.",
    hint: "Give one of the two a name of its own.",
    first: "“{name}” is first declared here.",
  },
  docs: {
    what: "Two things in sight of each other have one name.",
    why: "Nobody can tell which of the two a line means; the checker takes the first.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Front cover"
  part cover "Rear cover"
}
`,
      `part cover "Rear`,
      `part rear-cover "Rear`,
    ),
  },
  check(file, report) {
    for (const [thing, first] of clashes(file)) {
      const args = { name: thing.name, is: kindOf(first) };
      report({ place: thing.place, args, related: [{ place: first.place, message: "first", args }] });
    }
  },
};

/** Each thing of the file whose name something declared before it, or in its machine, has already; and that other. */
export function clashes(file: FileModel): [Thing, Thing][] {
  const taken = new Map<unknown, Map<string, Thing>>();
  // Machines and procedures of the files this one uses are in sight here.
  for (const thing of file.inSight) if (thing.owner === null && thing.file !== file.path) take(taken, thing);
  const machineOf = new Map(file.procedures.map((p) => [p.thing.owns, p.machine]));
  const found: [Thing, Thing][] = [];
  for (const thing of file.things) {
    if (!thing.named) continue;
    const machine = thing.owner ? machineOf.get(thing.owner) : undefined;
    const first = take(taken, thing) ?? (machine && inMachine(machine).get(keyOf(thing)));
    if (first) found.push([thing, first]);
  }
  return found;
}

/** What has a thing's name already in its scope; where nothing has, the thing takes it. */
function take(taken: Map<unknown, Map<string, Thing>>, thing: Thing): Thing | undefined {
  // Members clash within their set: left and right may be members of several.
  const scope = thing.kind === "member" ? thing.entry : thing.owner;
  const names = taken.get(scope) ?? new Map<string, Thing>();
  taken.set(scope, names);
  const first = names.get(keyOf(thing));
  if (!first) names.set(keyOf(thing), thing);
  return first;
}

const keyOf = ({ kind, name }: Thing): string => (APART.has(kind) ? `${kind} ${name}` : name);

const indexes = new WeakMap<Machine, ReadonlyMap<string, Thing>>();

/** The names of a machine and of what stands in it. */
function inMachine(machine: Machine): ReadonlyMap<string, Thing> {
  let index = indexes.get(machine);
  if (!index) {
    index = new Map([machine.thing, ...machine.things].map((t) => [keyOf(t), t]));
    indexes.set(machine, index);
  }
  return index;
}
