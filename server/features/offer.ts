/**
 * One thing that completion offers.
 */

/** What an offer is, so that an editor can show a sign for it. */
export type OfferKind = "word" | "clause" | "thing" | "stage" | "unit" | "outcome" | "code" | "file";

export interface Offer {
  readonly label: string;
  /** What is written when it is taken. */
  readonly text: string;
  readonly kind: OfferKind;
  /** Beside the label: the kind and title of a thing. */
  readonly detail: string;
  /** One sentence on it; may be empty. */
  readonly about: string;
}
