/**
 * The features of an editor as the rest of the house sees them: plain data in, plain data out, no protocol.
 */
export { type Action, actions, editOf, fixAll, type Stretch } from "./actions";
export { type Completion, completion, completionDetails } from "./completion";
export { type Definition, definition } from "./definition";
export { type Diagnostic, diagnostics } from "./diagnostics";
export { type Fold, folding } from "./folding";
export { formatting } from "./formatting";
export { type Hover, hover } from "./hover";
export { type InlayHint, type InlayOptions, inlayHints } from "./inlay";
export { type PathLink, pathLinks } from "./links";
export type { Mention } from "./mentions";
export type { Offer, OfferKind } from "./offer";
export { offeredActions } from "./offered-actions";
export { type OutlineItem, outline } from "./outline";
export { highlights, references } from "./references";
export { owesRefit, type Refit, refit } from "./refit";
export { type Refusal, type Renamable, renamable, rename } from "./rename";
export { type Hit, searchSymbols } from "./search";
export { type Selection, selections } from "./selection";
export { isUnread, linesOf, procedureFor, proceduresUsing, type Shown } from "./sheet-for";
export { type StateTold, tellState } from "./state";
export { stateInShort } from "./state-in-short";
export { atLine, endOf, type NoStep, type StepAt, stepNamed } from "./step-at";
export { inUsualForm } from "./usual-form";
export { tellWays, type WaysTold, type WayTold } from "./ways";
export { type AnswerTold, numbersInShort, type PlaceTold, waysWords } from "./ways-places";
