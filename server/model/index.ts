/**
 * The model as the rest of the house sees it.
 */
export { fits } from "./bind";
export { placeAt, referencesIn } from "./declare";
export { buildProject } from "./project";
export type * from "./types";
