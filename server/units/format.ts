/**
 * Amounts and quantities as text for people: `47 N·m (35 lb·ft)`, with no-break spaces where a line must not
 * part a figure from its unit; and in the plain spelling of the language itself.
 */

import { type Amount, convertTogether } from "./amount";
import { otherUnit } from "./beside";
import type { Decimal } from "./decimal";
import { differenceUnit } from "./lookup";
import { makeQuantity, type Quantity, type Shape } from "./quantity";
import { isShare } from "./tolerance";
import type { Unit } from "./unit";

/**
 * The words around figures, as templates: `{0}` the first figure, `{1}` the second, `{2}` the third. A translation of
 * the sheet gives its own.
 */
export type QuantityWords = Readonly<
  Record<Shape | "range-over" | "range-under" | "range-between" | "beside", string>
>;

/** The words of the language itself. */
export const sourceWords: QuantityWords = {
  exact: "{0}",
  range: "{0} to {1}",
  "range-over": "over {0} to {1}",
  "range-under": "{0} to under {1}",
  "range-between": "over {0} to under {1}",
  "at-least": "at least {0}",
  "at-most": "at most {0}",
  over: "over {0}",
  under: "under {0}",
  tolerance: "{0}\u00a0±\u00a0{1}",
  deviations: "{0}\u00a0{1}/{2}",
  about: "about {0}",
  beside: "{0} ({1})",
};

/** How figures are spelled. Everything may be left out. */
export interface FigureStyle {
  /** Ordinary spaces and hyphens for minus, as in a source file. */
  readonly plain?: boolean;
  /** The decimal mark; a full stop. */
  readonly point?: string;
  /** Words for units that are words (`turn`, `day`), in another language; undefined keeps the usual spelling. */
  readonly spell?: (unit: Unit, value: number) => string | undefined;
}

/** How quantities are spelled. */
export interface QuantityStyle extends FigureStyle {
  /**
   * Which side of the workshop is shown. Left out: as written. A figure the writer gave is never replaced by
   * a worked-out one; one that has no partner stays as it is.
   */
  readonly units?: "metric" | "imperial" | "both";
  readonly words?: QuantityWords;
}

/** A number: `.020` gets its nought, a hyphen becomes a minus sign unless the style is plain. */
export function formatDecimal(decimal: Decimal, style: FigureStyle = {}): string {
  const text = decimal.text
    .replace(/^(?<sign>[+\-\u2212]?)\./, "$<sign>0.")
    .replace(/(\d)[ \u00a0-](?=\d+\/)/, "$1\u00a0")
    .replace(/^[-\u2212]/, "\u2212")
    .replace(".", style.point ?? ".");
  return style.plain ? unbind(text) : text;
}

/** A figure with its unit: `47 N·m`, `60°`, `1/6 turn`, `3 h 30 min`. */
export function formatAmount(amount: Amount, style: FigureStyle = {}): string {
  if (amount.parts !== undefined) {
    const text = amount.parts.map((part) => formatAmount(part, style)).join("\u00a0");
    return style.plain ? unbind(text) : text;
  }
  const { unit, decimal } = amount;
  const size = Math.abs(decimal.value);
  const usual = size > 1 || size === 0 ? (unit.plural ?? unit.print) : unit.print;
  const name = style.spell?.(unit, decimal.value) ?? usual;
  const text = `${formatDecimal(decimal, style)}${unit.tight ? "" : "\u00a0"}${name}`;
  return style.plain ? unbind(text) : text;
}

/** A quantity in words and figures, in the units the style asks for. */
export function formatQuantity(quantity: Quantity, style: QuantityStyle = {}): string {
  const words = style.words ?? sourceWords;
  const [own, beside] = shown(quantity, style.units);
  const text = formatOne(own, words, style);
  const both = beside === null ? text : fill(words.beside, [text, formatOne(beside, words, style)]);
  return style.plain ? unbind(both) : both;
}

/**
 * A quantity in another unit, each figure as exact as the writer meant it (see `convertTogether`); a share of the value stays the share it
 * is. Its text is the plain spelling. Null where the kinds differ or nothing finite comes out.
 */
