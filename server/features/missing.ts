/**
 * Declares what a line names and nothing declares: of the kind that fits where the name stands, in the machine or in the
 * procedure, as each kind belongs.
 */
import type { Binding, FileModel, Machine, Procedure, Project, Thing } from "../model";
import { actionPhrase as say } from "../phrases/actions";
import type { Finding, TextEdit } from "../rules";
import { tighteningsOf } from "../rules/tightenings";
import type { Quantity } from "../units/quantity";
import type { Action } from "./actions";
import { addedTo } from "./insertion";

/** A construct that declares a kind of thing, and the block it belongs in. */
interface Declares {
  readonly construct: string;
  readonly home: "machine" | "procedure";
}

const inMachine = (construct: string): Declares => ({ construct, home: "machine" });
const inProcedure = (construct: string): Declares => ({ construct, home: "procedure" });

/** How each kind is declared; kinds that need more than a name and a title are left to the writer. */
const DECLARES: Readonly<Record<string, readonly Declares[]>> = {
  part: [inMachine("part")],
  fastener: [inMachine("fastener")],
  belt: [inMachine("belt")],
  line: [inMachine("hose"), inMachine("cable"), inMachine("connector"), inMachine("tap")],
  clip: [inMachine("clip")],
  fluid: [inMachine("fluid")],
  shaft: [inMachine("shaft")],
  mark: [inMachine("mark")],
  variant: [inMachine("variant")],
  tool: [inProcedure("tool")],
  consumable: [inProcedure("consumable")],
  temporary: [inProcedure("temporary")],
  person: [inProcedure("person")],
  symptom: [inProcedure("symptom")],
  option: [inProcedure("option")],
};

/** What is likely to be meant, where a form takes several kinds: by the act or clause the name stands in. */
const LIKELY: Readonly<Record<string, readonly string[]>> = {
  tighten: ["fastener"],
  loosen: ["fastener"],
  connect: ["connector", "hose", "cable"],
  disconnect: ["connector", "hose", "cable"],
  open: ["tap", "part"],
  close: ["tap", "part"],
  behind: ["part"],
  secures: ["part"],
};

/** Words that end the name of a fastener. */
const FASTENER_NAME = /(?:^|-)(?:bolts?|screws?|nuts?|studs?)$/;

/** At most so many ways to declare one name are offered. */
const MOST_OFFERED = 3;

/** Declarations of what some findings miss. */
export function missingDeclarations(
  project: Project,
  file: FileModel,
  findings: readonly Finding[],
): readonly Action[] {
  return findings.flatMap((finding) => {
    if (finding.code === "unknown-name") return unknownName(project, file, finding);
    return finding.code === "tool-undeclared" ? missingWrench(file, finding) : [];
  });
}

function unknownName(project: Project, file: FileModel, finding: Finding): Action[] {
  const { line, start } = finding.place;
  const binding = file.bindings.find(
    (b) => b.place.line === line && b.place.start === start && !b.thing && !b.misfit,
  );
  if (!binding) return [];
  const homes = homesOf(file, binding);
  return waysToDeclare(binding).flatMap(({ construct, home }): Action[] => {
    const block = homes[home];
    const holder = block && project.files.get(block.file);
    if (home === "machine" && isNameIn(project, binding.name)) return [];
    const lines = declarationOf(construct, binding.name, stagesNamed(file, binding));
    const edit = block && holder ? addedTo(holder, block, construct, lines) : null;
    if (!edit || !block) return [];
    const title = say("declare", {
      construct,
      name: binding.name,
      block: block.title || block.name,
      kind: home,
    });
    return [{ title, kind: "declare", safe: false, findings: [finding], edits: [edit] }];
  });
}

/** Whether anything has a name: in the machine it would be in sight of every procedure, and clash. */
function isNameIn(project: Project, name: string): boolean {
  return [...project.files.values()].some((f) => f.things.some((t) => t.named && t.name === name));
}

