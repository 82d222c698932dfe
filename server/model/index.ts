/**
 * The model as the rest of the house sees it.
 */
export { fits } from "./bind";
export { placeAt, referencesIn } from "./declare";
export { type Job, jobOf, type Spot, stepAround } from "./job";
export { followed, type Numbered, numbering, numbersByLine } from "./numbering";
export { buildProject } from "./project";
export type * from "./types";
