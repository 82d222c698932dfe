/**
 * Facts as the rest of the house sees them.
 */
export * from "./entry";
export { keptBy, keptByEntry } from "./kept";
export * from "./machine";
export * from "./procedure";
export type { QuantityProblem } from "./quantity";
