/**
 * Sizes that follow from teeth, pitch and thickness. Lengths in millimetres; a figure that makes no sense comes back as
 * NaN, which a layout refuses as a bad figure.
 */

/** What runs round the pulleys. */
export type BeltKind = "toothed" | "ribbed" | "vee" | "flat" | "chain";

const usable = (...figures: readonly number[]): boolean =>
  figures.every((figure) => Number.isFinite(figure) && figure > 0);

/**
 * Pitch diameter from teeth and pitch: z·p/π of a toothed belt's pulley, whose pitch circle has its teeth on the arc
 * (ISO 5294); p / sin(π/z) of a chain's sprocket, whose pitch points have the pitch as their chord (ISO 606).
 */
export function pitchDiameter(kind: BeltKind, teeth: number, pitch: number): number {
  if (!usable(teeth, pitch) || (kind === "chain" && teeth < 3)) return Number.NaN;
  return kind === "chain" ? pitch / Math.sin(Math.PI / teeth) : (pitch * teeth) / Math.PI;
}

/** The length of a belt or chain of so many teeth or links; of one laid once round a pulley of so many teeth as well. */
export const lengthOfTeeth = (teeth: number, pitch: number): number =>
  usable(teeth, pitch) ? teeth * pitch : Number.NaN;

/**
 * The share of a belt's thickness between its back and its pitch line. Flat: a half, the neutral line in the middle.
 * Others: three tenths. Toothed ones lie between 0.26 and 0.34 (thickness less tooth height less pitch-line offset over
 * thickness: H3M 2.4, 1.21, 0.381; H5M 3.8, 2.08, 0.572; H8M 6.0, 3.38, 0.686; H14M 10, 6.02, 1.397, a maker's table
 * after ISO 13050); ribbed and vee belts carry their cords at about the same depth (common practice, no source).
 */
const backShare = (kind: BeltKind): number => (kind === "flat" ? 1 / 2 : 3 / 10);

/**
 * The pitch diameter of a pulley that the back of a belt touches, from its own diameter and the belt's thickness:
 * d + 2(H − a − h), the back's distance from the pitch line twice.
 */
export function backPitchDiameter(kind: BeltKind, diameter: number, thickness: number): number {
  return usable(diameter, thickness) ? diameter + 2 * backShare(kind) * thickness : Number.NaN;
}

/**
 * The share of its full rating a synchronous belt may carry on a sprocket: a fifth is lost for each tooth in mesh under
 * six (belt makers' handbooks; common practice). Only whole teeth count.
 */
export function meshFactor(teethInMesh: number): number {
  const whole = Math.floor(teethInMesh + 1e-9);
  return Number.isFinite(whole) ? Math.min(1, Math.max(0, 1 - (6 - whole) / 5)) : 0;
}
