/** Something declared that nothing uses. */
import { type FileModel, type Machine, type Place, type Procedure, referencesIn, type Thing } from "../model";
import { hasBadFigure } from "./figures";
import { titleOf, twins } from "./say";
import type { Fault, Page, ProcedureRule, ProjectRule } from "./types";

const PAGE: Page = {
  code: "unused-declaration",
  severity: "warning",
  group: "names and shape",
  messages: {
    main: "“{title}” is declared, and nothing here uses it.",
    hint: "Use it where it is needed, or take the line out.",
  },
  docs: {
    what: "A consumable, a temporary, a condition or a set is declared and never used.",
    why: "It stands on the sheet’s lists, so the fitter lays it ready, or asks for what it changes. What a file declares for others is never unused.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}

procedure wash "Wash the drum" {
  on winch
  consumable soap "Soap"
  step "Wash" {
    "Wash the drum."
    clean drum
  }
}
`,
      "    clean drum\n",
      "    clean drum  with soap\n",
    ),
  },
};

/** Kinds that a procedure declares in order to use them. Tools have a rule of their own. */
const OF_PROCEDURES: ReadonlySet<string> = new Set([
  "consumable",
  "temporary",
  "symptom",
  "bulletin",
  "option",
  "one-of",
  "set",
]);

/** What a procedure declares for itself. */
export const unusedDeclaration: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    if (hasBadFigure(procedure.thing.entry)) return;
    const used = usedNames(procedure.bindings);
    for (const thing of procedure.things)
      if (OF_PROCEDURES.has(thing.kind) && !isUsed(thing, procedure.things, used)) report(faultOf(thing));
  },
};

/** Things of a machine that are bound to nothing, where the machine stands in a file that no other uses. */
export const unusedInMachine: ProjectRule = {
  ...PAGE,
  grain: "project",
  check(project, report) {
    const usedFiles = new Set(
      [...project.files.values()].flatMap((f) =>
        f.links.flatMap((l) => (l.kind === "use" && l.file !== f.path ? [l.file] : [])),
      ),
    );
    for (const file of project.files.values()) {
      if (!usedFiles.has(file.path))
        for (const thing of aloneIn(file)) report({ ...faultOf(thing), severity: "hint" });
    }
  },
};

const kept = new WeakMap<FileModel, readonly Thing[]>();

function aloneIn(file: FileModel): readonly Thing[] {
  let found = kept.get(file);
  if (!found) {
    const used = usedNames(file.bindings);
    found =
      file.procedures.length === 0 || doubtful(file) ? [] : file.machines.flatMap((m) => alone(m, used));
    kept.set(file, found);
  }
  return found;
}

const OF_MACHINES: ReadonlySet<string> = new Set([
  ...OF_PROCEDURES,
  "part",
  "fastener",
  "fluid",
  "line",
  "clip",
  "shaft",
  "belt",
  "mark",
  "variant",
]);

function alone({ things }: Machine, used: ReadonlySet<string>): Thing[] {
  return things.filter(
    (t) =>
      OF_MACHINES.has(t.kind) &&
      !t.doubtful &&
      !isUsed(t, things, used) &&
      referencesIn(t.entry).length === 0,
  );
}

/** Every name used, whatever it means: where two things bear it, both count as used. */
function usedNames(bindings: Procedure["bindings"]): ReadonlySet<string> {
  return new Set(bindings.map((b) => b.name));
}

/**
 * Something is used with what it is made of: a condition by one of its answers, a part by one of its faces. Variants
 * are used together: they part the serial numbers.
 */
function isUsed(thing: Thing, all: readonly Thing[], used: ReadonlySet<string>): boolean {
  if (used.has(thing.name)) return true;
  const inside = (t: Thing): boolean =>
    t.kind === "choice" && t.line > thing.line && t.line < thing.line + thing.entry.lineCount;
  const belongs = (t: Thing): boolean =>
    t.entry === thing.entry ||
    (thing.kind === "one-of" && inside(t)) ||
    (thing.kind === "variant" && t.kind === "variant");
  return all.some((t) => used.has(t.name) && belongs(t));
}

function doubtful(file: FileModel): boolean {
  return (
    file.mayDeclareMore ||
    file.entries.some((c) => hasBadFigure(c.entry)) ||
    file.procedures.some((p) => p.doubtful) ||
    file.document.lines.some((l) => l.kind === "broken")
  );
}

function faultOf(thing: Thing): Fault<Place> {
  return { place: thing.place, args: { title: titleOf(thing) } };
}
