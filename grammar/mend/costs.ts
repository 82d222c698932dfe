/**
 * What it costs to suppose a slip, and what a line costs that does not fit where it stands. Set by breaking lines of
 * examples and looking at what was moved; the order of the figures matters, hardly their size.
 */

/** The costs, against each other. */
export const COST = {
  /** A `}` is missing. */
  notClosed: 4,
  /** A `}` too many: where no head stands above it, under a head, in a text without indentation. */
  stray: 3,
  strayUnderHead: 6,
  strayAnywhere: 4,
  strayAtEnd: 5,
  /** A head is gone: with a blank line in its place, or with none. */
  lostHead: 4,
  lostHeadOutermost: 6.5,
  lostHeadUnseen: 8,
  lostHeadAnywhere: 3.5,
  lostHeadFitting: 4.5,
  lostHeadUnseenAnywhere: 6,
  /** A `{` is missing: at a head that must have one, may have one, on a line that could not be read. */
  notOpenedMust: 3,
  notOpenedMay: 4,
  notOpenedBroken: 3,
  /** The same, where another line stands between the head and what would be its block. */
  notOpenedApart: 7,
  /** A head that must have a block has none. */
  noBlock: 5,
  /** A `{` too many. */
  strayOpen: 3,
  /** A block on a line that has none. */
  blockNotHere: 5,
  /** Less, where an empty line or an empty block shows the place. */
  seen: 0.5,
  /** The block that ends so holds nothing. */
  empty: 1,
  /** A line that could not be read has a brace too many, or one and nothing else. */
  strayOpenBroken: 3.5,
  strayOpenBare: 3,
  bare: 1,
  /** A line that could not be read closes a block: with a `}` in it, or instead of one; out of its column. */
  brokenClose: 2,
  brokenForClose: 3,
  brokenCloseAside: 2,
  /** A line that could not be read stands further out: its column is weak evidence. */
  outer: 1,
  /** A line out of its column; one that could not be read, or a comment. */
  column: 2,
  columnBroken: 1,
  /** A line in a block that cannot hold it. */
  context: 2,
} as const;
