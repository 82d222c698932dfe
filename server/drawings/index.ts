/**
 * Drawings from data, as SVG: the path of a belt, the order of a tightening, the run of a hose.
 */
export { type BeltMark, type BeltPicture, beltDrawing } from "./belt";
export { type BoltsPicture, boltsDrawing } from "./bolts";
export { circlePlaces, gridPlaces, type Hole, rowPlaces } from "./holes";
export { type RunPicture, type RunPlace, runDrawing } from "./run";
export type { Drawing } from "./svg";
export { type WaysPicture, waysDrawings } from "./ways";
export type { WaysBranch, WaysRow } from "./ways-rows";
