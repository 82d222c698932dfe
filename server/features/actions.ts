/**
 * Repairs for the findings on some lines: what their rules offer, and an allowance with a reason to fill in.
 */
import { type Document, parseLine } from "../../grammar";
import type { FileModel, Place } from "../model";
import { actionPhrase as say } from "../phrases/actions";
import { type Change, type Finding, type TextEdit, wordsOf } from "../rules";

/** A repair as an editor offers it. Its edits do not overlap and all count from the text as it stands. */
export interface Action {
  readonly title: string;
  readonly kind: "fix" | "declare" | "allow" | "move" | "refit" | "fix-all";
  /** It changes nothing that was meant. */
  readonly safe: boolean;
  /** What it repairs. */
  readonly findings: readonly Finding[];
  readonly edits: readonly TextEdit[];
  /** Why it cannot be done, in words; it has no edits then. */
  readonly disabled?: string;
  /** What it leaves undone, and why, as sentences. */
  readonly leaves?: readonly string[];
}

/** A stretch of a file, from one place in it to another. */
export interface Stretch {
  readonly from: { readonly line: number; readonly character: number };
  readonly to: { readonly line: number; readonly character: number };
}

/** The repairs for findings that touch a stretch of a file, safe ones first; allowances last. */
export function actions(file: FileModel, findings: readonly Finding[], stretch: Stretch): readonly Action[] {
  const here = findings.filter((f) => f.place.file === file.path && touchesPlace(stretch, f.place));
  const fixes = here.flatMap((finding) => finding.fixes.map((fix) => fixOf(file, finding, fix)));
  const allowances = here.filter((f) => mayBeAllowed(file.document, f)).map((f) => allowance(file, f));
  const byTitle = new Map<string, Action>();
  for (const action of [...fixes.filter((a) => a.safe), ...fixes.filter((a) => !a.safe), ...allowances]) {
    const key = JSON.stringify([action.title, action.edits]);
    if (!byTitle.has(key)) byTitle.set(key, action);
  }
  return [...byTitle.values()];
}

/** Every safe repair of a file in one, as far as they do not touch the same text; null where there is none. */
export function fixAll(file: FileModel, findings: readonly Finding[]): Action | null {
  const edits: TextEdit[] = [];
  const repaired: Finding[] = [];
  for (const finding of findings) {
    const fix = finding.fixes.find((f) => f.safe);
    const own = fix?.changes.map((change) => editOf(file, change)) ?? [];
    const elsewhere = own.some((edit) => edit.file !== file.path);
    if (own.length === 0 || elsewhere || own.some((edit) => edits.some((other) => collide(edit, other))))
      continue;
    edits.push(...own);
    repaired.push(finding);
  }
  return edits.length === 0
    ? null
    : { title: say("fix-all"), kind: "fix-all", safe: true, findings: repaired, edits };
}

/** Whether a place lies in a stretch, or touches it. */
export function touchesPlace({ from, to }: Stretch, place: Place): boolean {
  const startsBehind = place.line > to.line || (place.line === to.line && place.start > to.character);
  const endsBefore = place.line < from.line || (place.line === from.line && place.end < from.character);
  return !startsBehind && !endsBefore;
}

function fixOf(file: FileModel, finding: Finding, fix: Finding["fixes"][number]): Action {
  return {
    title: wordsOf(finding, fix.title),
    kind: "fix",
    safe: fix.safe,
    findings: [finding],
    edits: fix.changes.map((change) => editOf(file, change)),
  };
}

/** The edit that makes a change, with the line ends of the file. */
export function editOf(file: FileModel, { place, text }: Change<Place>): TextEdit {
  return {
    file: place.file,
    start: { line: place.line, character: place.start },
    end: { line: place.line, character: place.end },
    text: text.replace(/\r?\n/g, file.document.shape.eol),
  };
}

function collide(a: TextEdit, b: TextEdit): boolean {
  return (
    a.start.line === b.start.line &&
    a.start.character <= b.end.character &&
    b.start.character <= a.end.character
  );
}

/** A line that could not be read, or an allowance itself, is to be put right and not allowed. */
function mayBeAllowed({ lines }: Document, { place }: Finding): boolean {
  const line = lines[place.line];
  return line !== undefined && line.kind !== "broken" && line.head !== "allow";
}

function allowance(file: FileModel, finding: Finding): Action {
  const { line } = finding.place;
  const { text, indent } = file.document.lines[line] ?? parseLine("");
  const added = `${text.slice(0, indent)}allow ${finding.code} "${say("allow-reason")}"${file.document.shape.eol}`;
  const start = { line, character: 0 };
  return {
    title: say("allow", { code: finding.code }),
    kind: "allow",
    safe: false,
    findings: [finding],
    edits: [{ file: file.path, start, end: start, text: added }],
  };
}
