/**
 * Where a line stands, as completion looks at it: the blocks around it, what may stand there, and what is in sight.
 */
import type { Context, Line } from "../../grammar";
import { type Entry, readEntry } from "../facts";
import type { FileModel, Project } from "../model";
import { blocksAbove, contextIn, type Scope, scopeAt } from "./cursor";

export interface Site {
  readonly project: Project;
  readonly file: FileModel;
  readonly row: number;
  readonly line: Line;
  /** The blocks it is a child of, outermost first, read. */
  readonly above: readonly Entry[];
  /** The line of the innermost's head; 0 where there is none. */
  readonly innerRow: number;
  /** What may stand in the innermost of them; undefined where its head is lost. */
  readonly context: Context | undefined;
  readonly scope: Scope;
}

/** The site of a line of a file; undefined for a file or line that is not there. */
export function siteOf(project: Project, path: string, row: number): Site | undefined {
  const file = project.files.get(path);
  const line = file?.document.lines[row];
  if (!file || !line) return undefined;
  const blocks = blocksAbove(file.document.tree, row);
  return {
    project,
    file,
    row,
    line,
    above: blocks.map(({ block }) => readEntry(block)),
    innerRow: blocks.at(-1)?.row ?? 0,
    context: contextIn(blocks),
    scope: scopeAt(file, row),
  };
}

/** The innermost entry above of a construct. */
export function nearestAbove({ above }: Site, construct: string): Entry | undefined {
  return above.findLast((entry) => entry.construct === construct);
}
