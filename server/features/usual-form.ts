/**
 * Edits that leave a text in its usual form where it was so before: what they put in may move a column, leave a blank line
 * at an edge, or lack the two spaces before a fact.
 */
import type { Document } from "../../grammar";
import type { Project } from "../model";
import type { TextEdit } from "../rules";
import { findUnit } from "../units/lookup";
import { formatting } from "./formatting";
import { editedDocument } from "./trial";

/** The edits with what formatting would do afterwards; of files that were not in their usual form as they are. */
export function inUsualForm(project: Project, edits: readonly TextEdit[]): readonly TextEdit[] {
  return [...new Set(edits.map((edit) => edit.file))].flatMap((path) => {
    const own = edits.filter((edit) => edit.file === path);
    const before = project.files.get(path)?.document;
    if (!before || formatting(before, findUnit)?.length !== 0) return own;
    const after = editedDocument(before, path, own);
    const moved = formatting(after, findUnit) ?? [];
    if (moved.length === 0) return own;
    const usual = editedDocument(
      after,
      path,
      moved.map((edit) => ({ ...edit, file: path })),
    );
    return editsBetween(path, before, usual);
  });
}

/**
 * The edits from one text to another: line by line where there are as many; the lines that were put in, where no line is
 * changed; else the stretch in which they differ.
 */
export function editsBetween(file: string, before: Document, after: Document): readonly TextEdit[] {
  const old = before.lines.map((line) => line.text);
  const now = after.lines.map((line) => line.text);
  const put = (line: number, endLine: number, end: number, text: string): TextEdit => ({
    file,
    start: { line, character: 0 },
    end: { line: endLine, character: end },
    text,
  });
  if (old.length === now.length)
    return old.flatMap((text, i) => (text === now[i] ? [] : [put(i, i, text.length, now[i] ?? "")]));
  const added = addedRuns(old, now);
  if (added)
    return added.map(({ line, rows }) =>
      put(line, line, 0, rows.map((row) => row + before.shape.eol).join("")),
    );
  const most = Math.min(old.length, now.length) - 1;
  let first = 0;
  while (first < most && old[first] === now[first]) first++;
  let same = 0;
  while (same < most - first && old[old.length - 1 - same] === now[now.length - 1 - same]) same++;
  // The last line is always the same: a text in its usual form ends with a line end.
  const text = now.slice(first, now.length - same).map((line) => line + before.shape.eol);
  return [put(first, old.length - same, 0, text.join(""))];
}

/** The runs of lines that were put in front of lines of the old text; null where more was done. */
function addedRuns(
  old: readonly string[],
  now: readonly string[],
): readonly { readonly line: number; readonly rows: readonly string[] }[] | null {
  const runs: { readonly line: number; readonly rows: string[] }[] = [];
  let line = 0;
  for (const row of now) {
    if (row === old[line]) line++;
    else if (runs.at(-1)?.line === line) runs.at(-1)?.rows.push(row);
    else runs.push({ line, rows: [row] });
  }
  return line === old.length && runs.every((run) => run.line < old.length) ? runs : null;
}
