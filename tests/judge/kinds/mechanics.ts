/**
 * Wrong changes to what a fastener says of itself. What is wrong about a torque is proved by a bound of the judge's own, far beyond
 * any friction: it shares no formula with the checker.
 */

import { blockAt, type Change, edited, headsAround, type Kind, linesOf, matches, type Site } from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";
import { onLines } from "./figures";

/** Stress areas of coarse threads in mm² (ISO 898-1, table 4), by diameter in mm. */
const STRESS_AREA: Readonly<Record<string, number>> = {
  5: 14.2,
  6: 20.1,
  8: 36.6,
  10: 58,
  12: 84.3,
  14: 115,
  16: 157,
};

/**
 * A torque over this share of diameter × area × strength has no explanation: with µ 0.35 and the widest head it is just that much even
 * if the bolt bore its whole strength while it is twisted.
 */
const BEYOND = 0.5;

/** No bolt of a class is so much stronger than its name says (8.8: by its greatest hardness 1030 to 1080 MPa, ISO 898-1). */
const STRONGEST = 1.35;

/** The torque, in N·m, that tears any bolt with these lines; null where thread or class is not said as the judge knows them. */
function tearing(block: readonly string[]): number | null {
  const said = block.map(bareLine).join("\n").replace(/ +/g, " ");
  const diameter = /^thread M(\d+)(?: x [\d.]+)?$/m.exec(said)?.[1] ?? "";
  const strength = Number(/^class (\d+)\.\d$/m.exec(said)?.[1]) * 100;
  const area = STRESS_AREA[diameter];
  // A fine thread of the same size has up to a seventh more.
  return area && strength ? (BEYOND * STRONGEST * 1.15 * Number(diameter) * area * strength) / 1000 : null;
}

/** A kind that changes a torque, where it is then proved to tear the bolt. */
const tearingKind = (
  name: string,
  times: number,
  codes: readonly string[],
  change: (line: string, figure: string) => string,
): Kind => ({
  name,
  proof: "more than any bolt of the size bears at any friction",
  sites: (source: Source): Site[] =>
    Object.keys(source.texts).flatMap((file) => {
      const lines = linesOf(source, file);
      return matches(source, file, /^(?:tighten|stage [\w-]+) (\d+(?:\.\d+)?) N·m(?! \()/).map(
        ({ at, match }) =>
          (): Change | null => {
            const head = headsAround(lines, at)[0];
            const most = head === undefined ? null : tearing(lines.slice(head + 1, blockAt(lines, head)));
            const figure = match[1] as string;
            if (most === null || Number(figure) * times <= most) return null;
            const texts = edited(source, file, new Map([[at, change(lines[at] as string, figure)]]));
            return { texts, codes, file, lines: [at] };
          },
      );
    }),
});

const ORDER = /^order (\d+(?:, \d+){2,})/;

export const MECHANICS_KINDS: readonly Kind[] = [
  tearingKind("decimal slipped", 10, ["slipped-decimal"], (line, figure) =>
    line.replace(figure, String(Number((Number(figure) * 10).toPrecision(12)))),
  ),
  // So nearly ten times as much that it may as well be a slipped decimal.
  tearingKind("unit taken for another", 9.8, ["torque-too-high", "slipped-decimal"], (line) =>
    line.replace("N·m", "kgf·m"),
  ),
  onLines("class that is none", "there is no class 8.9", /^class 8\.8$/, ["thread-unknown"], (line) =>
    line.replace("8.8", "8.9"),
  ),
  onLines(
    "pitch that is none",
    "no M8 is made with a pitch of 1.5",
    /^thread M8$/,
    ["thread-unknown"],
    (line) => line.replace("M8", "M8 x 1.5"),
  ),
  onLines(
    "hole left out of an order",
    "the order then has one fewer than before",
    ORDER,
    ["order-skips"],
    (line) => line.replace(/, \d+(?=\s*$)/, ""),
  ),
  onLines(
    "hole twice in an order",
    "its first hole comes again at the end",
    ORDER,
    ["order-repeats"],
    (line, match) => line.replace(/(\d)(\s*)$/, `$1, ${(match[1] as string).split(",")[0]}$2`),
  ),
];
