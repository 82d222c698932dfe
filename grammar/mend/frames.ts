/**
 * Stacks of open blocks for the search: linked and shared, so that two readings that have come to the same blocks hold
 * the same object.
 */
import type { Context } from "../constructs";
import type { Line } from "../statement";
import { contextOf, fits } from "../tree";

/** An open block and those around it. */
export interface Frame {
  readonly id: number;
  readonly parent: Frame | null;
  readonly depth: number;
  /** The column of its head, and where the blocks around it would put its head; less than 0 for the text itself. */
  readonly column: number;
  readonly due: number;
  /** Unknown where the head is lost or could not be read. */
  readonly context: Context | undefined;
  /** The head does not fit the block it stands in. */
  readonly misfit: boolean;
}

export class Frames {
  readonly root: Frame;
  private readonly known = new Map<number, Frame>();
  private made = 1;

  /** @param step columns by which a block stands deeper than its head; @param most the number of lines */
  constructor(
    private readonly step: number,
    private readonly most: number,
  ) {
    this.root = { id: 0, parent: null, depth: 0, column: -step, due: -step, context: "file", misfit: false };
  }

  /** The block that a line opens in another; a lost head stands where its first line would have it. */
  open(parent: Frame, line: Line, at: number, lost: boolean): Frame {
    const key = (parent.id * this.most + at) * 2 + (lost ? 1 : 0);
    const known = this.known.get(key);
    if (known) return known;
    const due = parent.due + this.step;
    const holds = lost ? undefined : contextOf(line);
    const frame: Frame = {
      id: this.made++,
      parent,
      depth: parent.depth + 1,
      column: lost || line.kind === "broken" ? due : line.indent,
      due:
        lost || line.kind === "broken" ? due : line.indent === parent.column + this.step ? line.indent : due,
      context: holds === "same" ? parent.context : holds,
      misfit: !lost && !fits(line, parent.context),
    };
    this.known.set(key, frame);
    return frame;
  }
}
