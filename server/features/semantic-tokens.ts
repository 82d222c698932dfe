/**
 * What each name in a text is, for highlighting: its kind of thing, whether it is declared there, and the words that
 * warn. What a name means is told by the model, so a part that is called like a word of the language is still a part.
 */
import { type Child, namesIn } from "../facts";
import type { FileModel, Place, ThingKind } from "../model";

/** The kinds of token, of those that editors know; their places in the list are their numbers. */
export const TOKEN_TYPES = [
  "keyword",
  "variable",
  "property",
  "class",
  "interface",
  "enumMember",
  "parameter",
  "function",
  "namespace",
  "type",
] as const;
export type TokenType = (typeof TOKEN_TYPES)[number];

/** What may be added to a kind. `safety` is our own: an editor that does not know it leaves it out. */
export const TOKEN_MODIFIERS = ["declaration", "safety"] as const;

/** One name or word. */
export interface SemanticToken {
  readonly place: Place;
  readonly type: TokenType;
  readonly declares: boolean;
  readonly warns: boolean;
}

const TYPES: Readonly<Record<ThingKind, TokenType>> = {
  machine: "class",
  procedure: "namespace",
  part: "variable",
  line: "variable",
  belt: "variable",
  shaft: "variable",
  face: "variable",
  clip: "variable",
  set: "variable",
  member: "variable",
  view: "variable",
  fastener: "property",
  tool: "interface",
  temporary: "interface",
  fluid: "type",
  consumable: "type",
  mark: "enumMember",
  hazard: "enumMember",
  person: "parameter",
  variant: "parameter",
  symptom: "parameter",
  bulletin: "parameter",
  option: "parameter",
  "one-of": "parameter",
  choice: "parameter",
  section: "function",
  step: "function",
  check: "function",
};

const SIGNALS: ReadonlySet<string> = new Set(["danger", "warning", "caution", "notice"]);

/** The tokens of a file in the order of its text; none covers a part of another. */
export function semanticTokens(file: FileModel): readonly SemanticToken[] {
  const declared = file.things.flatMap(({ kind, place, named }) =>
    named ? [{ place, type: TYPES[kind], declares: true, warns: kind === "hazard" }] : [],
  );
  const used = file.bindings.flatMap(({ place, thing }) =>
    thing ? [{ place, type: TYPES[thing.kind], declares: false, warns: thing.kind === "hazard" }] : [],
  );
  const all = [...declared, ...used, ...warnings(file.path, file.entries, 0)].filter(
    ({ place }) => place.file === file.path && place.end > place.start,
  );
  const inOrder = all.sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
  return inOrder.filter(({ place }, i) => {
    const before = inOrder[i - 1]?.place;
    return !before || before.line !== place.line || before.end <= place.start;
  });
}

/** The signal words and the hazards they name. */
function warnings(file: string, children: readonly Child[], line: number): SemanticToken[] {
  return children.flatMap(({ row, entry }) => {
    const inner = warnings(file, entry.children, line + row);
    if (!SIGNALS.has(entry.construct)) return inner;
    const { at } = entry.form;
    const { start } = at.span;
    const token = (on: number, from: number, to: number, type: TokenType): SemanticToken => ({
      place: { file, line: line + row + on, start: from, end: to },
      type,
      declares: false,
      warns: true,
    });
    const hazard = namesIn(entry.form, "hazard")[0]?.at;
    return [
      token(at.row, start, start + entry.construct.length, "keyword"),
      ...(hazard ? [token(hazard.row, hazard.span.start, hazard.span.end, "enumMember")] : []),
      ...inner,
    ];
  });
}
