/**
 * One thing that completion offers.
 */

import type { Place } from "../model";

/** What an offer is, so that an editor can show a sign for it. */
export type OfferKind =
  | "word"
  | "clause"
  | "thing"
  | "stage"
  | "unit"
  | "outcome"
  | "code"
  | "file"
  | "snippet";

export interface Offer {
  readonly label: string;
  /** What is written when it is taken. */
  readonly text: string;
  readonly kind: OfferKind;
  /** Beside the label: the kind and title of a thing. */
  readonly detail: string;
  /** One sentence on it; may be empty. */
  readonly about: string;
  /** Where it is declared, if it is the name of a thing. */
  readonly declared?: Place;
  /** The same as `text` with stops to fill in, in the notation that editors know. */
  readonly snippet?: string;
  /** What it is found by where that is not its text. */
  readonly filter?: string;
}
