/**
 * Where a new line of a machine or procedure goes: behind its like, else where such lines usually stand.
 */
import type { Child } from "../facts";
import type { FileModel, Thing } from "../model";
import type { TextEdit } from "../rules";

/** The usual order of what stands in a procedure before the work begins. */
const HEADER = [
  "on",
  "document",
  "revision",
  "status",
  "working-time",
  "qualification",
  "person",
  "wear",
  "kit",
  "consumable",
  "tool",
  "temporary",
  "set",
  "option",
  "one-of",
  "symptom",
  "bulletin",
];

/**
 * Adds a declaration to a machine or procedure, its lines without their common indentation. Null where the block's braces
 * do not balance: nobody can tell where its lines end.
 */
export function addedTo(
  file: FileModel,
  block: Thing,
  construct: string,
  lines: readonly string[],
): TextEdit | null {
  const { document } = file;
  if (!document.tree.balanced || !block.entry.hasBlock) return null;
  const like = block.entry.children.filter((c) => c.entry.construct === construct).at(-1);
  const before =
    like ?? (block.kind === "procedure" ? lastBefore(block.entry.children, construct) : undefined);
  const closing = block.line + block.entry.lineCount - 1;
  const line = before
    ? block.line + before.row + before.entry.lineCount
    : block.kind === "procedure"
      ? block.line + 1
      : closing;
  const indent = `${/^\s*/.exec(document.lines[block.line]?.text ?? "")?.[0] ?? ""}  `;
  const start = { line, character: 0 };
  const { eol } = document.shape;
  const text = lines.map((one) => (one === "" ? eol : indent + one + eol)).join("");
  return { file: file.path, start, end: start, text };
}

/** The last line of a procedure's head that usually stands before one of this construct. */
function lastBefore(children: readonly Child[], construct: string): Child | undefined {
  const rank = HEADER.indexOf(construct);
  const work = children.findIndex((c) => !HEADER.includes(c.entry.construct));
  const head = work < 0 ? children : children.slice(0, work);
  return head.findLast((c) => HEADER.indexOf(c.entry.construct) <= rank);
}
