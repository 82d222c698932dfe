/**
 * The Chevrotain rules for what every form is made of: names, texts, counts, quantities, points, threads. The forms
 * themselves are in `parser.ts`.
 */
import { EmbeddedActionsParser, type IToken, NoViableAltException, type ParserMethod } from "chevrotain";
import type { NameValue, RawFigure, RawQuantity, Relation, SlotContent } from "./statement";
import type { Span } from "./text";
import * as t from "./tokens";

export type Rule<T> = ParserMethod<[], T>;

/** From the first sign of one token to the last of another. */
export const spanBetween = (from: IToken, to: IToken): Span => ({
  start: from.startOffset,
  end: t.tokenEnd(to),
});

/** Rules for values; a subclass adds the forms. */
export class ValueGrammar extends EmbeddedActionsParser {
  /** Words that begin something else on this line, and so are no unit. */
  protected stops: ReadonlySet<string> = new Set();
  /** Where no alternative fitted. */
  protected misfit: IToken | null = null;

  /** Chevrotain would first work out every path that could have fitted, for a message nobody sees. */
  protected raiseNoAltException(): never {
    this.misfit = this.LA(1);
    throw new NoViableAltException("", this.LA(1), this.LA(0));
  }

  protected raiseEarlyExitException(): never {
    return this.raiseNoAltException();
  }

  protected readonly name: Rule<NameValue> = this.RULE("name", () => {
    const token = this.CONSUME(t.Word);
    return { name: token.image.normalize("NFC"), span: this.ACTION(() => spanBetween(token, token)) };
  });

  protected readonly names: Rule<NameValue[]> = this.RULE("names", () => {
    const names: NameValue[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: t.Comma, DEF: () => names.push(this.SUBRULE(this.name)) });
    return names;
  });

  protected readonly text: Rule<string> = this.RULE("text", () => unquote(this.CONSUME(t.Text).image));

  private readonly isWhole = (): boolean => /^\d+$/.test(this.LA(1).image);

  protected readonly count: Rule<number> = this.RULE("count", () =>
    this.OR([
      { GATE: this.isWhole, ALT: () => Number(this.CONSUME(t.Numeral).image) },
      { ALT: () => t.numberWords.get(this.CONSUME(t.NumberWord).image) ?? 0 },
    ]),
  );

  protected readonly holes: Rule<number[]> = this.RULE("holes", () => {
    const holes: number[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: t.Comma,
      DEF: () => {
        const from = this.SUBRULE(this.count);
        this.ACTION(() => holes.push(from));
        this.OPTION(() => {
          this.CONSUME(t.keywordType("to"));
          const to = this.SUBRULE2(this.count);
          this.ACTION(() => addRange(holes, from, to));
        });
      },
    });
    return holes;
  });

  protected readonly thread: Rule<string> = this.RULE("thread", () =>
    this.OR([
      { ALT: () => this.CONSUME(t.Thread).image },
      { ALT: () => unquote(this.CONSUME(t.Text).image) },
      { ALT: () => this.CONSUME(t.Word).image },
    ]),
  );

  protected readonly grade: Rule<string> = this.RULE("grade", () =>
    this.OR([
      { ALT: () => this.CONSUME(t.Numeral).image },
      { ALT: () => unquote(this.CONSUME(t.Text).image) },
      {
        GATE: () => this.LA(2).tokenType === t.Numeral,
        ALT: () => `${this.CONSUME(t.keywordType("grade")).image} ${this.CONSUME2(t.Numeral).image}`,
      },
      { ALT: () => this.CONSUME(t.Word).image },
    ]),
  );

  protected readonly outcome: Rule<string> = this.RULE("outcome", () =>
    this.OR([
      {
        ALT: () => {
          this.CONSUME(t.keywordType("not"));
          this.CONSUME(t.keywordType("met"));
          return "not met";
        },
      },
      { ALT: () => this.CONSUME(t.Word).image.normalize("NFC") },
    ]),
  );

  private readonly figures: Rule<RawFigure[]> = this.RULE("figures", () => {
    const figures: RawFigure[] = [];
    this.AT_LEAST_ONE({
      // The parts of a figure have one sign; a further one is a deviation.
      GATE: () =>
        figures.length === 0 || (figures[figures.length - 1]?.unit != null && !this.downwards(this.LA(1))),
      DEF: () => {
        const number = this.CONSUME(t.Numeral);
        const unit = this.SUBRULE(this.unit);
        this.ACTION(() => figures.push(figure(number, unit)));
      },
    });
    return figures;
  });

  private readonly unit: Rule<IToken[]> = this.RULE("unit", () => {
    const unit: IToken[] = [];
    this.MANY({
      GATE: () => !this.stopsAt(this.LA(1), unit) && joinsUnit(unit, this.LA(1)),
      DEF: () => {
        const word = this.OR([{ ALT: () => this.CONSUME(t.Word) }, { ALT: () => this.CONSUME(t.UnitSign) }]);
        unit.push(word);
      },
    });
    return unit;
  });

  /** `in` and `turns` begin clauses, and are units right behind a number. */
  private readonly stopsAt = ({ image }: IToken, unit: readonly IToken[]): boolean =>
    this.stops.has(image) && !(unit.length === 0 && STOPPING_UNITS.has(image));

  private readonly downwards = ({ image }: IToken): boolean => /^[-−]/.test(image);

  private readonly mayDeviate = (token: IToken): boolean =>
    token.tokenType === t.Upwards || this.downwards(token);

  /** `+3`, `-0.5 mm`. */
  private readonly deviation: Rule<RawFigure> = this.RULE("deviation", () => {
    const number = this.OR([
      { ALT: () => this.CONSUME(t.Upwards) },
      { GATE: () => this.downwards(this.LA(1)), ALT: () => this.CONSUME(t.Numeral) },
    ]);
    const unit = this.SUBRULE(this.unit);
    return this.ACTION(() => figure(number, unit));
  });

  /** `+3/-1`, `+3 -1`. */
  private readonly deviations: Rule<RawQuantity["deviations"]> = this.RULE(
    "deviations",
    (): RawQuantity["deviations"] => {
      const upper = this.SUBRULE(this.deviation);
      this.OPTION(() => this.CONSUME(t.Slash));
      const lower = this.SUBRULE2(this.deviation);
      return this.ACTION((): RawQuantity["deviations"] => [upper, lower]);
    },
  );

  private relationWord(index: number, word: string, relation: Relation): Relation {
    this.consume(index, t.keywordType(word));
    return relation;
  }

  private readonly relation: Rule<Relation> = this.RULE("relation", () =>
    this.OR([
      { ALT: () => this.relationWord(0, "over", "over") },
      { ALT: () => this.relationWord(1, "under", "under") },
      { ALT: () => this.relationWord(2, "about", "about") },
      {
        ALT: () => {
          this.consume(3, t.keywordType("at"));
          return this.OR2([
            { ALT: () => this.relationWord(4, "least", "at-least") },
            { ALT: () => this.relationWord(5, "most", "at-most") },
          ]);
        },
      },
    ]),
  );

  /** A quantity without the same in another unit behind it: brackets do not nest, so no line is too deep to read. */
  private readonly plainQuantity: Rule<RawQuantity> = this.RULE("plainQuantity", () => {
    let from: IToken | undefined;
    let relation: Relation = "exact";
    let second: RawFigure[] = [];
    let tolerance: RawFigure[] = [];
    let deviations: RawQuantity["deviations"] = null;
    this.ACTION(() => {
      from = this.LA(1);
    });
    this.OPTION(() => {
      relation = this.SUBRULE(this.relation);
    });
    const first = this.SUBRULE(this.figures);
    // A tolerance stands behind a plain value: beside a bound or in a range it would be a second limit.
    this.OPTION1({
      GATE: () => relation === "exact",
      DEF: () => {
        this.CONSUME(t.PlusMinus);
        tolerance = this.SUBRULE1(this.figures);
      },
    });
    this.OPTION3({
      GATE: () => relation === "exact" && tolerance.length === 0 && this.mayDeviate(this.LA(1)),
      DEF: () => {
        deviations = this.SUBRULE(this.deviations);
      },
    });
    this.OPTION2({
      GATE: () => tolerance.length === 0 && deviations === null,
      DEF: () => {
        this.CONSUME(t.keywordType("to"));
        second = this.SUBRULE2(this.figures);
      },
    });
    const span = this.ACTION(() => spanBetween(from as IToken, this.LA(0)));
    return { relation, first, second, tolerance, deviations, other: null, span };
  });

  protected readonly quantity: Rule<RawQuantity> = this.RULE("quantity", () => {
    let other: RawQuantity | null = null;
    const own = this.SUBRULE(this.plainQuantity);
    this.OPTION(() => {
      this.CONSUME(t.LeftParen);
      other = this.SUBRULE2(this.plainQuantity);
      this.CONSUME(t.RightParen);
    });
    if (!other) return own;
    return {
      ...own,
      other,
      span: this.ACTION(() => ({ start: own.span.start, end: t.tokenEnd(this.LA(0)) })),
    };
  });

  protected readonly point: Rule<SlotContent> = this.RULE("point", () => {
    const x = this.SUBRULE(this.quantity);
    this.CONSUME(t.Comma);
    return { kind: "point" as const, x, y: this.SUBRULE2(this.quantity) };
  });
}

