/**
 * Tolerances and ranges as they are written elsewhere, and how they are written here: `20-25`, `30 ± 10 % N·m`, `(30 ± 3) N·m`,
 * `30 + 3 / - 1`, `+3/0`, a deviation on one side alone, a mixed fraction with a hyphen.
 */
import type { IToken } from "chevrotain";
import type { Problem } from "./statement";
import * as t from "./tokens";

const NUMBER = String.raw`(?:\d+(?:\.\d+)?|\.\d+)`;
const MINUS = "[-−–—]";
const UNIT = String.raw`[\p{L}°µ][^\s{}()",]*`;
const PLUS_MINUS = String.raw`(?:±|\+/-|\+-)`;

interface Slip {
  readonly pattern: RegExp;
  readonly message: string;
  /** What is meant, where that is certain. */
  readonly instead?: (groups: Readonly<Record<string, string>>) => string;
}

const slip = (pattern: string): RegExp => new RegExp(pattern, "gu");

/** In the order in which they are tried: what says more comes first. */
const SLIPS: readonly Slip[] = [
  {
    pattern: slip(
      `(?<value>${NUMBER}) ?(?<tolerance>${PLUS_MINUS} ?${NUMBER} ?%|\\+${NUMBER}%? ?/? ?-${NUMBER} ?%) ?(?<unit>${UNIT})`,
    ),
    message: "share-before-unit",
    instead: ({ value, tolerance, unit }) => `${value} ${unit} ${tolerance}`,
  },
  {
    pattern: slip(`\\( ?(?<value>${NUMBER} ?(?:${PLUS_MINUS} ?${NUMBER}|\\+${NUMBER} ?/? ?-${NUMBER})) ?\\)`),
    message: "tolerance-in-brackets",
    instead: ({ value }) => `${value}`,
  },
  {
    pattern: slip(
      `(?:\\+|±) ?(?<upper>${NUMBER})(?<unit> ?${UNIT})? ?(?:[,;/] ?)?${MINUS} ?(?<lower>${NUMBER})`,
    ),
    message: "deviations",
    instead: ({ upper, unit = "", lower }) => `+${upper}${unit}/-${lower}`,
  },
  {
    pattern: slip(`\\+ ?(?<upper>${NUMBER}) ?(?:[,;/] ?| )${PLUS_MINUS}?0(?:\\.0+)?(?![\\d.])`),
    message: "deviations",
    instead: ({ upper }) => `+${upper}/-0`,
  },
  {
    pattern: slip(`(?<![\\d.])0(?:\\.0+)? ?(?:[,;/] ?| )${MINUS} ?(?<lower>${NUMBER})`),
    message: "deviations",
    instead: ({ lower }) => `+0/-${lower}`,
  },
  {
    pattern: slip(`(?<![\\d./])(?<whole>\\d+)[-–](?<part>\\d+/\\d+)(?![\\d.])`),
    message: "mixed-fraction",
    instead: ({ whole, part }) => `${whole} ${part}`,
  },
  {
    pattern: slip(`(?<low>${NUMBER})(?:${MINUS}| [–—] )(?<high>${NUMBER})`),
    message: "range-by-dash",
    instead: ({ low, high }) => `${low} to ${high}`,
  },
  { pattern: slip(`(?<deviation>[+−-] ?${NUMBER})(?: ?(?:${UNIT}|%))?`), message: "one-deviation" },
];

/** Two deviations as they are written here. */
const RIGHT = slip(`(?<=[ °%\\p{L}\\d])[+−-]${NUMBER}(?: ?(?:${UNIT}|%))? ?/? ?[+−-]${NUMBER}`);

/**
 * The slip of a line whose reading stopped at `found` (null: at its end), if it lies there; undefined where it is another. Only what
 * stands outside of texts is looked at.
 */
export function toleranceSlip(tokens: readonly IToken[], found: IToken | null): Problem | undefined {
  const stop = found ? tokens.indexOf(found) : tokens.length;
  const bound = secondLimit(tokens, found, stop);
  if (bound) return bound;
  const text = outsideTexts(tokens);
  const at = found?.startOffset ?? text.length;
  // Reading stops within what it stumbles over, or behind it and its unit.
  const from = tokens[Math.max(0, stop - 2)]?.startOffset ?? 0;
  const right = [...text.matchAll(RIGHT)].map(
    (match) => [match.index, match.index + match[0].length] as const,
  );
  for (const { pattern, message, instead } of SLIPS) {
    for (const match of text.matchAll(pattern)) {
      const end = match.index + match[0].length;
      if (match.index > at || end <= from) continue;
      const meant = instead?.(match.groups ?? {});
      if (
        !meant?.includes("%") &&
        right.some(([begin, until]) => match.index >= begin && match.index < until)
      )
        continue;
      if (message === "one-deviation" && !followsFigure(tokens, match.index)) continue;
      const span = { start: match.index, end };
      const args = { found: match[0].trim(), instead: meant ?? both(match.groups?.deviation ?? "") };
      return { message, args, span, ...(meant === undefined ? {} : { replace: { span, text: meant } }) };
    }
  }
  return undefined;
}

/** A tolerance beside a bound, or in a range. */
function secondLimit(tokens: readonly IToken[], found: IToken | null, stop: number): Problem | undefined {
  if (!found) return undefined;
  const before = tokens.slice(0, stop).map(({ image }) => image);
  const figures = before.findLastIndex((image) => /^(?:over|under|about|least|most|to)$/.test(image));
  const inReach = figures >= 0 && before.slice(figures + 1).every((image) => !/^[",{]/.test(image));
  const tolerance = found.tokenType === t.PlusMinus || found.tokenType === t.Upwards;
  const second = found.image === "to" && before.slice(-4).some((image) => /^(?:[±+]|\+\/?-)/.test(image));
  if (!(tolerance && inReach) && !second) return undefined;
  const word = before[figures] as string;
  const args = {
    found: found.image,
    word: second ? "±" : word === "least" || word === "most" ? `at ${word}` : word,
  };
  const span = { start: found.startOffset, end: t.tokenEnd(found) };
  return { message: "second-limit", args, span };
}

/** The line with its texts blanked, so that places stay. */
function outsideTexts(tokens: readonly IToken[]): string {
  let text = "";
  for (const token of tokens) {
    const { tokenType, image } = token;
    const shown =
      tokenType === t.Text || tokenType === t.OpenText || tokenType === t.DateToken
        ? " ".repeat(image.length)
        : image;
    text = text.padEnd(token.startOffset) + shown;
  }
  return text;
}

/** Whether what stands at a place follows a figure, as a deviation does. */
function followsFigure(tokens: readonly IToken[], at: number): boolean {
  const index = tokens.findIndex(({ startOffset }) => startOffset >= at);
  return tokens.slice(Math.max(0, index - 3), Math.max(0, index)).some((one) => one.tokenType === t.Numeral);
}

/** The deviation with nought on the other side. */
function both(deviation: string): string {
  const number = deviation.replace(/^[+−-] ?/, "");
  return deviation.startsWith("+") ? `+${number}/-0` : `+0/-${number}`;
}
