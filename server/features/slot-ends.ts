/**
 * Where what fills a slot of a form may end, over the words of a line that need not be finished.
 */
import type { SlotElement } from "../../grammar";

/** One word of a line as the lexer gives it. */
export interface Token {
  readonly image: string;
}

/** How a slot may be read from a place on. */
export interface SlotReading {
  /** The places after it; none where it does not fit. */
  readonly ends: readonly number[];
  /** What the words break off before: a further name of a list, or the unit of a figure. */
  readonly breaksOff: "further" | "unit" | null;
}

interface Words {
  readonly tokens: readonly Token[];
  /** Words that begin something else and so are no unit. */
  readonly stops: ReadonlySet<string>;
}

const NONE: SlotReading = { ends: [], breaksOff: null };
const BOUNDS: ReadonlySet<string> = new Set(["over", "under", "about"]);
const SECONDS: ReadonlySet<string> = new Set(["to", "±", "+/-", "+-"]);
/** Words before a unit that say whose unit it is: only behind them a unit has more words. */
const SYSTEMS: ReadonlySet<string> = new Set(["US", "UK", "imp"]);

const isWord = (image: string): boolean => /^[\p{L}_]/u.test(image);
const isUnit = (image: string): boolean => isWord(image) || /^[°%Ω′″]/.test(image);
const isSigned = (image: string): boolean => /^[-−+]\.?\d/.test(image);
const isNumeral = (image: string): boolean => /^[-−+]?\.?\d/.test(image);

/** Reads what fills a slot, from a word that is there. */
export function readSlot(slot: SlotElement, words: Words, at: number): SlotReading {
  const image = (index: number): string => words.tokens[index]?.image ?? "";
  const one = (fits: boolean): SlotReading => (fits ? { ends: [at + 1], breaksOff: null } : NONE);
  switch (slot.kind) {
    case "NAME":
      return one(isWord(image(at)));
    case "NAMES":
      return readNames(words, at);
    case "TEXT":
      return one(image(at).startsWith('"'));
    case "QUANTITY":
      return readQuantity(words, at);
    case "POINT":
      return readPoint(words, at);
    case "COUNT":
      return one(isNumeral(image(at)) || isWord(image(at)));
    case "HOLES":
      return readHoles(words, at);
    case "OUTCOME":
      if (image(at) === "not") return image(at + 1) === "met" ? { ends: [at + 2], breaksOff: null } : NONE;
      return one(isWord(image(at)));
    case "CHOICE":
      return one(slot.accepts.includes(image(at)));
    default:
      return one(!",{}()".includes(image(at)));
  }
}

function readNames({ tokens }: Words, at: number): SlotReading {
  const ends: number[] = [];
  let end = at;
  while (isWord(tokens[end]?.image ?? "")) {
    ends.push(end + 1);
    if (tokens[end + 1]?.image !== ",") return { ends, breaksOff: null };
    end += 2;
  }
  return { ends, breaksOff: ends.length > 0 && end === tokens.length ? "further" : null };
}

function readHoles({ tokens }: Words, at: number): SlotReading {
  const image = (index: number): string => tokens[index]?.image ?? "";
  const ends: number[] = [];
  let end = at;
  while (isNumeral(image(end))) {
    end++;
    if (image(end) === "to" && isNumeral(image(end + 1))) end += 2;
    ends.push(end);
    if (image(end) !== ",") break;
    end++;
  }
  return { ends, breaksOff: null };
}

function readPoint(words: Words, at: number): SlotReading {
  const first = readQuantity(words, at);
  const seconds = first.ends
    .filter((end) => words.tokens[end]?.image === ",")
    .map((end) => readQuantity(words, end + 1));
  return joined([{ ends: [], breaksOff: first.breaksOff }, ...seconds]);
}

function joined(readings: readonly SlotReading[]): SlotReading {
  return {
    ends: [...new Set(readings.flatMap((r) => r.ends))],
    breaksOff: readings.find((r) => r.breaksOff !== null)?.breaksOff ?? null,
  };
}

function readQuantity(words: Words, at: number): SlotReading {
  const image = (index: number): string => words.tokens[index]?.image ?? "";
  let from = at;
  if (BOUNDS.has(image(at))) from += 1;
  else if (image(at) === "at" && (image(at + 1) === "least" || image(at + 1) === "most")) from += 2;
  const first = readFigures(words, from);
  const seconds = first.ends
    .filter((end) => SECONDS.has(image(end)))
    .map((end) => readFigures(words, end + 1));
  const whole = joined([first, ...seconds, ...first.ends.map((end) => readDeviations(words, end))]);
  const others = whole.ends.filter((end) => image(end) === "(").map((end) => readQuantity(words, end + 1));
  const closed = others.flatMap((o) => o.ends.filter((end) => image(end) === ")").map((end) => end + 1));
  return joined([
    whole,
    { ends: closed, breaksOff: others.find((o) => o.breaksOff !== null)?.breaksOff ?? null },
  ]);
}

/** `+3/-1`, `+3 -1 N·m`. */
function readDeviations(words: Words, at: number): SlotReading {
  const image = (index: number): string => words.tokens[index]?.image ?? "";
  if (!isSigned(image(at))) return NONE;
  const upper = isUnit(image(at + 1)) ? at + 2 : at + 1;
  const lower = image(upper) === "/" ? upper + 1 : upper;
  return isSigned(image(lower)) ? readFigures(words, lower) : NONE;
}

/** Figures with their units: `47`, `47 N·m`, `3 h 30 min`. */
function readFigures(words: Words, at: number): SlotReading {
  const image = (index: number): string => words.tokens[index]?.image ?? "";
  if (!isNumeral(image(at))) return NONE;
  const unit = at + 1;
  if (unit === words.tokens.length) return { ends: [], breaksOff: "unit" };
  const most = unit + (SYSTEMS.has(image(unit)) ? 3 : 1);
  let end = unit;
  while (end < most && isUnit(image(end)) && !words.stops.has(image(end))) end++;
  const further = end > unit ? readFigures(words, end) : NONE;
  return joined([{ ends: [end], breaksOff: null }, further]);
}
