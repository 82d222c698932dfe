/**
 * The Chevrotain grammar of one line. One rule a form is made from the table of constructs; what every form is
 * made of (names, quantities, points …) is written out here. Nothing leaves this module but through `parseForm`.
 */
import { EmbeddedActionsParser, type IToken, type ParserMethod } from "chevrotain";
import { CONSTRUCTS, clauses, elementsOf, type LineForm, stopWords } from "./constructs";
import type { Element, SlotElement } from "./pattern";
import type { NameValue, Phrase, RawFigure, RawQuantity, Relation, SlotContent, SlotValue } from "./statement";
import type { Span } from "./text";
import * as t from "./tokens";

type Rule<T> = ParserMethod<[], T>;

/** Where reading stopped, and what was looked for there. */
export interface Stop {
  /** The token that did not fit; `null` at the line's end. */
  readonly found: IToken | null;
  /** The token before it. */
  readonly after: IToken | null;
  /** What would have fitted; `null` after the form was complete. */
  readonly expected: Element | null;
}

interface OpenPhrase {
  clause: string;
  words: string[];
  slots: SlotValue[];
}

const spanOf = (from: IToken, to: IToken): Span => ({ start: from.startOffset, end: t.tokenEnd(to) });

class LineGrammar extends EmbeddedActionsParser {
  private phrases: { open: OpenPhrase; from: number; to: number }[] = [];
  private expected: Element | null = null;
  private stops: ReadonlySet<string> = new Set();
  private readonly forms = new Map<string, Rule<void>>();

  constructor() {
    super(t.ALL_TOKENS, { recoveryEnabled: false, maxLookahead: 2, skipValidations: true });
    for (const id of clauses.keys()) this.forms.set(`+${id}`, this.RULE(ruleName(`clause ${id}`), () => this.phrase(id)));
    for (const { id, clauses: follow } of CONSTRUCTS) this.forms.set(id, this.formRule(`form ${id}`, id, "", follow));
    for (const { id, then } of clauses.values()) this.forms.set(`line ${id}`, this.formRule(`line ${id}`, `+${id}`, id, then));
    this.performSelfAnalysis();
  }

  private formRule(name: string, key: string, clause: string, follow: readonly string[]): Rule<void> {
    return this.RULE(ruleName(name), () => {
      this.phrase(clause, key);
      if (follow.length === 0) return;
      this.many(200, () => {
        this.or(
          201,
          follow.map((id, i) => ({ ALT: () => this.subrule(100 + i, this.forms.get(`+${id}`) as Rule<void>) })),
        );
      });
    });
  }

  private phrase(clause: string, key = `+${clause}`): void {
    this.ACTION(() => {
      this.phrases.push({ open: { clause, words: [], slots: [] }, from: this.LA(1).startOffset, to: 0 });
    });
    this.elements(elementsOf(key));
    this.ACTION(() => {
      const phrase = this.phrases[this.phrases.length - 1];
      if (phrase) phrase.to = t.tokenEnd(this.LA(0));
      this.expected = null;
    });
  }

  private elements(elements: readonly Element[]): void {
    for (const element of elements) this.element(element);
  }

  private element(element: Element): void {
    this.ACTION(() => {
      this.expected = element;
    });
    switch (element.type) {
      case "word": {
        this.consume(element.index, t.keywordTypes.get(element.word) as never);
        this.ACTION(() => this.top().words.push(element.word));
        return;
      }
      case "optional":
        this.option(element.index, { DEF: () => this.elements(element.elements) });
        return;
      case "choice":
        this.or(
          element.index,
          element.options.map((option) => ({ ALT: () => this.elements(option) })),
        );
        return;
      case "slot":
        this.slot(element);
    }
  }

  private slot(element: SlotElement): void {
    let from: IToken | undefined;
    this.ACTION(() => {
      from = this.LA(1);
    });
    const content = this.slotContent(element);
    this.ACTION(() => {
      this.top().slots.push({ role: element.role, accepts: element.accepts, span: spanOf(from as IToken, this.LA(0)), content });
    });
  }

