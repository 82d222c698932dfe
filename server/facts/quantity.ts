/**
 * A quantity as written → a quantity with its units known, or what is wrong with it. A unit is looked up only here,
 * where the line's form asks for a quantity.
 */
import type { RawFigure, RawQuantity, Span } from "../../grammar";
import { type Amount, makeAmount, sumAmounts } from "../units/amount";
import { parseDecimal } from "../units/decimal";
import { type Kind, sameDimension } from "../units/dimension";
import { findUnit, nearestUnit } from "../units/lookup";
import { makeQuantity, type Quantity, type Shape } from "../units/quantity";
import { deviationFrom } from "../units/tolerance";
import type { Unit } from "../units/unit";

/** What is wrong with the writing of a quantity; `wrong-dimension` where the unit is known and does not fit. */
export interface QuantityProblem {
  readonly code: "bare-number" | "unknown-unit" | "wrong-dimension" | "share-of-temperature" | "bad-number";
  readonly span: Span;
  readonly found: string;
  /** The nearest unit, or the kinds that fit. */
  readonly instead: string;
}

interface Reading {
  readonly quantity: Quantity | null;
  readonly problems: readonly QuantityProblem[];
}

/**
 * Reads a quantity. `accepts` are the kinds of quantity that fit (empty: any). Where anything is wrong the quantity
 * is null, so nothing further is worked out from it.
 */
export function readQuantity(raw: RawQuantity, accepts: readonly string[], span: Span, text = ""): Reading {
  const problems: QuantityProblem[] = [];
  const kind = accepts[0] as Kind | undefined;
  const further = furtherOf(raw);
  const unit = unitOf([...raw.first, ...further.flat()], kind, raw, problems);
  const shareAlone = unit?.kind === "percentage" && lacksUnit(raw, further, accepts);
  if (shareAlone) problems.push(bareNumber(raw.first, kind, raw));
  const first = amountOf(raw.first, shareAlone ? null : unit, kind, problems);
  const [second, third] = further.map((figures) => amountOf(figures, unit, kind, problems));
  const other = raw.other ? readQuantity(raw.other, accepts, raw.other.span) : null;
  problems.push(...(other?.problems ?? []));
  const main = first?.unit ?? (shareAlone ? null : unit);
  if (main && accepts.length > 0 && !accepts.some((a) => sameDimension(a as Kind, main.kind)))
    problems.push({ code: "wrong-dimension", span, found: main.print, instead: accepts.join(" or ") });
  if (problems.length > 0 || !first) return { quantity: null, problems };
  const quantity = makeQuantity({
    shape: shapeOf(raw),
    first,
    ...(second ? { second } : {}),
    ...(third ? { third } : {}),
    lowIncluded: raw.relation !== "over",
    highIncluded: true,
    text,
    other: other?.quantity ?? null,
  });
  if (!quantity) problems.push(pairProblem(raw, first, [second, third], span));
  return { quantity, problems };
}

/** The figures behind the first one, in the order they are written. */
function furtherOf({ second, tolerance, deviations }: RawQuantity): readonly (readonly RawFigure[])[] {
  if (deviations) return deviations.map((figure) => [figure]);
  return [second, tolerance].filter((figures) => figures.length > 0);
}

function shapeOf(raw: RawQuantity): Shape {
  if (raw.second.length > 0) return "range";
  if (raw.deviations) return "deviations";
  return raw.tolerance.length > 0 ? "tolerance" : raw.relation;
}

/** `30 ± 10 %`, where no percentage is asked for: the value has lost its unit. */
function lacksUnit(
  raw: RawQuantity,
  further: readonly (readonly RawFigure[])[],
  accepts: readonly string[],
): boolean {
  const tolerates = raw.second.length === 0 && further.length > 0;
  const wanted = accepts.length > 0 && !accepts.includes("percentage");
  return tolerates && wanted && raw.first.every(({ unit }) => unit === null);
}

const bareNumber = (
  figures: readonly RawFigure[],
  kind: Kind | undefined,
  raw: RawQuantity,
): QuantityProblem => ({
  code: "bare-number",
  span: raw.first[0]?.span ?? raw.span,
  found: figures[0]?.number ?? "",
  instead: kind ?? "",
});

/** Two figures that cannot stand side by side: of two kinds, or a share of a temperature, which has no nought of its own. */
function pairProblem(
  raw: RawQuantity,
  first: Amount,
  further: readonly (Amount | null | undefined)[],
  span: Span,
): QuantityProblem {
  const unfit = further.find((one) => one && (raw.second.length > 0 || deviationFrom(first, one) === null));
  const share = raw.second.length === 0 && unfit?.unit.kind === "percentage";
  return {
    code: share ? "share-of-temperature" : "wrong-dimension",
    span,
    found: share ? raw.first.map((figure) => figure.number).join(" ") : (unfit?.unit.print ?? ""),
    instead: share ? first.unit.print : first.unit.kind,
  };
}

/** The unit that figures without one of their own take: the last one written. */
function unitOf(
  figures: readonly RawFigure[],
  kind: Kind | undefined,
  raw: RawQuantity,
  problems: QuantityProblem[],
): Unit | null {
  const written = [...figures].reverse().find((f) => f.unit !== null);
  if (!written) {
    problems.push(bareNumber(figures, kind, raw));
    return null;
  }
  return findUnit(written.unit as string, kind) ?? null;
}

function amountOf(
  figures: readonly RawFigure[],
  unit: Unit | null,
  kind: Kind | undefined,
  problems: QuantityProblem[],
): Amount | null {
  const amounts: Amount[] = [];
  for (const figure of figures) {
    const own = figure.unit === null ? unit : (findUnit(figure.unit, kind) ?? null);
    if (!own && figure.unit !== null) {
      problems.push({
        code: "unknown-unit",
        span: figure.unitSpan ?? figure.span,
        found: figure.unit,
        instead: nearestUnit(figure.unit, kind)?.print ?? "",
      });
    }
    const decimal = parseDecimal(figure.number);
    if (!decimal) problems.push({ code: "bad-number", span: figure.span, found: figure.number, instead: "" });
    if (own && decimal) amounts.push(makeAmount(decimal, own));
  }
  if (amounts.length === 0) return null;
  const sum = sumAmounts(amounts);
  if (!sum)
    problems.push({
      code: "bad-number",
      span: figures[0]?.span ?? { start: 0, end: 0 },
      found: figures.map((f) => `${f.number} ${f.unit}`).join(" "),
      instead: "",
    });
  return sum;
}
