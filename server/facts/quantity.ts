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
import type { Unit } from "../units/unit";

/** What is wrong with the writing of a quantity; `wrong-dimension` where the unit is known and does not fit. */
export interface QuantityProblem {
  readonly code: "bare-number" | "unknown-unit" | "wrong-dimension" | "bad-number";
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
  const unit = unitOf([...raw.first, ...raw.second, ...raw.tolerance], kind, raw, problems);
  const first = amountOf(raw.first, unit, kind, problems);
  const second = amountOf(raw.second.length > 0 ? raw.second : raw.tolerance, unit, kind, problems);
  const other = raw.other ? readQuantity(raw.other, accepts, raw.other.span) : null;
  problems.push(...(other?.problems ?? []));
  if (
    unit &&
    accepts.length > 0 &&
    !accepts.some((a) => sameDimension(a as Kind, (first?.unit ?? unit).kind))
  ) {
    problems.push({
      code: "wrong-dimension",
      span,
      found: (first?.unit ?? unit).print,
      instead: accepts.join(" or "),
    });
  }
  if (problems.length > 0 || !first) return { quantity: null, problems };
  const quantity = makeQuantity({
    shape: shapeOf(raw),
    first,
    ...(second ? { second } : {}),
    lowIncluded: raw.relation !== "over",
    highIncluded: true,
    text,
    other: other?.quantity ?? null,
  });
  if (!quantity)
    problems.push({
      code: "wrong-dimension",
      span,
      found: second?.unit.print ?? "",
      instead: first.unit.kind,
    });
  return { quantity, problems };
}

function shapeOf(raw: RawQuantity): Shape {
  if (raw.second.length > 0) return "range";
  if (raw.tolerance.length > 0) return "tolerance";
  return raw.relation;
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
    problems.push({
      code: "bare-number",
      span: raw.first[0]?.span ?? raw.span,
      found: figures[0]?.number ?? "",
      instead: kind ?? "",
    });
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
