/**
 * The sheet as PDF: tagged (PDF/UA-1), titled, with bookmarks, the same bytes for the same sheet.
 *
 * The Typst compiler sees nothing of the machine: template, data and pictures are handed to it in memory, fonts come
 * from the caller, and its root folder does not exist. It stays quiet about much that spoils a page, so every warning
 * is an error here.
 */
import type { NodeCompiler, NodeError, NodeTypstDocument } from "@myriaddreamin/typst-ts-node-compiler";
import { keptBy } from "../facts/kept";
import { type PrintFailure, printError } from "../phrases/print";
import type { Sheet } from "./blocks";
import { layOut } from "./layout";
import type { Drawn, Layout, Node, Picture } from "./nodes";
import { TEMPLATE } from "./template";
import { itemWithText } from "./where";

/** What setting type needs from outside. */
export interface Typesetter {
  /** Font families in the order they are tried. */
  readonly families: readonly string[];
  /** The font files that hold them, whole. */
  readonly fonts: readonly Uint8Array[];
  /** Makes a compiler: `NodeCompiler.create` of the Typst package. */
  readonly create: typeof NodeCompiler.create;
}

/** Why there is no PDF. `item` is the id of the item at fault, empty when that cannot be told. */
export interface PdfError {
  readonly code: PrintFailure["code"];
  readonly item: string;
  readonly message: string;
}

export type PdfResult = { readonly pdf: Uint8Array; readonly pages: number } | { readonly error: PdfError };

/** Never there, so that no path in a template can lead to a file of the machine. */
const ROOT = "/torquil-has-no-folder";
const MAIN = `${ROOT}/main.typ`;

/** Makes the PDF of a sheet. Never throws for what is in the sheet: that comes back as `error`. */
export function renderPdf(sheet: Sheet, typesetter: Typesetter): PdfResult {
  const layout = layOut(sheet);
  const set = typeset(layout, typesetter);
  if ("error" in set) return set;
  try {
    const pdf = set.compiler.pdf(set.document, { pdfStandard: "ua-1", pdfTags: true });
    return { pdf: withoutSuspects(new Uint8Array(pdf)), pages: set.document.numOfPages };
  } catch (cause) {
    return { error: exportError(layout, cause instanceof Error ? cause.message : String(cause)) };
  }
}

const SUSPECTS = "/Suspects false";

/**
 * Takes out of a PDF's mark information what says the same as its absence (ISO 32000-1, table 321): poppler up to 22.12
 * at least calls that false a syntax error. Blanks stand in its place, so that every offset in the file stays right.
 */
function withoutSuspects(pdf: Uint8Array): Uint8Array {
  const bytes = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.length);
  const at = bytes.indexOf(SUSPECTS, Math.max(0, bytes.lastIndexOf("/MarkInfo")));
  if (at >= 0) bytes.fill(" ", at, at + SUSPECTS.length);
  return pdf;
}

/** The page (from 1) on which each item of a sheet begins, by the item's id; an error as from `renderPdf`. */
export function pagesOfItems(
  sheet: Sheet,
  typesetter: Typesetter,
): { readonly pages: ReadonlyMap<string, number> } | { readonly error: PdfError } {
  const set = typeset(layOut(sheet), typesetter);
  if ("error" in set) return set;
  const found: { value: { id: string; page: number } }[] = set.compiler.query(set.document, {
    selector: "<where>",
  });
  return { pages: new Map(found.map(({ value }) => [value.id, value.page])) };
}

/** One compiler serves all sheets: making one for each takes longer, and its memory never comes back. */
const compilerOf = keptBy(
  ({ create, fonts }: Typesetter): NodeCompiler =>
    create({
      workspace: ROOT,
      fontArgs: [{ fontBlobs: fonts.map((font) => Buffer.from(font.buffer, font.byteOffset, font.length)) }],
    }),
);

/** Sets a layout as a document that has not become a PDF yet, so that it can be asked what stands in it. */
export function typeset(
  layout: Layout,
  typesetter: Typesetter,
): { readonly compiler: NodeCompiler; readonly document: NodeTypstDocument } | { readonly error: PdfError } {
  const compiler = compilerOf(typesetter);
  compiler.resetShadow();
  // What a sheet leaves in the compiler's memory serves the next ones, and goes when two in turn had no use for it:
  // measured on 40 different sheets, 6 MB a sheet stay instead of 23 MB.
  compiler.evictCache(2);
  const pictures = allPictures(layout.nodes);
  const paths = new Map(pictures.map((picture, index) => [picture, `/picture-${index}.${fileEnd(picture)}`]));
  for (const [picture, path] of paths) {
    compiler.mapShadow(`${ROOT}${path}`, bytesOf(picture));
  }
  compiler.mapShadow(`${ROOT}/sheet.json`, Buffer.from(dataFor(layout, typesetter.families, paths)));
  const set = compile(compiler, TEMPLATE);
  if (!("cause" in set)) return { compiler, document: set.document };
  for (const [picture, path] of paths) {
    const alone = compile(compiler, `#set document(title: "-")\n#image(${JSON.stringify(path)}, alt: "-")`);
    if ("cause" in alone) {
      return {
        error: failed({
          code: "bad-picture",
          picture: picture.alt,
          item: picture.id,
          cause: alone.cause,
        }),
      };
    }
  }
  return { error: failed({ code: "not-typeset", item: "", cause: set.cause }) };
}

