/**
 * Where a bolt's head bears: the ring between the hole and the edge of the head, on which its friction acts.
 */
import { clearanceHoles, flangeHeads, hexagonHeads, inchHeads, socketHeads } from "./heads-table";
import { exactly, type Range, scaled } from "./range";
import type { Thread } from "./threads";

/** Kinds of head. A countersunk head rubs on a cone and is not held here. */
export type Head = "hexagon" | "socket" | "flange";

/** The ring the head bears on, in metres. */
export interface Bearing {
  /** Outer diameter dW. */
  readonly outer: Range;
  /** Diameter of the hole dh. */
  readonly hole: Range;
  /** The diameter friction is taken to act on: DKm = (dW + dh) / 2 (VDI 2230). */
  readonly mean: Range;
  /** Whether the figures are those of a standard head and hole, or only bounds round the usual ones. */
  readonly standard: boolean;
}

/**
 * Bounds where the head is not known, in diameters: from a small hexagon (M64: 1.24) to a flange (M6: 1.57), with something to
 * spare on either side for a fine or coarse hole (common practice, no source; the standard heads lie within, which a test shows).
 */
const outerBounds: Range = { low: 1.35, high: 2.1 };
const holeBounds: Range = { low: 1.02, high: 1.2 };
const meanBounds: Range = { low: 1.2, high: 1.65 };

/** The washer face of an inch hexagon is at least this share of its width across flats (ASME B18.2.1, from memory). */
const washerFace: Range = { low: 0.95, high: 1 };

/** The ring a head of this kind bears on with this thread, in a hole of the medium series; bounds where no standard tells. */
export function bearingOf(thread: Thread, head: Head | null): Bearing {
  const found = head === null ? null : standardRing(thread, head);
  if (found === null) {
    const by = (bounds: Range): Range => scaled(bounds, thread.diameter);
    return { outer: by(outerBounds), hole: by(holeBounds), mean: by(meanBounds), standard: false };
  }
  const [outer, hole] = found;
  const mean = { low: (outer.low + hole) / 2, high: (outer.high + hole) / 2 };
  return { outer, hole: exactly(hole), mean, standard: true };
}

function standardRing(thread: Thread, head: Head): readonly [outer: Range, hole: number] | null {
  if (thread.system === "unified") {
    const found = head === "hexagon" ? inchHeads[thread.size] : undefined;
    return found ? [scaled(washerFace, found[0] * 0.0254), found[1] * 0.0254] : null;
  }
  const outer = {
    hexagon: hexagonHeads[thread.size]?.[1],
    socket: socketHeads[thread.size],
    flange: flangeHeads[thread.size],
  };
  const [face, hole] = [outer[head], clearanceHoles[thread.size]];
  return face === undefined || hole === undefined ? null : [exactly(face * 1e-3), hole * 1e-3];
}
