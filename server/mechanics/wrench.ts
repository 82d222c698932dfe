/**
 * Which torques a wrench is to be trusted with.
 */
import { isPositive, type Range } from "./range";

/** Under this share of its top a wrench is not trusted: ISO 6789 has it tested at 20, 60 and 100 % of its top. */
export const TRUSTED_FROM = 0.2;

/** The scale of a wrench in newton metres. A wrench made for one torque has both ends the same. */
export interface WrenchScale {
  /** Null where it is not said. */
  readonly bottom: number | null;
  readonly top: number;
}

/**
 * The part of a wrench's scale that is trusted: from its bottom or a fifth of its top, whichever is greater, to its top. Undefined for a
 * scale that is none.
 */
export function trustedRange({ bottom, top }: WrenchScale): Range | undefined {
  const range = { low: Math.max(bottom ?? 0, TRUSTED_FROM * top), high: top };
  return isPositive(range) && (bottom === null || bottom >= 0) ? range : undefined;
}

/**
 * How a torque lies to a wrench.
 * - `within`: all of it in the trusted part.
 * - `partly`: some of it, so a setting inside can be chosen.
 * - `untrusted`: on the scale, but under a fifth of the top.
 * - `under`: less than the scale shows.
 * - `over`: more than the wrench gives.
 */
export type Fit = "within" | "partly" | "untrusted" | "under" | "over";

/** How a torque with its tolerance lies to a wrench; undefined where either is none. Both in newton metres at the wrench. */
export function fitOf(scale: WrenchScale, torque: Range): Fit | undefined {
  const trusted = trustedRange(scale);
  if (trusted === undefined || !isPositive(torque)) return undefined;
  const near = slack * scale.top;
  if (torque.low > trusted.high + near) return "over";
  if (torque.high < (scale.bottom ?? 0) - near) return "under";
  if (torque.high < trusted.low - near) return "untrusted";
  return torque.low >= trusted.low - near && torque.high <= trusted.high + near ? "within" : "partly";
}

/** What binary arithmetic may lose. */
const slack = 1e-9;
