/**
 * Drawings from data, as SVG: the path of a belt, the order of a tightening, the run of a hose.
 */
export { type BeltMark, type BeltPicture, beltDrawing } from "./belt";
export { type BoltsPicture, boltsDrawing, circlePlaces, type Hole, rowPlaces } from "./bolts";
export { type RunPicture, runDrawing } from "./run";
export type { Drawing } from "./svg";