function compile(
  compiler: NodeCompiler,
  source: string,
): { readonly document: NodeTypstDocument } | { readonly cause: string } {
  compiler.mapShadow(MAIN, Buffer.from(source));
  const result = compiler.compile({ mainFilePath: MAIN });
  const problem = result.hasError() ? result.takeError() : result.takeWarnings();
  if (problem !== null) return { cause: messages(compiler, problem) };
  const document = result.result;
  return document === null ? { cause: "no document came out" } : { document };
}

function messages(compiler: NodeCompiler, problem: NodeError): string {
  const diagnostics: { message: string }[] = compiler.fetchDiagnostics(problem);
  return diagnostics.map(({ message }) => message.replace(/\.$/, "")).join("; ");
}

/** What the template reads as `/sheet.json`. */
function dataFor(layout: Layout, fonts: readonly string[], paths: ReadonlyMap<Node, string>): string {
  const [language, ...rest] = layout.lang.split("-");
  const region = rest.find((part) => /^[A-Za-z]{2}$/.test(part));
  return JSON.stringify({
    ...layout,
    lang: /^[A-Za-z]{2,3}$/.test(language ?? "") ? language?.toLowerCase() : "en",
    region: region?.toUpperCase() ?? null,
    date: calendarDate(layout.date),
    fonts,
    targets: allTargets(layout.nodes),
    nodes: layout.nodes.map((node) => withPaths(node, paths)),
  });
}

/** Year, month and day of `2026-11-20`; null for anything that is no day of the calendar. */
function calendarDate(date: string): { year: number; month: number; day: number } | null {
  const [year = 0, month = 0, day = 0] = /^\d{4}-\d{2}-\d{2}$/.test(date) ? date.split("-").map(Number) : [];
  const real = new Date(Date.UTC(year, month - 1, day));
  return year > 0 && real.getUTCMonth() === month - 1 && real.getUTCDate() === day
    ? { year, month, day }
    : null;
}

function inside(node: Node): readonly Node[] {
  return node.kind === "step" || node.kind === "frame" ? node.body : [];
}

function allPictures(nodes: readonly Node[]): (Picture | Drawn)[] {
  return nodes.flatMap((node) => (isPicture(node) ? [node] : allPictures(inside(node))));
}

const isPicture = (node: Node): node is Picture | Drawn => node.kind === "picture" || node.kind === "drawing";

function bytesOf(picture: Picture | Drawn): Buffer {
  return picture.kind === "drawing" ? Buffer.from(picture.svg) : Buffer.from(picture.bytes, "base64");
}

/** The ids of what can be referred to: steps and drawings. */
function allTargets(nodes: readonly Node[]): string[] {
  return nodes.flatMap((node) => [
    ...(node.kind === "step" || node.kind === "drawing" ? [node.id] : []),
    ...allTargets(inside(node)),
  ]);
}

/** The node with its pictures' bytes replaced by the path they are found at. */
function withPaths(node: Node, paths: ReadonlyMap<Node, string>): object {
  if (isPicture(node)) return { ...node, bytes: "", svg: "", path: paths.get(node) };
  return node.kind === "step" || node.kind === "frame"
    ? { ...node, body: node.body.map((child) => withPaths(child, paths)) }
    : node;
}

function fileEnd(picture: Picture | Drawn): string {
  return picture.kind === "drawing" || picture.type === "image/svg+xml"
    ? "svg"
    : picture.type.slice("image/".length);
}

/** Reads the compiler's account of why a set document cannot be a PDF. */
function exportError(layout: Layout, account: string): PdfError {
  const glyph = /the text `"(.+?)"` could not be displayed/.exec(account.replaceAll('\\"', '"'));
  if (glyph?.[1] !== undefined) {
    const { item, text } = itemWithText(layout, glyph[1]);
    return failed({ code: "missing-glyph", character: glyph[1], text, item });
  }
  const said = Array.from(account.matchAll(/message: "((?:[^"\\]|\\.)*)"/g), (match) => match[1]);
  return failed({ code: "not-typeset", item: "", cause: [...new Set(said)].join("; ") || account });
}

function failed(failure: PrintFailure): PdfError {
  return {
    code: failure.code,
    item: "item" in failure ? failure.item : "",
    message: printError(failure),
  };
}
