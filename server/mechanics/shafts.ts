/**
 * Shafts that turn together, by exact fractions of a turn: ratios through belts, chains and gears, where marks stand, and
 * when they line up. Turns and angles are counted anticlockwise as seen in the view, or in any one sense kept throughout.
 */
import {
  absolute,
  commonMultiple,
  dividedBy,
  equal,
  type Fraction,
  less,
  negated,
  ONE,
  partOfTurn,
  plus,
  ratioOf,
  textOf,
  times,
  ZERO,
} from "./fractions";
import { type Progression, progression, shared } from "./progressions";

/** Two shafts that turn together. */
export interface Link {
  readonly from: string;
  readonly to: string;
  /** Turns of `to` for one of `from`; below nought where they turn against each other. */
  readonly ratio: Fraction;
}

/** Shafts sorted by what turns together. */
export interface Train {
  /** Shafts that turn together share a root; `ratio` is turns of the shaft for one of the root. */
  readonly members: ReadonlyMap<string, { readonly root: string; readonly ratio: Fraction }>;
  /** Links that contradict the ones before them, by their place; `found` is what the others make of it. */
  readonly contradictions: readonly {
    readonly link: number;
    readonly said: Fraction;
    readonly found: Fraction;
  }[];
}

/**
 * The ratio of a tooth pair: turns of the second for one of the first, z₁/z₂; gears in mesh, and pulleys on unlike sides
 * of a belt, turn against each other.
 *
 * @returns null where a count of teeth is not a whole number over nought
 */
export function toothRatio(first: number, second: number, together: boolean): Fraction | null {
  const ratio = first > 0 && second > 0 ? ratioOf(first, second) : null;
  return ratio && (together ? ratio : negated(ratio));
}

/** A pulley or sprocket that holds its belt by teeth, on a shaft. */
export interface Toothed {
  readonly shaft: string;
  readonly teeth: number;
  readonly side: "inside" | "back";
}

/** What a toothed belt or a chain makes turn together; plain pulleys slip and are left out by the caller. */
export function beltLinks(pulleys: readonly Toothed[]): readonly Link[] {
  const [first, ...others] = pulleys;
  if (!first) return [];
  return others.flatMap((other) => {
    const ratio = toothRatio(first.teeth, other.teeth, first.side === other.side);
    return ratio ? [{ from: first.shaft, to: other.shaft, ratio }] : [];
  });
}

/** Sorts shafts by what turns together. A ratio of nought links nothing. */
export function gearTrain(links: readonly Link[]): Train {
  const members = new Map<string, { root: string; ratio: Fraction }>();
  const contradictions: { link: number; said: Fraction; found: Fraction }[] = [];
  const memberOf = (shaft: string) => {
    const known = members.get(shaft) ?? { root: shaft, ratio: ONE };
    members.set(shaft, known);
    return known;
  };
  links.forEach(({ from, to, ratio }, link) => {
    const [a, b] = [memberOf(from), memberOf(to)];
    const turns = times(a.ratio, ratio);
    if (ratio.over === 0n) return;
    if (a.root === b.root) {
      const found = dividedBy(b.ratio, a.ratio);
      if (found && !equal(found, ratio)) contradictions.push({ link, said: ratio, found });
      return;
    }
    const scale = dividedBy(turns, b.ratio) ?? ONE;
    for (const [shaft, member] of members)
      if (member.root === b.root) members.set(shaft, { root: a.root, ratio: times(member.ratio, scale) });
  });
  return { members, contradictions };
}

/** Turns of `to` for one of `from`, null where they do not turn together. A shaft that is in no link turns alone. */
export function ratioBetween({ members }: Train, from: string, to: string): Fraction | null {
  if (from === to) return ONE;
  const [a, b] = [members.get(from), members.get(to)];
  return a && b && a.root === b.root ? dividedBy(b.ratio, a.ratio) : null;
}

/** Where shafts stand: their angle as part of a turn. A shaft that is not in it stands at an angle nobody knows. */
export type Standing = ReadonlyMap<string, Fraction>;

/** A mark: its shaft, and the shaft's angle, as part of a turn, at which it is in line. */
export interface Mark {
  readonly shaft: string;
  readonly at: Fraction;
}

/** Everything that turns with a shaft, moved on by so many turns of that shaft. */
export function turned(train: Train, standing: Standing, shaft: string, by: Fraction): Standing {
  return new Map(
    Array.from(standing, ([name, angle]) => {
      const ratio = ratioBetween(train, shaft, name);
      return [name, ratio ? partOfTurn(plus(angle, times(by, ratio))) : angle] as const;
    }),
  );
}

