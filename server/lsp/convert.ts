/**
 * From the plain data of features to the shapes of the protocol. Offsets in a line are UTF-16 on both sides, so
 * nothing is counted again.
 */
import {
  CodeActionKind,
  type CompletionItem,
  CompletionItemKind,
  DiagnosticSeverity,
  DiagnosticTag,
  type DocumentSymbol,
  type FoldingRange,
  FoldingRangeKind,
  InsertTextFormat,
  InsertTextMode,
  type Location,
  type Diagnostic as LspDiagnostic,
  type TextEdit as LspTextEdit,
  type MarkupContent,
  MarkupKind,
  type Range,
  type SymbolInformation,
  SymbolKind,
} from "vscode-languageserver/node";
import type { Edit } from "../../grammar";
import type { Completion, Diagnostic, Fold, Hover, OfferKind, OutlineItem } from "../features";
import type { Place } from "../model";

/** What a client can show, as far as it changes what it is sent. */
export interface Abilities {
  readonly related: boolean;
  readonly markdown: boolean;
  readonly nestedSymbols: boolean;
  /** It knows stops in a text that is put in. */
  readonly snippets: boolean;
  /** It indents further lines of what is put in when it is told to. */
  readonly indents: boolean;
  /** It asks for the documentation of an offer when it shows it, and reads Markdown in it. */
  readonly resolvesOffers: boolean;
  readonly markdownOffers: boolean;
}

type UriOf = (file: string) => string;

/** A stretch of one line as a range. */
export function rangeOf({ line, start, end }: Place): Range {
  return { start: { line, character: start }, end: { line, character: end } };
}

/** A place as a location. */
export function locationOf(place: Place, uriOf: UriOf): Location {
  return { uri: uriOf(place.file), range: rangeOf(place) };
}

// A hint is worth a look, and editors hide the protocol's own hints: they become information.
const SEVERITIES = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  hint: DiagnosticSeverity.Information,
};

/** A finding in words as a diagnostic; a client that shows no related places gets them in the message. */
export function diagnosticOf(diagnostic: Diagnostic, uriOf: UriOf, { related }: Abilities): LspDiagnostic {
  const { place, severity, code, text } = diagnostic;
  const others = diagnostic.related.map((r) => `${r.text} (${r.place.file}:${r.place.line + 1})`);
  return {
    range: rangeOf(place),
    severity: SEVERITIES[severity],
    code,
    source: "torquil",
    message: related ? text : [text, ...others].join("\n"),
    ...(related && others.length > 0
      ? {
          relatedInformation: diagnostic.related.map((r) => ({
            location: locationOf(r.place, uriOf),
            message: r.text,
          })),
        }
      : {}),
    ...(diagnostic.unnecessary ? { tags: [DiagnosticTag.Unnecessary] } : {}),
  };
}

/** A fault of a whole file, or of one place in it, that no rule found: it cannot be read, a setting is wrong. */
export function faultOf(line: number, start: number, end: number, message: string): LspDiagnostic {
  return {
    range: rangeOf({ file: "", line, start, end }),
    severity: DiagnosticSeverity.Error,
    source: "torquil",
    message,
  };
}

/** What hovering shows. The writer's words are never taken for Markdown. */
export function hoverOf({ kind, name, title, sentences }: Hover, { markdown }: Abilities): MarkupContent {
  const write = markdown ? escapeMarkdown : (text: string): string => text;
  const head = [`${kind}`, name === "" ? "" : markdown ? `**${write(name)}**` : name]
    .filter((part) => part !== "")
    .join(" ");
  const parts = [title === "" ? head : `${head} — ${write(title)}`, ...sentences.map(write)];
  return {
    kind: markdown ? MarkupKind.Markdown : MarkupKind.PlainText,
    value: parts.join(markdown ? "\n\n" : "\n"),
  };
}

function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]<>()#+!|~-]/g, "\\$&").replace(/\r\n|\r|\n/g, "  \n");
}

const ITEM_KINDS: Readonly<Record<OfferKind, CompletionItemKind>> = {
  word: CompletionItemKind.Keyword,
  clause: CompletionItemKind.Property,
  thing: CompletionItemKind.Variable,
  stage: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  outcome: CompletionItemKind.Value,
  code: CompletionItemKind.Constant,
  file: CompletionItemKind.File,
  snippet: CompletionItemKind.Snippet,
};

/** Where an offer is made: the line and its indentation, and its rank among the offers. */
export interface OfferedAt {
  readonly line: number;
  readonly indent: string;
  readonly rank: number;
}

