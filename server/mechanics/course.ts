/**
 * Orders that hands follow, held against a declared one: pulleys as a belt is laid on, clips as a hose is run through.
 * Things are told by name.
 */

/** How an order stands to the declared one. */
export type CourseFound =
  /** `turned` against the declared direction; `start` is the place in the declared order where the hands begin. */
  | { readonly kind: "fits"; readonly turned: boolean; readonly start: number }
  /** The right order, walked the other way than was asked for. */
  | { readonly kind: "other-way" }
  /** Changing these two makes it fit. */
  | { readonly kind: "swapped"; readonly pair: readonly [string, string] }
  /** Not the declared order, and more than two things stand wrong. */
  | { readonly kind: "mixed" }
  /** What is left out, named twice, or not declared at all; each in the order it is met. */
  | {
      readonly kind: "incomplete";
      readonly missing: readonly string[];
      readonly repeated: readonly string[];
      readonly strange: readonly string[];
    };

/** Which directions may be taken: along the declared order, against it, or either. */
export type Way = "along" | "against" | "either";

/** A closed order, as of pulleys: the hands may begin anywhere. */
export function closedCourse(
  said: readonly string[],
  declared: readonly string[],
  way: Way = "either",
): CourseFound {
  return compared(
    said,
    declared,
    way,
    declared.map((_, start) => start),
  );
}

/** An open order, as of clips: the hands begin at one of its ends. */
export function openCourse(
  said: readonly string[],
  declared: readonly string[],
  way: Way = "either",
): CourseFound {
  return compared(said, declared, way, [0]);
}

function compared(
  said: readonly string[],
  declared: readonly string[],
  way: Way,
  starts: readonly number[],
): CourseFound {
  const incomplete = lacks(said, declared);
  if (incomplete) return incomplete;
  const along = starts.map((start) => ({ turned: false, start, order: from(declared, start) }));
  const against = starts.map((start) => {
    const back = [...declared].reverse();
    return { turned: true, start: declared.length - 1 - start, order: from(back, start) };
  });
  const wanted = way === "along" ? along : way === "against" ? against : [...along, ...against];
  const found = wanted.find(({ order }) => differing(said, order).length === 0);
  if (found) return { kind: "fits", turned: found.turned, start: Math.max(0, found.start) };
  const others = way === "either" ? [] : way === "along" ? against : along;
  if (others.some(({ order }) => differing(said, order).length === 0)) return { kind: "other-way" };
  for (const { order } of wanted) {
    const [a, b, ...more] = differing(said, order);
    if (a !== undefined && b !== undefined && more.length === 0) return { kind: "swapped", pair: [a, b] };
  }
  return { kind: "mixed" };
}

const from = (order: readonly string[], start: number): readonly string[] => [
  ...order.slice(start),
  ...order.slice(0, start),
];

/** The names that stand at another place. */
const differing = (said: readonly string[], order: readonly string[]): readonly string[] =>
  said.filter((name, index) => name !== order[index]);

function lacks(said: readonly string[], declared: readonly string[]): CourseFound | null {
  const missing = declared.filter((name) => !said.includes(name));
  const repeated = [...new Set(said.filter((name, index) => said.indexOf(name) < index))];
  const strange = [...new Set(said.filter((name) => !declared.includes(name)))];
  return missing.length + repeated.length + strange.length === 0
    ? null
    : { kind: "incomplete", missing, repeated, strange };
}
