/**
 * What an editor tells of the place that is pointed at: a thing, a quantity, a word of the language, a code.
 */
import { clauses, constructs, type Line, type Position, type SlotValue } from "../../grammar";
import { checkOf, clauseOf, fastenerFacts, textIn } from "../facts";
import { readQuantity } from "../facts/quantity";
import { type FileModel, numbersByLine, type Place, type Project, type Thing } from "../model";
import { hoverPhrase as say } from "../phrases/hover";
import { pageByCode } from "../rules";
import { torquesOf } from "../rules/bolt-torques";
import { formatQuantity, inOtherUnits } from "../units/format";
import { aboutThing, stageText } from "./about";
import { aboutBeltRun } from "./about-belts";
import { aboutTorque } from "./about-bolts";
import { aboutRun } from "./about-runs";
import { lineAt, phraseAt, scopeAt, type Target, targetAt, touches } from "./cursor";
import { inBothUnits } from "./figure-text";
import { fastenerOnSheet, outcomesSaid, type SheetLook, USUAL_LOOK } from "./on-sheet";
import { stateBefore } from "./state-in-short";

/** What is told. All texts are plain, and may hold words of the writer. */
export interface Hover {
  /** The stretch it is about. */
  readonly place: Place;
  /** `fastener`, `step`, `quantity`, `word of the language`. */
  readonly kind: string;
  /** The name, figure or word; may be empty. */
  readonly name: string;
  readonly title: string;
  readonly sentences: readonly string[];
}

/** What there is to tell at a position; null where there is nothing. `look`: how sheets of the project are printed. */
export function hover(
  project: Project,
  path: string,
  position: Position,
  look: SheetLook = USUAL_LOOK,
): Hover | null {
  const file = project.files.get(path);
  const line = file && lineAt(file, position.line);
  if (!line) return null;
  const target = targetAt(file, position);
  if (target) return ofTarget(project, file, target, position.line, look);
  const slot = phraseAt(line, position.character)?.slots.find((s) => touches(s.span, position.character));
  const at = (span: { start: number; end: number }): Place => ({
    file: file.path,
    line: position.line,
    ...span,
  });
  if (slot?.content.kind === "quantity") {
    const found = ofQuantity(slot, line, at(slot.span));
    return found && { ...found, sentences: [...found.sentences, ...clampedBy(file, found.place)] };
  }
  if (slot?.role === "code" && line.head === "allow") return ofCode(slot, line, at(slot.span));
  const step = stepAt(file, line, position.line);
  if (slot && slot.content.kind !== "word")
    return step && slot.role === "title" ? ofStep(file, step, at(slot.span)) : null;
  const word = ofWord(line, position.character, at);
  if (word?.place.start !== line.indent) return word;
  return { ...word, sentences: [...word.sentences, ...workedOut(file, line, position.line)] };
}

/** What is worked out of the thing that a line is the head of: said where its head word is pointed at. */
function workedOut(file: FileModel, { kind }: Line, row: number): readonly string[] {
  const thing = kind === "broken" ? undefined : file.things.find((t) => t.line === row);
  const { machine } = scopeAt(file, row);
  switch (thing?.kind) {
    case "step":
    case "check":
      return stateBefore(file, thing);
    case "belt":
      return aboutBeltRun(thing, machine);
    case "line":
      return aboutRun(thing, machine);
    default:
      return [];
  }
}

/** The step or check that a line is the head of. */
const stepAt = (file: FileModel, { head }: Line, row: number): Thing | undefined =>
  NUMBERED.has(head) ? file.things.find((t) => t.line === row && t.kind === head) : undefined;

/** A step or check by its title: its number, and how things stand before it. */
function ofStep(file: FileModel, step: Thing, place: Place): Hover {
  return {
    place,
    kind: step.kind,
    name: step.named ? step.name : "",
    title: step.title,
    sentences: [...numberOf(file, step), ...stateBefore(file, step)],
  };
}

function ofTarget(project: Project, file: FileModel, target: Target, row: number, look: SheetLook): Hover {
  const { place } = target;
  if (target.kind === "file") {
    return {
      place,
      kind: say("kind.file"),
      name: "",
      title: "",
      sentences: [say("file", { file: target.file })],
    };
  }
  const { thing } = target;
  if (target.kind === "stage") {
    const stage = fastenerFacts(thing.entry).stages.find((s) => s.name === target.stage);
    const sentences = [say("stage-of", { things: thing.name }), ...(stage ? [`${stageText(stage)}.`] : [])];
    const { machine } = scopeAt(file, row);
    const torque = torquesOf(thing, machine).filter((t) => stage && t.quantity === stage.value);
    return {
      place,
      kind: say("kind.stage"),
      name: target.stage,
      title: "",
      sentences: [...sentences, ...torque.flatMap(aboutTorque)],
    };
  }
  if (target.kind === "outcome" || target.kind === "way") return ofLoose(target);
  const { machine, procedure } = scopeAt(file, row);
  const printed =
    procedure && thing.kind === "fastener" ? fastenerOnSheet(project, procedure, thing, look) : [];
  const sentences = [
    ...numberOf(file, thing),
    ...aboutThing(thing, machine, printed),
    ...(procedure && thing.kind === "check" ? outcomesSaid(procedure, thing) : []),
    ...stateBefore(file, thing),
  ];
  const construct = thing.entry.construct;
  // A derived thing (a face, a member of a set) is told by its own kind, others by the writer's word for them.
  const kind = constructs.get(construct)?.declares === thing.kind ? construct : thing.kind;
  return {
    place,
    kind,
    name: thing.named ? thing.name : "",
    title: thing.title,
    sentences:
      sentences.length > 0 ? sentences : [constructs.get(construct)?.about ?? ""].filter((s) => s !== ""),
  };
}