/** The most holes one range may add: more is a slip, and would only eat memory. */
const MOST_HOLES = 999;

function addRange(holes: number[], from: number, to: number): void {
  const step = to < from ? -1 : 1;
  const last = from + step * Math.min(Math.abs(to - from), MOST_HOLES);
  for (let hole = from; hole !== last; ) {
    hole += step;
    holes.push(hole);
  }
}

const STOPPING_UNITS: ReadonlySet<string> = new Set(["in", "turn", "turns"]);

/** A unit of several words: whose it is (`US gal`, `imp fl oz`), or a product written with a space (`ft lb`). */
const SYSTEM = /^(?:US|UK|imp)$/;
const PAIR = /^(?:[kcm]?N [cm]?m|kgf? c?m|(?:ft|in) (?:lbf?|oz)|(?:lbf?|oz) (?:ft|in)|fl oz)$/;

function joinsUnit(unit: readonly IToken[], word: IToken): boolean {
  const last = unit[unit.length - 1];
  if (!last) return true;
  if (unit.length === 1 && SYSTEM.test(last.image)) return true;
  return unit.length < 3 && PAIR.test(`${last.image} ${word.image}`);
}

function figure(number: IToken, unit: readonly IToken[]): RawFigure {
  const first = unit[0];
  const last = unit[unit.length - 1];
  return {
    number: number.image.replace("−", "-"),
    unit: first ? unit.map((token) => token.image).join(" ") : null,
    span: spanBetween(number, last ?? number),
    unitSpan: first && last ? spanBetween(first, last) : null,
  };
}

/** The text of a quoted string, with `\"` and `\\` undone. */
export function unquote(image: string): string {
  return image.replace(/^"|"$/g, "").replace(/\\(["\\])/g, "$1");
}
