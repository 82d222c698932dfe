/**
 * What stands at a place of a text: the blocks around it, the names in sight there, and the thing, stage, outcome or
 * file that is meant.
 */
import {
  type Block,
  type Context,
  contextOf,
  isBlock,
  type Line,
  type Node,
  type Phrase,
  type Position,
  type Tree,
} from "../../grammar";
import { readEntry, slotIn } from "../facts";
import type { FileModel, Machine, Place, Procedure, Thing } from "../model";
import { looseNames } from "./loose";

/** A block and the line of its head (for a lost head, of its first line). */
export interface BlockAt {
  readonly block: Block;
  readonly row: number;
}

/** The blocks that a line stands in, outermost first; a block stands around its head line too. */
export function blocksAround(tree: Tree, line: number): readonly BlockAt[] {
  const around: BlockAt[] = [];
  let nodes: readonly Node[] = tree.children;
  let row = 0;
  for (let at = 0; at < nodes.length; ) {
    const node = nodes[at] as Node;
    const rows = isBlock(node) ? node.lineCount : 1;
    if (line >= row + rows) {
      row += rows;
      at++;
      continue;
    }
    if (!isBlock(node)) break;
    around.push({ block: node, row });
    if (node.head) {
      if (line === row) break;
      row++;
    }
    nodes = node.children;
    at = 0;
  }
  return around;
}

/** The blocks that a line is a child of: those around it whose head it is not. */
export function blocksAbove(tree: Tree, line: number): readonly BlockAt[] {
  return blocksAround(tree, line).filter(({ block, row }) => row !== line || block.head === null);
}

/** What may stand in the innermost of some blocks; undefined where its head is lost. */
export function contextIn(blocks: readonly BlockAt[]): Context | undefined {
  let context: Context | undefined = "file";
  for (const { block } of blocks) {
    const held = contextOf(block.head);
    if (held !== "same") context = held;
  }
  return context;
}

/** A file's line with what it says; undefined for lines after the last. */
export function lineAt(file: FileModel, line: number): Line | undefined {
  return file.document.lines[line];
}

/** The phrase of a line that a column stands in or directly behind. */
export function phraseAt(line: Line, character: number): Phrase | undefined {
  return line.statement?.phrases.find((p) => touches(p.span, character));
}

/** Whether a column stands in a stretch or directly behind it, as a text cursor does. */
export function touches(span: { readonly start: number; readonly end: number }, character: number): boolean {
  return span.start <= character && character <= span.end;
}

/** From where a line sees names. */
export interface Scope {
  readonly procedure: Procedure | null;
  readonly machine: Machine | null;
  /** Looks a name up as the model does at this line. */
  readonly find: (name: string, accepts?: readonly string[]) => Thing | undefined;
}

const spans = (thing: Thing, line: number): boolean =>
  thing.line <= line && line < thing.line + thing.entry.lineCount;

/** The scope of a line. */
export function scopeAt(file: FileModel, line: number): Scope {
  const procedure = file.procedures.find((p) => spans(p.thing, line)) ?? null;
  const machine = procedure ? procedure.machine : (file.machines.find((m) => spans(m.thing, line)) ?? null);
  const find = (name: string, accepts: readonly string[] = []): Thing | undefined =>
    file.inSight.find(
      (t) => t.name === name && !hidden(t, null) && (accepts.length === 0 || accepts.includes(t.kind)),
    );
  return { procedure, machine, find: procedure?.find ?? find };
}

/** Whether a thing belongs to a procedure other than this one. */
function hidden(thing: Thing, procedure: Procedure | null): boolean {
  return thing.owner?.kind === "procedure" && thing.owner !== procedure?.thing.owns;
}

/** Everything with a name in sight from a scope, nearest first: the procedure's own, its machine's, the rest. */
export function thingsInSight(file: FileModel, { procedure, machine }: Scope): readonly Thing[] {
  const near = [
    ...(procedure ? [...procedure.things, ...procedure.targets] : []),
    ...(machine ? [machine.thing, ...machine.things] : []),
  ];
  const far = file.inSight.filter((t) => !hidden(t, procedure));
  return [...new Set([...near, ...far])].filter((t) => t.named);
}