/** A shaft turned by nobody knows how much: it and all that turns with it are no longer known. */
export function lost(train: Train, standing: Standing, shaft: string): Standing {
  return new Map([...standing].filter(([name]) => ratioBetween(train, shaft, name) === null));
}

/** A shaft put to an angle alone, its belt off. */
export function putAt(standing: Standing, shaft: string, angle: Fraction): Standing {
  return new Map(standing).set(shaft, partOfTurn(angle));
}

/** How far past its place a mark stands, as part of a turn, 0 in line; null where its shaft's angle is not known. */
export function standingOf(standing: Standing, mark: Mark): Fraction | null {
  const angle = standing.get(mark.shaft);
  return angle ? partOfTurn(less(angle, mark.at)) : null;
}

/** When marks stand in line, in turns of the shaft that is turned. Marks are told by their place. */
export type InLine =
  /** At these turns of the driver, and no others. */
  | { readonly kind: "in-line"; readonly when: Progression }
  /** These two never do at the same time. */
  | { readonly kind: "never"; readonly marks: readonly [number, number] }
  /** Turning the driver does not move this one, and it is not in line. */
  | { readonly kind: "apart"; readonly mark: number }
  /** Where this one's shaft stands is not known. */
  | { readonly kind: "unknown"; readonly mark: number };

/**
 * After which turns of a driver all the marks stand in line: each does so once a turn of its own shaft, and the moments
 * they share are the answer. A mark whose shaft the driver does not move must stand in line already.
 */
export function whenInLine(train: Train, standing: Standing, marks: readonly Mark[], driver: string): InLine {
  const rows: { mark: number; row: Progression }[] = [];
  for (const [mark, { shaft, at }] of marks.entries()) {
    const angle = standing.get(shaft);
    if (!angle) return { kind: "unknown", mark };
    const row = rowOf(ratioBetween(train, driver, shaft), less(at, angle));
    if (row) rows.push({ mark, row });
    else if (!equal(partOfTurn(angle), partOfTurn(at))) return { kind: "apart", mark };
  }
  return meeting(rows);
}

/** The turns of the driver that bring a shaft on by `to`, or that and whole turns more. */
function rowOf(ratio: Fraction | null, to: Fraction): Progression | null {
  const turns = ratio && dividedBy(to, ratio);
  const every = ratio && dividedBy(ONE, absolute(ratio));
  return turns && every && progression(turns, every);
}

function meeting(rows: readonly { mark: number; row: Progression }[]): InLine {
  let when: Progression | null = null;
  for (const [index, { mark, row }] of rows.entries()) {
    const met: Progression | null = when === null ? row : shared(when, row);
    if (met === null) {
      // Rows that meet two by two meet all together, so that some one of those before it is never met.
      const other = rows.slice(0, index).find((before) => shared(before.row, row) === null);
      return { kind: "never", marks: [other?.mark ?? 0, mark] };
    }
    when = met;
  }
  return { kind: "in-line", when: when ?? { first: ZERO, every: ONE } };
}

/**
 * Everywhere a mark may stand when the moment is known only to be one of a row: after one shaft has been lined up, a
 * shaft at half its speed stands at one of two angles.
 *
 * @param ratio turns of the mark's shaft for one of the shaft the row counts
 * @param at the mark's own angle past its place at moment nought
 * @returns parts of a turn, each once, at most `most` of them
 */
export function mayStand(
  { first, every }: Progression,
  ratio: Fraction,
  at: Fraction = ZERO,
  most = 360,
): readonly Fraction[] {
  const step = times(every, ratio);
  let angle = partOfTurn(plus(at, times(first, ratio)));
  const found = new Map<string, Fraction>();
  while (found.size < most && !found.has(textOf(angle))) {
    found.set(textOf(angle), angle);
    angle = partOfTurn(plus(angle, step));
  }
  return [...found.values()];
}

/** When the printed marks of a belt come to the marks of its sprockets again. */
export interface RoundAgain {
  /** How often the belt has gone round. */
  readonly beltTurns: bigint;
  /** How often each sprocket has turned. */
  readonly sprocketTurns: readonly bigint[];
}

/**
 * After how many turns a belt and its sprockets stand as they did: the least number of teeth that is a multiple of all
 * their counts.
 *
 * @returns null where a count is not a whole number over nought
 */
export function roundAgain(beltTeeth: number, sprocketTeeth: readonly number[]): RoundAgain | null {
  const counts = [beltTeeth, ...sprocketTeeth];
  if (!counts.every((count) => Number.isSafeInteger(count) && count > 0)) return null;
  const teeth = counts.reduce((all, count) => commonMultiple(all, BigInt(count)), 1n);
  return {
    beltTurns: teeth / BigInt(beltTeeth),
    sprocketTurns: sprocketTeeth.map((count) => teeth / BigInt(count)),
  };
}