/** An outcome that a check chooses, or the way round of a part: what it belongs to. */
function ofLoose({ kind, thing, name, place }: Extract<Target, { kind: "outcome" | "way" }>): Hover {
  const choice = checkOf(thing.entry).choices.find((c) => c.name.name === name);
  const said = kind === "outcome" ? (choice?.value ? inBothUnits(choice.value) : "") : wayMark(thing);
  return {
    place,
    kind: say(`kind.${kind}`),
    name,
    title: choice?.title ?? "",
    sentences: [say(`${kind}-of`, { title: thing.title || thing.name }), ...(said ? [`${said}.`] : [])],
  };
}

const wayMark = (thing: Thing): string => textIn(clauseOf(thing.entry, "way-round"), "mark");

const NUMBERED: ReadonlySet<string> = new Set(["step", "check"]);

/** The number that a step or check has on its sheet, and the section it stands in. */
function numberOf(file: FileModel, thing: Thing): string[] {
  const procedure = file.procedures.find((p) => p.targets.includes(thing));
  if (!procedure || !NUMBERED.has(thing.kind)) return [];
  const number = numbersByLine(procedure).get(thing.line);
  const section = procedure.targets.findLast(
    (t) => t.kind === "section" && t.line < thing.line && thing.line < t.line + t.entry.lineCount,
  );
  return [
    ...(number === undefined ? [] : [say("number", { number: String(number) })]),
    ...(section ? [say("in-section", { title: section.title })] : []),
  ];
}

function ofQuantity(slot: SlotValue, line: Line, place: Place): Hover | null {
  if (slot.content.kind !== "quantity") return null;
  const { quantity } = readQuantity(slot.content.quantity, slot.accepts, slot.span);
  if (!quantity) return null;
  const written = line.text.slice(slot.span.start, slot.span.end);
  const other = inOtherUnits(quantity);
  const own = formatQuantity({ ...quantity, other: null }, { plain: true });
  const sentence = other
    ? say("same-as", { value: own, other: formatQuantity(other, { plain: true }) })
    : say("same-alone", { value: own });
  return {
    place,
    kind: `${say("kind.quantity")}, ${quantity.kind}`,
    name: written,
    title: "",
    sentences: [sentence],
  };
}

/** What a torque of a fastener comes to, where the figure at this place is one. */
function clampedBy(file: FileModel, place: Place): readonly string[] {
  const { machine } = scopeAt(file, place.line);
  const fastener = file.things.find(
    (t) => t.kind === "fastener" && t.line <= place.line && place.line < t.line + t.entry.lineCount,
  );
  const torques = fastener ? torquesOf(fastener, machine) : [];
  return torques
    .filter((t) => t.place.line === place.line && t.place.start === place.start)
    .flatMap(aboutTorque);
}

function ofCode(slot: SlotValue, line: Line, place: Place): Hover | null {
  const code = slot.content.kind === "names" ? (slot.content.names[0]?.name ?? "") : "";
  const rule = pageByCode(code);
  if (!rule || line.kind !== "statement") return null;
  return {
    place,
    kind: `${say("kind.code")}, ${rule.severity}`,
    name: code,
    title: "",
    sentences: [rule.docs.what, rule.docs.why],
  };
}

/** A fixed word of a form or clause; on a line that could not be read, its first word. */
function ofWord(
  line: Line,
  character: number,
  at: (span: { start: number; end: number }) => Place,
): Hover | null {
  const span = wordAround(line.text, character);
  if (!span || (line.comment && line.comment.start <= span.start)) return null;
  const phrase = phraseAt(line, character);
  const head = line.head.startsWith("+") ? line.head.slice(1) : line.head;
  const isHead = line.kind === "broken" && span.start === line.indent && head !== "";
  const id = phrase ? phrase.clause || line.head : isHead ? line.head : "";
  const about =
    id.startsWith("+") || phrase?.clause
      ? clauses.get(id.replace("+", ""))?.about
      : constructs.get(id)?.about;
  if (!about) return null;
  return {
    place: at(span),
    kind: say("kind.word"),
    name: line.text.slice(span.start, span.end),
    title: "",
    sentences: [about],
  };
}

function wordAround(text: string, character: number): { start: number; end: number } | null {
  const before = /[\p{L}\p{N}_-]*$/u.exec(text.slice(0, character))?.[0].length ?? 0;
  const behind = /^[\p{L}\p{N}_-]*/u.exec(text.slice(character))?.[0].length ?? 0;
  return before + behind === 0 ? null : { start: character - before, end: character + behind };
}
