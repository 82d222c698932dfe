/**
 * A reading of the lines so far, as the search carries it from line to line.
 */
import type { Move } from "./build";
import type { Frame } from "./frames";

/** A reading of the lines so far. */
export interface State {
  readonly frame: Frame;
  readonly cost: number;
  /** The column of the line before in the same block; -1 at its start. */
  readonly column: number;
  /** The line before did not fit either: one cause costs once. */
  readonly misfit: boolean;
  /** Heads that stand too deep to open a block. */
  readonly skipped: number;
  readonly moves: Move | null;
}

/** Ends the innermost block. */
export function endBlock(state: State, cost: number, moves: Move | null): State {
  const { frame } = state;
  const parent = frame.parent as Frame;
  return {
    frame: parent,
    cost: state.cost + cost,
    column: frame.column,
    misfit: frame.misfit,
    skipped: 0,
    moves: moves ?? state.moves,
  };
}