  private slotContent(element: SlotElement): SlotContent {
    const i = element.index;
    switch (element.kind) {
      case "NAME":
        return { kind: "names", names: [this.subrule(i, this.name)] };
      case "NAMES":
        return { kind: "names", names: this.subrule(i, this.names) };
      case "TEXT":
        return { kind: "text", text: this.subrule(i, this.text) };
      case "QUANTITY":
        return { kind: "quantity", quantity: this.subrule(i, this.quantity) };
      case "COUNT":
        return { kind: "count", count: this.subrule(i, this.count) };
      case "NUMBER":
        return { kind: "number", text: this.consume(i, t.Numeral).image };
      case "HOLES":
        return { kind: "holes", holes: this.subrule(i, this.holes) };
      case "POINT":
        return this.subrule(i, this.point);
      case "DATE":
        return { kind: "word", word: this.consume(i, t.DateToken).image };
      case "THREAD":
        return { kind: "word", word: this.subrule(i, this.thread) };
      case "GRADE":
        return { kind: "word", word: this.subrule(i, this.grade) };
      case "OUTCOME":
        return { kind: "word", word: this.subrule(i, this.outcome) };
      case "CHOICE":
        return {
          kind: "word",
          word: this.or(
            i,
            element.accepts.map((word, k) => ({ ALT: () => this.consume(k, t.keywordTypes.get(word) as never).image })),
          ),
        };
    }
  }

  private top(): OpenPhrase {
    return (this.phrases[this.phrases.length - 1] as { open: OpenPhrase }).open;
  }

  private readonly name: Rule<NameValue> = this.RULE("name", () => {
    const token = this.CONSUME(t.Word);
    return { name: token.image.normalize("NFC"), span: this.ACTION(() => spanOf(token, token)) };
  });

  private readonly names: Rule<NameValue[]> = this.RULE("names", () => {
    const names: NameValue[] = [];
    this.AT_LEAST_ONE_SEP({ SEP: t.Comma, DEF: () => names.push(this.SUBRULE(this.name)) });
    return names;
  });

  private readonly text: Rule<string> = this.RULE("text", () => unquote(this.CONSUME(t.Text).image));

  private readonly count: Rule<number> = this.RULE("count", () =>
    this.OR([
      { ALT: () => Number(this.CONSUME(t.Numeral).image.replace("−", "-")) },
      { ALT: () => t.numberWords.get(this.CONSUME(t.NumberWord).image) ?? 0 },
      { ALT: () => (this.consume(1, t.keywordTypes.get("one") as never) ? 1 : 0) },
    ]),
  );

