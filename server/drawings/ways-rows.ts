/**
 * What a drawing of the ways shows, in words: rows that come one after the other, and questions with their answers.
 */

/** A row. Ways lead to it by its id. */
export type WaysRow =
  | {
      readonly kind: "begin" | "end";
      readonly id: string;
      /** What is still done before it ends, in one paragraph. */
      readonly before?: string;
      readonly head: string;
      readonly lines: readonly string[];
    }
  /** What is done one after the other, and where it leads from there, which is never cut off. */
  | {
      readonly kind: "run";
      readonly id: string;
      readonly head: string;
      readonly lines: readonly string[];
      readonly foot?: string;
      /** The most lines of text before the foot; what is longer ends with an ellipsis. */
      readonly most?: number;
    }
  | WaysQuestion
  /** Goes elsewhere, whatever was decided. */
  | {
      readonly kind: "lead";
      readonly id: string;
      readonly head: string;
      readonly lines: readonly string[];
      readonly to: string;
      readonly number: string;
    };

export interface WaysQuestion {
  readonly kind: "question";
  readonly id: string;
  /** The step and its title. */
  readonly head: string;
  readonly lines: readonly string[];
  /** The answer with which the way goes straight on; null where none does. */
  readonly straight: string | null;
  /** The other answers. */
  readonly branches: readonly WaysBranch[];
}

/** What follows from an answer: what is done on it, then where it leads. */
export interface WaysBranch {
  readonly label: string;
  readonly rows: readonly WaysRow[];
  readonly leads:
    | { readonly kind: "on" }
    /** The job ends, as the last row says. */
    | { readonly kind: "end" }
    /** To a row by its id, which begins with the step of that number; the last row says so in words. */
    | { readonly kind: "to"; readonly to: string; readonly number: string };
}
