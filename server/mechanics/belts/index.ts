/**
 * Belts and chains: from positions and sizes to path, length, fit and running. Lengths in millimetres, angles in radians,
 * x to the right and y up in the view.
 */
export { type Fit, fitOf, type LengthRange, lengthRange, tensioned } from "./fit";
export {
  type Figure,
  type Layout,
  type LayoutProblem,
  layoutProblems,
  MOST_PULLEYS,
  type Pulley,
} from "./layout";
export { type BeltPath, beltPath, type PathFound, type Span, type Wrap } from "./path";
export { otherRound, type Point, type Round, type Segment } from "./plane";
export { isWhole, type Repair, repairs } from "./repairs";
export { type Running, running } from "./running";
export {
  type BeltKind,
  backPitchDiameter,
  lengthOfTeeth,
  meshFactor,
  pitchDiameter,
} from "./sizes";