  private readonly holes: Rule<number[]> = this.RULE("holes", () => {
    const holes: number[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: t.Comma,
      DEF: () => {
        const from = Number(this.CONSUME(t.Numeral).image);
        this.ACTION(() => holes.push(from));
        this.OPTION(() => {
          this.consume(0, t.keywordTypes.get("to") as never);
          const to = Number(this.CONSUME2(t.Numeral).image);
          this.ACTION(() => {
            for (let hole = from + 1; hole <= Math.min(to, from + 999); hole++) holes.push(hole);
          });
        });
      },
    });
    return holes;
  });

  private readonly thread: Rule<string> = this.RULE("thread", () =>
    this.OR([{ ALT: () => this.CONSUME(t.Thread).image }, { ALT: () => this.CONSUME(t.Word).image }]),
  );

  private readonly grade: Rule<string> = this.RULE("grade", () =>
    this.OR([
      { ALT: () => this.CONSUME(t.Numeral).image },
      { ALT: () => unquote(this.CONSUME(t.Text).image) },
      { ALT: () => this.CONSUME(t.Word).image },
    ]),
  );

  private readonly outcome: Rule<string> = this.RULE("outcome", () =>
    this.OR([
      {
        ALT: () => {
          this.consume(0, t.keywordTypes.get("not") as never);
          this.consume(1, t.keywordTypes.get("met") as never);
          return "not met";
        },
      },
      { ALT: () => this.CONSUME(t.Word).image.normalize("NFC") },
    ]),
  );

  private readonly figures: Rule<RawFigure[]> = this.RULE("figures", () => {
    const figures: RawFigure[] = [];
    this.AT_LEAST_ONE({
      GATE: () => figures.length === 0 || figures[figures.length - 1]?.unit != null,
      DEF: () => {
        const number = this.CONSUME(t.Numeral);
        const unit: IToken[] = [];
        this.MANY({
          GATE: () => !this.stops.has(this.LA(1).image) && (unit.length === 0 || SYSTEMS.has(unit[0]?.image ?? "")) && unit.length < 3,
          DEF: () => {
            const word = this.OR([{ ALT: () => this.CONSUME(t.Word) }, { ALT: () => this.CONSUME(t.UnitSign) }]);
            unit.push(word);
          },
        });
        this.ACTION(() => figures.push(figure(number, unit)));
      },
    });
    return figures;
  });

  private readonly relation: Rule<Relation> = this.RULE("relation", () => {
    const word = (image: string, index: number): IToken => this.consume(index, t.keywordTypes.get(image) as never);
    return this.OR([
      { ALT: () => (word("over", 0), "over" as const) },
      { ALT: () => (word("under", 1), "under" as const) },
      { ALT: () => (word("about", 2), "about" as const) },
      {
        ALT: () => {
          word("at", 3);
          return this.OR2([{ ALT: () => (word("least", 4), "at-least" as const) }, { ALT: () => (word("most", 5), "at-most" as const) }]);
        },
      },
    ]);
  });

  private readonly quantity: Rule<RawQuantity> = this.RULE("quantity", () => {
    let from: IToken | undefined;
    let relation: Relation = "exact";
    let second: RawFigure[] = [];
    let tolerance: RawFigure[] = [];
    let other: RawQuantity | null = null;
    this.ACTION(() => {
      from = this.LA(1);
    });
    this.OPTION(() => {
      relation = this.SUBRULE(this.relation);
    });
    const first = this.SUBRULE(this.figures);
    this.OPTION1(() => {
      this.CONSUME(t.PlusMinus);
      tolerance = this.SUBRULE1(this.figures);
    });
    this.OPTION2(() => {
      this.consume(0, t.keywordTypes.get("to") as never);
      second = this.SUBRULE2(this.figures);
    });
    this.OPTION3(() => {
      this.CONSUME(t.LeftParen);
      other = this.SUBRULE(this.quantity);
      this.CONSUME(t.RightParen);
    });
    return { relation, first, second, tolerance, other, span: this.ACTION(() => spanOf(from as IToken, this.LA(0))) };
  });

  private readonly point: Rule<SlotContent> = this.RULE("point", () => {
    const x = this.SUBRULE(this.quantity);
    this.CONSUME(t.Comma);
    return { kind: "point" as const, x, y: this.SUBRULE2(this.quantity) };
  });

  /** Reads the tokens as one form; what could be read is returned even where reading stopped. */
  read(form: LineForm, tokens: IToken[]): { phrases: Phrase[]; stop: Stop | null } {
    this.phrases = [];
    this.expected = null;
    this.stops = stopWords(form);
    this.input = tokens;
    (this.forms.get(form.clause ? `line ${form.id}` : form.id) as Rule<void>).call(this);
    const phrases = this.phrases.map(({ open, from, to }) => ({ ...open, span: { start: from, end: Math.max(to, from) } }));
    const error = this.errors[0];
    if (!error) return { phrases, stop: null };
    const at = tokens.indexOf(error.token);
    return {
      phrases,
      stop: {
        found: at < 0 ? null : error.token,
        after: (at < 0 ? tokens[tokens.length - 1] : tokens[at - 1]) ?? null,
        expected: error.name === "NotAllInputParsedException" ? null : this.expected,
      },
    };
  }
}

function ruleName(text: string): string {
  return text.replace(/[^A-Za-z0-9]+/g, "_");
}

/** Words before a unit that say whose unit it is: `US gal`, `imp fl oz`. Only after them a unit has more words. */
const SYSTEMS: ReadonlySet<string> = new Set(["US", "UK", "imp"]);

function figure(number: IToken, unit: readonly IToken[]): RawFigure {
  const first = unit[0];
  const last = unit[unit.length - 1];
  return {
    number: number.image.replace("−", "-"),
    unit: first ? unit.map((token) => token.image).join(" ") : null,
    span: spanOf(number, last ?? number),
    unitSpan: first && last ? spanOf(first, last) : null,
  };
}

/** The text of a quoted string, with `\"` and `\\` undone. */
export function unquote(image: string): string {
  return image.replace(/^"|"$/g, "").replace(/\\(["\\])/g, "$1");
}

let grammar: LineGrammar | undefined;

/** Reads a line's tokens (without its braces and comment) as one form. */
export function parseForm(form: LineForm, tokens: IToken[]): { phrases: Phrase[]; stop: Stop | null } {
  grammar ??= new LineGrammar();
  return grammar.read(form, tokens);
}
