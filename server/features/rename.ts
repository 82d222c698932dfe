/**
 * A name is changed everywhere: where it is declared and in every file that uses it. What it would be like afterwards is
 * tried first; where anything would mean something else, nothing is changed and it is said why.
 */

import type { Position } from "../../grammar";
import { lexLine, tokenEnd } from "../../grammar/tokens";
import { checkOf, fastenerFacts, possibleOutcomes } from "../facts";
import type { FileModel, Place, Project, Thing } from "../model";
import { thingsInWords } from "../phrases/problems";
import { type RenamePhrase, renamePhrase } from "../phrases/rename";
import type { TextEdit } from "../rules";
import { clashes } from "../rules/duplicate-name";
import { HAZARDS, hazardNamed } from "../walk";
import { lineAt, phraseAt, type Target, targetAt, touches } from "./cursor";
import { mentionsIn, perhapsIn } from "./mentions";
import { difference } from "./same-meaning";
import { tried } from "./trial";
import { inUsualForm } from "./usual-form";

/** Why nothing is changed, in words for the writer. */
export interface Refusal {
  readonly refused: string;
}

/** The name that would be changed. */
export interface Renamable {
  readonly place: Place;
  readonly name: string;
}

const refuse = (id: RenamePhrase, args: Readonly<Record<string, string>> = {}): Refusal => ({
  refused: renamePhrase(id, args),
});

/** The name at a position, if it can be changed. */
export function renamable(project: Project, path: string, position: Position): Renamable | Refusal {
  const file = project.files.get(path);
  const target = file && targetAt(file, position);
  if (!file || !target) return file ? noTarget(file, position) : refuse("no-name");
  if (target.kind === "file") return refuse("file");
  if (target.kind === "thing" && !target.thing.named) return refuse("title");
  return { place: target.place, name: nameOf(target) };
}

const nameOf = (target: Exclude<Target, { kind: "file" }>): string =>
  target.kind === "stage" ? target.stage : target.kind === "thing" ? target.thing.name : target.name;

/** Why there is nothing to change at a position that no thing is named at. */
function noTarget(file: FileModel, position: Position): Refusal {
  const unknown = file.bindings.find(
    ({ place }) => place.line === position.line && touches(place, position.character),
  );
  if (unknown) {
    const far = file.links.find((link) => link.problem === "outside");
    return far
      ? refuse("outside", { name: unknown.name, file: far.path })
      : refuse("unknown", { name: unknown.name });
  }
  const line = lineAt(file, position.line);
  const token =
    line &&
    lexLine(line.text).find((t) => touches({ start: t.startOffset, end: tokenEnd(t) }, position.character));
  const slot =
    line && phraseAt(line, position.character)?.slots.find((s) => touches(s.span, position.character));
  const isWord = token && !slot && line?.kind === "statement" && /^\p{L}/u.test(token.image);
  return isWord ? refuse("word", { name: token.image }) : refuse("no-name");
}

/** The edits that give a name another form everywhere; none is made where anything would change its meaning. */
export function rename(
  project: Project,
  path: string,
  position: Position,
  wanted: string,
): { readonly edits: readonly TextEdit[] } | Refusal {
  const found = renamable(project, path, position);
  if ("refused" in found) return found;
  const target = targetAt(project.files.get(path) as FileModel, position) as Exclude<
    Target,
    { kind: "file" }
  >;
  const name = wanted.trim().normalize("NFC");
  if (!isName(name)) return refuse("not-a-name", { name });
  if (name === found.name) return refuse("the-same");
  const taken = takenBySort(target, name);
  if (taken) return taken;
  const edits = placesOf(project, target).map((place) => editAt(place, name));
  const after = tried(project, edits);
  const fault = newClash(project, after, target, name) ?? differs(project, after, target, name);
  return fault ?? { edits: inUsualForm(project, edits) };
}

/** Whether a text is one name: it lexes as one word and has the shape that the language asks for. */
function isName(text: string): boolean {
  const tokens = lexLine(text);
  const shape = /^\p{L}[\p{L}\p{M}\p{N}\u200c\u200d]*(?:[-‐‑][\p{L}\p{M}\p{N}\u200c\u200d]+)*$/u;
  return tokens.length === 1 && tokens[0]?.image === text && shape.test(text);
}

/** Names that stand apart from those of things: outcomes, hazards, stages. */
function takenBySort(target: Exclude<Target, { kind: "file" }>, name: string): Refusal | null {
  if (target.kind === "outcome") {
    const words = [...OUTCOME_WORDS, ...possibleOutcomes(checkOf(target.thing.entry))];
    return words.includes(name) ? refuse("outcome-taken", { name }) : null;
  }
  if (target.kind === "stage") {
    const stage = fastenerFacts(target.thing.entry).stages.find((s) => s.name === name);
    return stage ? refuse("taken", takenArgs(name, target.thing, "a stage of")) : null;
  }
  if (
    target.kind === "thing" &&
    target.thing.kind === "hazard" &&
    (name in HAZARDS || hazardNamed(name) !== name)
  )
    return refuse("hazard-taken", { name });
  return null;
}
const OUTCOME_WORDS = ["met", "not", "over", "under", "yes", "no", "still"];

function takenArgs(name: string, thing: Thing, is: string): Record<string, string> {
  return { name, is, title: thing.title || thing.name, file: thing.file, line: String(thing.place.line + 1) };
}

function placesOf(project: Project, target: Target): Place[] {
  return [...project.files.values()].flatMap((file) => {
    const named = mentionsIn(file, target).map((m) => m.place);
    const perhaps = target.kind === "thing" ? perhapsIn(file, target.thing) : [];
    return [...named, ...perhaps.filter((p) => !named.some((n) => n.line === p.line && n.start === p.start))];
  });
}

const editAt = ({ file, line, start, end }: Place, text: string): TextEdit => ({
  file,
  start: { line, character: start },
  end: { line, character: end },
  text,
});

/** Something that has the name already in sight of what would get it. */
function newClash(before: Project, after: Project, target: Target, name: string): Refusal | null {
  const own = target.kind === "thing" ? target.thing.place : null;
  for (const [path, now] of after.files) {
    const then = before.files.get(path);
    if (!then || then === now) continue;
    const old = clashes(then).map(([thing]) => thing.place);
    const fresh = clashes(now).find(([thing]) => !old.some((place) => sameLine(place, thing.place)));
    if (!fresh) continue;
    const other = fresh.find((thing) => !own || !sameLine(thing.place, own)) ?? fresh[1];
    return refuse("taken", takenArgs(name, other, thingsInWords([other.kind])));
  }
  return null;
}

const sameLine = (a: Place, b: Place): boolean => a.file === b.file && a.line === b.line;

function differs(before: Project, after: Project, target: Target, name: string): Refusal | null {
  const welcome = target.kind === "thing" ? target.thing : null;
  const found = difference(before, after, welcome);
  if (!found) return null;
  const args = { name, file: found.place.file, line: String(found.place.line + 1) };
  if (found.why !== "mistaken" || !found.thing)
    return refuse(found.why === "mistaken" ? "changes" : found.why, args);
  return refuse("mistaken", {
    ...args,
    is: thingsInWords([found.thing.kind]),
    title: found.thing.title || name,
  });
}
