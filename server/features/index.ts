/**
 * The features of an editor as the rest of the house sees them: plain data in, plain data out, no protocol.
 */
export { type Action, actions, editOf, fixAll, type Stretch } from "./actions";
export { type Completion, completion } from "./completion";
export { type Definition, definition } from "./definition";
export { type Diagnostic, diagnostics } from "./diagnostics";
export { type Fold, folding } from "./folding";
export { formatting } from "./formatting";
export { type Hover, hover } from "./hover";
export type { Offer, OfferKind } from "./offer";
export { type OutlineItem, outline } from "./outline";
export { references } from "./references";
