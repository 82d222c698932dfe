/**
 * Moves a declaration out of a procedure into the machine's file, so that every procedure on the machine can use it. Its
 * uses keep their meaning; where they could not, it is said why.
 */
import { type Construct, constructs, type Line } from "../../grammar";
import type { Entry } from "../facts";
import type { FileModel, Procedure, Project, Thing } from "../model";
import { actionPhrase as say } from "../phrases/actions";
import type { TextEdit } from "../rules";
import { clashes } from "../rules/duplicate-name";
import type { Action } from "./actions";
import { addedTo } from "./insertion";
import { tried } from "./trial";

interface Found {
  readonly procedure: Procedure;
  readonly entry: Entry;
  readonly thing: Thing;
  /** The lines it takes, those of allowances right before it among them. */
  readonly first: number;
  readonly last: number;
}

/** The move of the declaration whose head stands on a line; null where there is none that a machine may hold. */
export function moveToMachine(project: Project, file: FileModel, line: number): Action | null {
  const found = declarationAt(file, line);
  if (!found) return null;
  const { thing, procedure } = found;
  const machine = procedure.machine?.thing;
  const title = say("move", { construct: thing.entry.construct, name: thing.name });
  const refusal = (reason: string): Action => ({
    title,
    kind: "move",
    safe: false,
    findings: [],
    edits: [],
    disabled: reason,
  });
  if (!machine) return refusal(say("move-no-machine"));
  if (found.entry.brokenInside) return refusal(say("move-unread"));
  const own = namesOfProcedure(file, found);
  if (own.length > 0) return refusal(say("move-depends", { names: own.join(", ") }));
  const edits = editsOf(project, file, found, machine);
  if (!edits) return refusal(say("move-unbalanced", { file: machine.file }));
  const reason = whyNot(project, tried(project, edits), thing);
  return reason === null ? { title, kind: "move", safe: false, findings: [], edits } : refusal(reason);
}

const mayStandInMachine = (construct: Construct | undefined): boolean =>
  construct?.declares !== undefined && construct.within.includes("machine");

function declarationAt(file: FileModel, line: number): Found | null {
  const procedure = file.procedures.find(
    ({ thing }) => thing.line < line && line < thing.line + thing.entry.lineCount,
  );
  const child = procedure?.thing.entry.children.find(
    ({ row, entry }) =>
      procedure.thing.line + row === line && mayStandInMachine(constructs.get(entry.construct)),
  );
  const thing = child && file.things.find((t) => t.line === line && t.named && t.entry === child.entry);
  if (!procedure || !child || !thing) return null;
  let first = line;
  while (file.document.lines[first - 1]?.head === "allow") first--;
  return { procedure, entry: child.entry, thing, first, last: line + child.entry.lineCount - 1 };
}

/** The names in a declaration that only its procedure knows. */
function namesOfProcedure(file: FileModel, { procedure, first, last, thing }: Found): readonly string[] {
  const used = file.bindings.filter(
    (b) =>
      first <= b.place.line &&
      b.place.line <= last &&
      b.thing !== null &&
      b.thing.entry !== thing.entry &&
      b.thing.owner === procedure.thing.owns,
  );
  return [...new Set(used.map((b) => b.name))];
}

function editsOf(
  project: Project,
  file: FileModel,
  found: Found,
  machine: Thing,
): readonly TextEdit[] | null {
  const { lines } = file.document;
  const indent = lines[found.first]?.indent ?? 0;
  const moved = lines
    .slice(found.first, found.last + 1)
    .map((line) => line.text.slice(Math.min(indent, line.indent)));
  const home = project.files.get(machine.file);
  const added = home ? addedTo(home, machine, found.entry.construct, moved) : null;
  if (!added || !file.document.tree.balanced) return null;
  return [removal(file.path, lines, found.first, found.last), added];
}

/** Takes lines away, and a blank line that would then stand beside another or at the edge of the block. */
function removal(file: string, lines: readonly Line[], first: number, last: number): TextEdit {
  const before = lines[first - 1];
  const behind = lines[last + 1];
  const edge = before?.opens || before?.kind === "blank";
  const end = edge && behind?.kind === "blank" ? last + 2 : last + 1;
  return { file, start: { line: first, character: 0 }, end: { line: end, character: 0 }, text: "" };
}

/** Why the project would not mean the same; null where it would. */
function whyNot(before: Project, after: Project, thing: Thing): string | null {
  for (const [path, now] of after.files) {
    const then = before.files.get(path);
    if (!then || then === now) continue;
    const old = clashes(then).length;
    const fresh = clashes(now);
    const clash = fresh.find((pair) => pair.some((t) => t.name === thing.name));
    if (fresh.length > old && clash) {
      const was = (t: Thing): boolean =>
        before.files.get(t.file)?.things.some((o) => o !== thing && o.name === t.name) ?? false;
      const other = clash.find(was) ?? clash[1];
      return say("move-taken", { name: thing.name, file: other.file, line: String(other.place.line + 1) });
    }
    const lost = unbound(now).find((name) => !unbound(then).includes(name));
    if (lost !== undefined) return say("move-lost", { name: lost, file: path });
  }
  return null;
}

const unbound = (file: FileModel): readonly string[] =>
  file.bindings.filter((b) => b.thing === null).map((b) => b.name);