/** An offer of completion, without its documentation; the rank keeps the order that they came in. */
export function completionOf(
  completion: Completion,
  { line, indent, rank }: OfferedAt,
  { snippets, indents }: Abilities,
): CompletionItem {
  const { label, text, kind, detail, start, end, snippet, filter } = completion;
  const written = snippets && snippet !== undefined ? snippet : text;
  // An editor that leaves further lines as they come gets them with the indentation of the first.
  const byUs = !snippets && !indents;
  return {
    label,
    kind: ITEM_KINDS[kind],
    sortText: String(rank).padStart(5, "0"),
    // A unit is written with a space before it, which must not keep it from being found.
    filterText: filter ?? text.trim(),
    textEdit: {
      range: rangeOf({ file: "", line, start, end }),
      newText: byUs ? written.replace(/\n(?=.)/g, `\n${indent}`) : written,
    },
    ...(written === snippet ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    ...(snippet !== undefined && indents ? { insertTextMode: InsertTextMode.adjustIndentation } : {}),
    ...(detail === "" ? {} : { detail }),
  };
}

/** Sentences as the documentation of an offer. */
export function documentationOf(sentences: readonly string[], { markdownOffers }: Abilities): MarkupContent {
  return {
    kind: markdownOffers ? MarkupKind.Markdown : MarkupKind.PlainText,
    value: markdownOffers ? sentences.map(escapeMarkdown).join("\n\n") : sentences.join("\n"),
  };
}

const SYMBOL_KINDS: Readonly<Record<string, SymbolKind>> = {
  machine: SymbolKind.Class,
  procedure: SymbolKind.Module,
  section: SymbolKind.Namespace,
  step: SymbolKind.Function,
  check: SymbolKind.Event,
  if: SymbolKind.Boolean,
  when: SymbolKind.Boolean,
  otherwise: SymbolKind.Boolean,
  for: SymbolKind.Array,
  kit: SymbolKind.Package,
  tool: SymbolKind.Interface,
  fastener: SymbolKind.Field,
  variant: SymbolKind.Enum,
  option: SymbolKind.Enum,
  "one-of": SymbolKind.Enum,
  choice: SymbolKind.EnumMember,
};

/** The sign that an editor shows for a construct. */
export function symbolKindOf(construct: string): SymbolKind {
  return SYMBOL_KINDS[construct] ?? SymbolKind.Object;
}

/** A line of the outline, with what stands in it. */
export function symbolOf(item: OutlineItem): DocumentSymbol {
  const selection = rangeOf(item.place);
  return {
    name: item.label.trim() === "" ? item.kind : item.label,
    detail: item.detail === "" ? item.kind : `${item.kind} ${item.detail}`,
    kind: symbolKindOf(item.kind),
    // The end of a line is not known here: the next line's start is the same place to an editor.
    range: { start: { line: item.line, character: 0 }, end: { line: item.lastLine + 1, character: 0 } },
    selectionRange: selection,
    children: item.children.map(symbolOf),
  };
}

/** The outline for a client that shows no tree: one line after the other, each with what it stands in. */
export function flatSymbols(items: readonly OutlineItem[], uri: string, container = ""): SymbolInformation[] {
  return items.flatMap((item) => {
    const { name, kind, range } = symbolOf({ ...item, children: [] });
    const own: SymbolInformation = {
      name,
      kind,
      location: { uri, range },
      ...(container === "" ? {} : { containerName: container }),
    };
    return [own, ...flatSymbols(item.children, uri, name)];
  });
}

/** Blocks and comments that fold. */
export function foldOf({ line, lastLine, kind }: Fold): FoldingRange {
  return {
    startLine: line,
    endLine: lastLine,
    ...(kind === "block" ? {} : { kind: FOLD_KINDS[kind] }),
  };
}

const FOLD_KINDS = { comment: FoldingRangeKind.Comment, uses: FoldingRangeKind.Imports };

/** An edit of one file. */
export function editOf({ start, end, text }: Edit): LspTextEdit {
  return { range: { start, end }, newText: text };
}

export const ACTION_KINDS = {
  fix: CodeActionKind.QuickFix,
  allow: CodeActionKind.QuickFix,
  declare: CodeActionKind.QuickFix,
  move: `${CodeActionKind.Refactor}.move`,
  refit: `${CodeActionKind.Refactor}.rewrite`,
  "fix-all": `${CodeActionKind.SourceFixAll}.torquil`,
} as const;

/** Whether an action of this kind was asked for. */
export function wanted(kind: string, only: readonly string[] | undefined): boolean {
  return only === undefined || only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));
}
