/**
 * What a belt or chain runs round, in figures, and what is wrong with such figures before any path is sought.
 */
import { distance, type Point, type Round } from "./plane";

/** One pulley, roller or sprocket. Lengths in millimetres. */
export interface Pulley {
  /** Its centre in the view. */
  readonly centre: Point;
  /** To the pitch line: where the belt neither stretches nor shortens as it bends. */
  readonly radius: number;
  /** Whether the belt touches it with its inner face or with its back. */
  readonly side: "inside" | "back";
  /** In a crossed belt: turned against the others, though the belt touches it with its inner face, as it is turned over in between. */
  readonly against?: boolean;
  readonly teeth: number | null;
  /** The length of belt laid round it once, where that is not 2π times the radius: pitch × teeth of a chain. */
  readonly around?: number;
  /** A tensioner's whole travel; 0 for one that stays put. */
  readonly travel: number;
}

/** The pulleys of one belt in the order of its path, closed. */
export interface Layout {
  readonly pulleys: readonly Pulley[];
  /** The way round the path is walked, as seen in the view; null where nobody says. */
  readonly round: Round | null;
}

/** Why there is no path. Pulleys are told by their place in the layout, from 0. */
export type LayoutProblem =
  | { readonly kind: "too-few" | "too-many"; readonly count: number }
  /** Not a number, beyond all measure, nought or less where there must be something. */
  | { readonly kind: "bad-figure"; readonly pulley: number; readonly figure: Figure }
  | { readonly kind: "coincident"; readonly pulleys: readonly [number, number] }
  /** Two pitch circles run into each other by so many millimetres, so that no belt passes between or round them. */
  | { readonly kind: "overlap"; readonly pulleys: readonly [number, number]; readonly by: number }
  /** A belt needs at least two pulleys within it; so many are. (Two alone may be crossed: one within, one not.) */
  | { readonly kind: "cannot-close"; readonly inside: number };

export type Figure = "centre" | "diameter" | "teeth" | "travel" | "around";

/** The most pulleys one path is worked out for. */
export const MOST_PULLEYS = 12;
/** A hundred kilometres: no machine is larger, and no figure below it loses digits that matter. */
const LARGEST = 1e8;
/** A thousandth of a millimetre: no pulley is smaller. */
const SMALLEST = 1e-3;
/** Pitch circles may run into each other by this share of their radii: rounding, not overlap. */
const ROUNDING = 1e-9;

/** Everything that is wrong with the figures of a layout, in the order of its pulleys; none means that a path can be sought. */
export function layoutProblems({ pulleys }: Layout): readonly LayoutProblem[] {
  const count = pulleys.length;
  if (count < 2) return [{ kind: "too-few", count }];
  if (count > MOST_PULLEYS) return [{ kind: "too-many", count }];
  const figures = pulleys.flatMap((pulley, index) =>
    badFigures(pulley).map((figure): LayoutProblem => ({ kind: "bad-figure", pulley: index, figure })),
  );
  if (figures.length > 0) return figures;
  const clashes = clashesOf(pulleys);
  if (clashes.length > 0) return clashes;
  const inside = pulleys.filter((p) => p.side === "inside").length;
  return inside < (count > 2 ? 2 : 1) ? [{ kind: "cannot-close", inside }] : [];
}

const measured = (figure: number): boolean => Number.isFinite(figure) && Math.abs(figure) <= LARGEST;
const sized = (figure: number): boolean => measured(figure) && figure >= SMALLEST;

function badFigures({ centre, radius, teeth, around, travel }: Pulley): Figure[] {
  const bad: Figure[] = [];
  if (!measured(centre.x) || !measured(centre.y)) bad.push("centre");
  if (!sized(radius)) bad.push("diameter");
  if (teeth !== null && !(Number.isSafeInteger(teeth) && teeth > 0)) bad.push("teeth");
  if (around !== undefined && !sized(around)) bad.push("around");
  if (!measured(travel) || travel < 0) bad.push("travel");
  return bad;
}

function clashesOf(pulleys: readonly Pulley[]): LayoutProblem[] {
  return pulleys.flatMap((a, i) =>
    pulleys.slice(i + 1).flatMap((b, after): LayoutProblem[] => {
      const pair = [i, i + 1 + after] as const;
      const apart = distance(a.centre, b.centre);
      const needed = a.radius + b.radius;
      if (apart === 0) return [{ kind: "coincident", pulleys: pair }];
      return apart < needed * (1 - ROUNDING) ? [{ kind: "overlap", pulleys: pair, by: needed - apart }] : [];
    }),
  );
}
