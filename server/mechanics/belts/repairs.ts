/**
 * The one small change that makes an unsound layout sound: what a writer most likely meant.
 */
import { type Layout, layoutProblems, type Pulley } from "./layout";
import { pathAsSaid } from "./path";
import type { Round } from "./plane";

/** Pulleys by their place in the layout. */
export type Repair =
  /** These two stand in each other's place in the order of the path. */
  | { readonly kind: "swap"; readonly pulleys: readonly [number, number] }
  /** The belt touches this one with its other face. */
  | { readonly kind: "side"; readonly pulley: number };

/** Whether a layout is sound, walked as it says (either way where it does not say), with every pulley touched. */
export function isWhole(layout: Layout): boolean {
  if (layoutProblems(layout).length > 0) return false;
  // A crossed belt touches both its pulleys with its inner face.
  const { pulleys } = layout;
  if (pulleys.some((p) => p.against) && pulleys.some((p) => p.side === "back")) return false;
  const rounds: readonly Round[] = layout.round ? [layout.round] : ["clockwise", "anticlockwise"];
  return rounds.some((round) => {
    const path = pathAsSaid(layout.pulleys, round);
    return path?.sound === true && path.wraps.every((wrap) => wrap.angle > 0);
  });
}

/**
 * Every single change of side, then every swap of two pulleys in the order, that makes a layout whole; none where it is
 * so already. Swapping two of three only turns the path round, so it is offered only where a way round is said.
 */
export function repairs(layout: Layout): readonly Repair[] {
  if (isWhole(layout)) return [];
  const { pulleys } = layout;
  const sides = pulleys.flatMap((_, pulley): Repair[] =>
    isWhole({ ...layout, pulleys: turnedOver(pulleys, pulley) }) ? [{ kind: "side", pulley }] : [],
  );
  const swaps = pulleys.flatMap((_, a) =>
    pulleys.slice(a + 1).flatMap((__, after): Repair[] => {
      const b = a + 1 + after;
      return isWhole({ ...layout, pulleys: swapped(pulleys, a, b) })
        ? [{ kind: "swap", pulleys: [a, b] }]
        : [];
    }),
  );
  return [...sides, ...swaps];
}

function turnedOver(pulleys: readonly Pulley[], which: number): readonly Pulley[] {
  return pulleys.map((pulley, index) =>
    index === which ? { ...pulley, side: pulley.side === "inside" ? "back" : "inside" } : pulley,
  );
}

function swapped(pulleys: readonly Pulley[], a: number, b: number): readonly Pulley[] {
  return pulleys.map((pulley, index) =>
    index === a ? (pulleys[b] ?? pulley) : index === b ? (pulleys[a] ?? pulley) : pulley,
  );
}
