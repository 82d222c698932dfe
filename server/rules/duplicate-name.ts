/** One name for two things in sight of each other. */
import type { FileModel, Thing } from "../model";
import { kindOf, twins } from "./say";
import type { FileRule } from "./types";

/** Kinds that nothing refers to by name among others: they clash only with their own kind. */
const APART: ReadonlySet<string> = new Set(["view", "person", "hazard"]);

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

/** Each thing of the file whose name something declared before it, or in its machine, has already. */
function clashes(file: FileModel): [Thing, Thing][] {
  const own = file.things.filter((t) => t.named);
  const taken = new Map<string, Thing>();
  for (const thing of outside(file)) if (!taken.has(keyOf(thing))) taken.set(keyOf(thing), thing);
  const machineOf = new Map(file.procedures.map((p) => [p.thing, p.machine]));
  const found: [Thing, Thing][] = [];
  for (const thing of own) {
    const machine = thing.owner ? machineOf.get(thing.owner) : undefined;
    const first =
      taken.get(keyOf(thing)) ?? (machine ? named(machine.thing, machine.things, thing) : undefined);
    if (first) found.push([thing, first]);
    else taken.set(keyOf(thing), thing);
  }
  return found;
}

/** Machines and procedures of the files this one uses: their names are in sight here. */
function outside(file: FileModel): Thing[] {
  return file.inSight.filter((t) => t.named && t.owner === null && t.file !== file.path);
}

/** Names clash within one owner. Members clash within their set: left and right may be members of several. */
function keyOf({ name, kind, owner, file, line, entry }: Thing): string {
  const scope = owner ? owner.id : "";
  if (kind === "member") return [scope, "member", file, line, entry.form.at.row, name].join("\u0000");
  return [scope, APART.has(kind) ? kind : "", name].join("\u0000");
}

const indexes = new WeakMap<readonly Thing[], ReadonlyMap<string, Thing>>();

/** What has the same name in a machine, the machine itself included. */
function named(machine: Thing, things: readonly Thing[], like: Thing): Thing | undefined {
  const key = (t: Thing): string =>
    t.kind === "member" ? "" : [APART.has(t.kind) ? t.kind : "", t.name].join("\u0000");
  if (like.kind === "member") return undefined;
  let index = indexes.get(things);
  if (!index) {
    index = new Map([machine, ...things].map((t) => [key(t), t]));
    indexes.set(things, index);
  }
  return index.get(key(like));
}