/** What a place in a text means; `place` is the stretch that was pointed at. */
export type Target =
  | { readonly kind: "thing"; readonly thing: Thing; readonly place: Place }
  | { readonly kind: "stage"; readonly thing: Thing; readonly stage: string; readonly place: Place }
  /** An outcome that a check chooses, or the way round of a part or belt. */
  | { readonly kind: "outcome" | "way"; readonly thing: Thing; readonly name: string; readonly place: Place }
  | { readonly kind: "file"; readonly file: string; readonly place: Place };

const at = (place: Place, { line, character }: Position): boolean =>
  place.line === line && touches(place, character);

/** The thing, stage, outcome, way round or file meant at a position; undefined where there is none. */
export function targetAt(file: FileModel, position: Position): Target | undefined {
  const link = file.links.find((l) => at(l.place, position));
  if (link?.file) return { kind: "file", file: link.file, place: link.place };
  const bound = file.bindings.find((b) => at(b.place, position));
  if (bound?.thing && bound.accepts[0] === "stage")
    return { kind: "stage", thing: bound.thing, stage: bound.name, place: bound.place };
  const thing = bound?.thing ?? bound?.misfit;
  if (thing) return { kind: "thing", thing, place: bound?.place as Place };
  const declared = file.things.find((t) => at(t.place, position));
  if (declared) return { kind: "thing", thing: declared, place: declared.place };
  return stageAt(file, position) ?? looseAt(file, position) ?? perhapsAt(file, position);
}

/** A name that the model does not bind. */
function looseAt(file: FileModel, position: Position): Target | undefined {
  const loose = looseNames(file).find((l) => at(l.place, position));
  if (!loose) return undefined;
  const { kind, thing, name, place } = loose;
  return kind === "thing" ? { kind, thing, place } : { kind, thing, name, place };
}

/** A stage named where it is declared, or on a line of its own in the block of a `tighten`. */
function stageAt(file: FileModel, position: Position): Target | undefined {
  const line = lineAt(file, position.line);
  const phrase = line && phraseAt(line, position.character);
  const slot =
    phrase?.clause === "stage"
      ? phrase.slots.find((s) => s.role === "stage" && touches(s.span, position.character))
      : undefined;
  const name = slot?.content.kind === "names" ? slot.content.names[0]?.name : undefined;
  if (!slot || name === undefined) return undefined;
  const place: Place = { file: file.path, line: position.line, ...slot.span };
  const thing = fastenersAround(file, position.line).find((t) => stagePlace(t, name) !== undefined);
  return thing && { kind: "stage", thing, stage: name, place };
}

/** The fastener whose block a line stands in, or those that the `tighten` around it, or on it, names. */
export function fastenersAround(file: FileModel, line: number): readonly Thing[] {
  const inner = blocksAround(file.document.tree, line).at(-1);
  const entry = inner ? readEntry(inner.block) : undefined;
  if (entry?.construct === "fastener")
    return file.things.filter((t) => t.entry === entry && t.line === inner?.row);
  const { find } = scopeAt(file, line);
  const said = entry?.construct === "tighten" ? (slotIn(entry.form, "what")?.names ?? []) : [];
  return said.flatMap(({ name }) => find(name, ["fastener"]) ?? []);
}

/** Where a fastener declares a stage. */
export function stagePlace(fastener: Thing, stage: string): Place | undefined {
  const slot = fastener.entry.details
    .filter((d) => d.clause === "stage")
    .map((d) => slotIn(d, "stage"))
    .find((s) => s?.names[0]?.name === stage);
  return slot && { file: fastener.file, line: fastener.line + slot.at.row, ...slot.at.span };
}

/** On a line that could not be read, a word that is the name of something in sight. */
function perhapsAt(file: FileModel, { line, character }: Position): Target | undefined {
  const word = lineAt(file, line)?.perhaps.find((p) => touches(p.span, character));
  const thing = word && scopeAt(file, line).find(word.name);
  return thing && { kind: "thing", thing, place: { file: file.path, line, ...word.span } };
}