function declarationOf(construct: string, name: string, stages: readonly string[]): readonly string[] {
  const head = `${construct} ${name} "${titleFrom(name)}"`;
  if (construct !== "fastener" || stages.length === 0) return [head];
  return [`${head} {`, ...stages.map((stage) => `  stage   ${stage}`), "}"];
}

/** The stages that the act around a name asks for; they are unknown as long as the name is. */
function stagesNamed({ bindings }: FileModel, binding: Binding): readonly string[] {
  const from = bindings.indexOf(binding) + 1;
  const next = bindings.findIndex((b, i) => i >= from && b.role === "what");
  const own = bindings.slice(from, next < 0 ? bindings.length : next);
  return [...new Set(own.filter((b) => b.accepts[0] === "stage" && !b.thing).map((b) => b.name))];
}

interface Homes {
  readonly machine: Thing | undefined;
  readonly procedure: Thing | undefined;
}

/** The machine and procedure that a use of a name stands in, or is about. */
function homesOf(file: FileModel, { owner }: Binding): Homes {
  const procedure = file.procedures.find((p: Procedure) => p.thing.owns === owner);
  const machine = procedure ? procedure.machine : file.machines.find((m: Machine) => m.thing.owns === owner);
  return { machine: machine?.thing, procedure: procedure?.thing };
}

function waysToDeclare({ accepts, within, name }: Binding): readonly Declares[] {
  const all = accepts.flatMap((kind) => DECLARES[kind] ?? []);
  const likely = FASTENER_NAME.test(name) ? ["fastener"] : (LIKELY[within] ?? []);
  const first = likely.flatMap((construct) => all.filter((d) => d.construct === construct));
  return [...new Set([...first, ...all])].slice(0, MOST_OFFERED);
}

/** A title to start from: `guard-bolts` → `Guard bolts`. */
function titleFrom(name: string): string {
  const [first = "", ...rest] = [...name.replace(/[-‐‑]/g, " ")];
  return first.toUpperCase() + rest.join("");
}

/** Ranges that torque wrenches are sold in, in N·m (common practice, no source); trusted from a fifth of the top. */
const WRENCHES = [
  [1, 5],
  [2, 25],
  [10, 100],
  [40, 200],
  [100, 500],
  [300, 1500],
] as const;

/** Where no wrench is declared at all: one whose range the torque lies in, said where it is used. */
function missingWrench(file: FileModel, finding: Finding): Action[] {
  const { place } = finding;
  const procedure = file.procedures.find(
    ({ thing }) => thing.line < place.line && place.line < thing.line + thing.entry.lineCount,
  );
  if (!procedure || finding.fixes.length > 0) return [];
  const tightening = tighteningsOf(procedure).find(
    (t) => t.place.line === place.line && t.place.start === place.start && t.stage.kind === "torque",
  );
  const range = tightening?.stage.value ? rangeFor(tightening.stage.value) : undefined;
  if (!tightening || !range || tightening.own.length + tightening.shared.length > 0) return [];
  const name = freeName("torque-wrench", procedure);
  const text = `tool ${name} "Torque wrench"  ${range[0]} to ${range[1]} N·m`;
  const declared = addedTo(file, procedure.thing, "tool", [text]);
  if (!declared) return [];
  const end = { line: place.line, character: place.end };
  const said: TextEdit = { file: file.path, start: end, end, text: `  with ${name}` };
  const title = say("declare-wrench", { name, range: `${range[0]} to ${range[1]} N·m` });
  return [{ title, kind: "declare", safe: false, findings: [finding], edits: [declared, said] }];
}

function rangeFor({ low, high, nominal }: Quantity): readonly [number, number] | undefined {
  const least = (low ?? nominal)?.si ?? 0;
  const most = (high ?? nominal)?.si ?? least;
  return WRENCHES.find(([from, to]) => least >= Math.max(from, to / 5) && most <= to);
}

function freeName(wanted: string, { find }: Procedure): string {
  let name = wanted;
  for (let count = 2; find(name); count++) name = `${wanted}-${count}`;
  return name;
}