export function convertQuantity(quantity: Quantity, unit: Unit): Quantity | null {
  const { shape, lowIncluded, highIncluded } = quantity;
  const figures = figuresOf(quantity);
  const stays = (index: number): boolean => isDeviation(quantity, index) && isShareAt(figures, index);
  const moved = figures.filter((_, index) => !stays(index));
  const targets = moved.map((figure, index) => {
    const target = index > 0 && shape !== "range" ? differenceUnit(unit) : unit;
    return [figure, target] as const;
  });
  const converted = convertTogether(targets);
  if (converted === null) return null;
  const [first, second, third] = figures.map((figure, index) =>
    stays(index) ? figure : (converted[moved.indexOf(figure)] as Amount),
  );
  if (first === undefined) return null;
  const further = { ...(second ? { second } : {}), ...(third ? { third } : {}) };
  const made = makeQuantity({ shape, first, lowIncluded, highIncluded, text: "", ...further });
  return made && { ...made, text: formatQuantity(made, { plain: true }) };
}

const isDeviation = ({ shape }: Quantity, index: number): boolean => shape !== "range" && index > 0;

function isShareAt(figures: readonly Amount[], index: number): boolean {
  const [nominal, figure] = [figures[0], figures[index]];
  return nominal !== undefined && figure !== undefined && isShare(nominal, figure);
}

/** The same quantity in the unit of the other side: the writer's own if given, else worked out; or null. */
export function inOtherUnits(quantity: Quantity): Quantity | null {
  if (quantity.other !== null) return quantity.other;
  const sizes = figuresOf(quantity).map((figure) => Math.abs(figure.si));
  const unit = otherUnit(quantity.unit, quantity.shape === "range" ? Math.max(...sizes) : (sizes[0] ?? 0));
  return unit === null ? null : convertQuantity(quantity, unit);
}

function shown(quantity: Quantity, units: QuantityStyle["units"]): [Quantity, Quantity | null] {
  if (units === undefined) return [quantity, quantity.other];
  if (units === "both") return [quantity, inOtherUnits(quantity)];
  const wanted = [quantity, inOtherUnits(quantity)].find((one) => one?.unit.system === units);
  return [wanted ?? quantity, null];
}

/** The figures in the order they are written. */
function figuresOf(quantity: Quantity): Amount[] {
  const { shape, low, high, nominal, tolerance, deviations } = quantity;
  const written =
    shape === "tolerance"
      ? [nominal, tolerance]
      : shape === "deviations"
        ? [nominal, deviations?.upper ?? null, deviations?.lower ?? null]
        : shape === "range"
          ? [low, high]
          : [nominal ?? low ?? high];
  return written.filter((figure) => figure !== null);
}

function formatOne(quantity: Quantity, words: QuantityWords, style: FigureStyle): string {
  const figures = figuresOf(quantity);
  const texts = figures.map((figure, index) => {
    const next = figures[index + 1];
    return next !== undefined && sharesUnit(figure, next)
      ? formatDecimal(figure.decimal, style)
      : formatAmount(figure, style);
  });
  return fill(words[wordsKey(quantity)], texts);
}

/** Whether the unit stands once, behind the last figure: `44 to 50 N·m`, `90 ± 5 °C`, `30 +3/-1 N·m`, but `60° ± 5°`. */
function sharesUnit(first: Amount, second: Amount): boolean {
  if (first.parts !== undefined || second.parts !== undefined || first.unit.tight) return false;
  return first.unit === second.unit || differenceUnit(first.unit) === second.unit;
}

function wordsKey({ shape, lowIncluded, highIncluded }: Quantity): keyof QuantityWords {
  if (shape !== "range" || (lowIncluded && highIncluded)) return shape;
  if (lowIncluded) return "range-under";
  return highIncluded ? "range-over" : "range-between";
}

function fill(template: string, texts: readonly string[]): string {
  return template.replace(/\{([012])\}/g, (_, index) => texts[Number(index)] ?? "");
}

function unbind(text: string): string {
  return text
    .replace(/\u202f\/\u202f/g, "/")
    .replace(/\u00a0/g, " ")
    .replace(/\u2212/g, "-");
}
