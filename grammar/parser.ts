/**
 * The Chevrotain grammar of one line: one rule a form, made from the table of constructs. Nothing leaves this module
 * but through `parseForm`.
 */
import type { IToken } from "chevrotain";
import { CONSTRUCTS, clauses, elementsOf, type LineForm, stopWords } from "./constructs";
import { partsOf, rivalsOf } from "./optionals";
import type { Element, SlotElement } from "./pattern";
import type { Phrase, SlotContent, SlotValue } from "./statement";
import * as t from "./tokens";
import { type Rule, spanBetween, ValueGrammar } from "./values";

/** Where reading stopped, and what was looked for there. */
export interface Stop {
  /** The token that did not fit; `null` at the line's end. */
  readonly found: IToken | null;
  /** The token before it. */
  readonly after: IToken | null;
  /** What would have fitted; `null` after the form was complete. */
  readonly expected: Element | null;
}

/** What was read of a line as one form; `stop` is null where all of it was. */
export interface Reading {
  readonly phrases: Phrase[];
  readonly stop: Stop | null;
}

interface OpenPhrase {
  clause: string;
  words: string[];
  slots: SlotValue[];
  parts: number[];
  from: number;
  to: number;
}

type Step = () => void;
type OptionalElement = Extract<Element, { type: "optional" }>;

/** What stands around elements: which of them are parts of their own, and the clauses that may follow them. */
interface Around {
  readonly parts: readonly Element[];
  readonly follow: readonly string[];
}
const INSIDE: Around = { parts: [], follow: [] };

interface Alternative<T> {
  ALT: () => T;
}

/** Occurrence numbers of what a form's rule has beside its own elements. */
const TAIL = 200;

class LineGrammar extends ValueGrammar {
  private phrases: OpenPhrase[] = [];
  private expected: Element | null = null;
  private readonly forms = new Map<string, Rule<void>>();
  private readonly tails = new Map<string, Rule<void>>();

  constructor() {
    super(t.ALL_TOKENS, { recoveryEnabled: false, maxLookahead: 1, skipValidations: true });
    for (const id of clauses.keys())
      this.forms.set(`+${id}`, this.formRule(`clause ${id}`, `+${id}`, id, []));
    for (const { id, clauses: follow } of CONSTRUCTS)
      this.forms.set(id, this.formRule(`form ${id}`, id, "", follow));
    for (const { id, follow } of clauses.values())
      this.forms.set(`line ${id}`, this.formRule(`line ${id}`, `+${id}`, id, follow));
    this.performSelfAnalysis();
  }

  private formRule(name: string, key: string, clause: string, follow: readonly string[]): Rule<void> {
    const own = elementsOf(key);
    const elements = this.steps(own, { parts: partsOf(own), follow });
    const tail = follow.length > 0 ? this.tail(follow) : undefined;
    const begin = (): void => {
      this.phrases.push({ clause, words: [], slots: [], parts: [], from: this.LA(1).startOffset, to: 0 });
    };
    const end = (): void => {
      this.top().to = t.tokenEnd(this.LA(0));
      this.expected = null;
    };
    return this.RULE(ruleName(name), () => {
      this.ACTION(begin);
      for (const step of elements) step();
      this.ACTION(end);
      if (tail) this.subrule(TAIL, tail);
    });
  }

  /** The clauses that may follow a form, in any order; forms with the same clauses share the rule. */
  private tail(follow: readonly string[]): Rule<void> {
    const key = follow.join(" ");
    const known = this.tails.get(key);
    if (known) return known;
    const alternatives = follow.map((id, i) => {
      const clause = this.forms.get(`+${id}`) as Rule<void>;
      return { ALT: () => this.subrule(i, clause) };
    });
    const one = this.alternatives(
      0,
      alternatives,
      follow.map((id) => elementsOf(`+${id}`)),
    );
    const rule = this.RULE(`tail${this.tails.size}`, () => this.many(0, one));
    this.tails.set(key, rule);
    return rule;
  }

  /** One of several: one word ahead tells which, two where some begin with the same word. */
  private alternatives<T>(
    index: number,
    alts: Alternative<T>[],
    starts: readonly (readonly Element[])[],
  ): () => T {
    const firsts = starts.map(([first]) => (first?.type === "word" ? first.word : JSON.stringify(first)));
    const alike = new Set(firsts).size < firsts.length;
    const options = { DEF: alts, ...(alike ? { MAX_LOOKAHEAD: 2 } : {}) };
    return () => this.or(index, options);
  }

  private steps(elements: readonly Element[], around: Around = INSIDE): Step[] {
    return elements.map((element) => {
      const step = this.step(element, around);
      return () => {
        this.expected = element;
        step();
      };
    });
  }

  private step(element: Element, around: Around): Step {
    const { index } = element;
    switch (element.type) {
      case "word": {
        const type = t.keywordType(element.word);
        const say = (): void => {
          this.top().words.push(element.word);
        };
        return () => {
          this.consume(index, type);
          this.ACTION(say);
        };
      }
      case "optional":
        return this.optional(element, around);
      case "choice": {
        const alts = element.options.map((option) => {
          const steps = this.steps(option);
          return { ALT: () => this.run(steps) };
        });
        return this.alternatives(index, alts, element.options);
      }
      case "slot":
        return this.slot(element);
    }
  }

  private run(steps: readonly Step[]): void {
    for (const step of steps) step();
  }

  private optional(element: OptionalElement, { parts, follow }: Around): Step {
    const { index, elements } = element;
    const steps = this.steps(elements);
    const first = elements[0];
    const kind = first?.type === "slot" ? first.kind : "";
    const rivals = first?.type === "word" ? rivalsOf(first.word, follow) : [];
    const begin = (): void => {
      this.top().parts.push(this.LA(1).startOffset);
    };
    const run = (): void => {
      if (parts.includes(element)) this.ACTION(begin);
      this.run(steps);
    };
    const options = {
      DEF: run,
      // Any word may be an outcome, but one that begins a clause is the clause.
      ...(kind === "OUTCOME" ? { GATE: () => this.maybeOutcome() } : {}),
      // `loosen it by 90°` begins like `loosen it by two people`.
      ...(rivals.length > 0
        ? { GATE: () => !rivals.some((rival) => this.LA(rival.at).image === rival.word) }
        : {}),
      // `at least 5 mm` begins like `at right angle`.
      ...(kind === "QUANTITY" ? { MAX_LOOKAHEAD: 2 } : {}),
    };
    return () => {
      this.option(index, options);
    };
  }

  private maybeOutcome(): boolean {
    const word = this.LA(1).image;
    return OUTCOMES.has(word) || !this.stops.has(word);
  }

  private slot(element: SlotElement): Step {
    const { role, accepts } = element;
    const read = this.content(element);
    const keep = (from: IToken, content: SlotContent): void => {
      this.top().slots.push({ role, accepts, span: spanBetween(from, this.LA(0)), content });
    };
    return () => {
      const from = this.LA(1);
      const content = read();
      this.ACTION(() => keep(from, content));
    };
  }

  private content(element: SlotElement): () => SlotContent {
    const { index: i, accepts } = element;
    const word = (rule: Rule<string>) => (): SlotContent => ({ kind: "word", word: this.subrule(i, rule) });
    switch (element.kind) {
      case "NAME":
        return () => ({ kind: "names", names: [this.subrule(i, this.name)] });
      case "NAMES":
        return () => ({ kind: "names", names: this.subrule(i, this.names) });
      case "TEXT":
        return () => ({ kind: "text", text: this.subrule(i, this.text) });
      case "QUANTITY":
        return () => ({ kind: "quantity", quantity: this.subrule(i, this.quantity) });
      case "COUNT":
        return () => ({ kind: "count", count: this.subrule(i, this.count) });
      case "NUMBER":
        return () => ({ kind: "number", text: this.consume(i, t.Numeral).image });
      case "HOLES":
        return () => ({ kind: "holes", holes: this.subrule(i, this.holes) });
      case "POINT":
        return () => this.subrule(i, this.point);
      case "DATE":
        return () => ({ kind: "word", word: this.consume(i, t.DateToken).image });
      case "THREAD":
        return word(this.thread);
      case "GRADE":
        return word(this.grade);
      case "OUTCOME":
        return word(this.outcome);
      case "CHOICE": {
        const alts = accepts.map((one, k) => {
          const type = t.keywordType(one);
          return { ALT: () => this.consume(k, type).image };
        });
        return () => ({ kind: "word", word: this.or(i, alts) });
      }
    }
  }

  private top(): OpenPhrase {
    return this.phrases[this.phrases.length - 1] as OpenPhrase;
  }

  /** Reads the tokens as one form; what could be read is returned even where reading stopped. */
  read(form: LineForm, tokens: IToken[]): Reading {
    this.phrases = [];
    this.expected = null;
    this.misfit = null;
    this.stops = stopWords(form);
    this.input = tokens;
    (this.forms.get(form.clause ? `line ${form.id}` : form.id) as Rule<void>).call(this);
    const phrases = this.phrases.map(({ clause, words, slots, parts, from, to }) => {
      return { clause, words, slots, parts, span: { start: from, end: Math.max(to, from) } };
    });
    const stopped = this.misfit ?? this.errors[0]?.token;
    return { phrases, stop: stopped ? this.stopAt(stopped, tokens) : null };
  }

  private stopAt(token: IToken, tokens: readonly IToken[]): Stop {
    const at = tokens.indexOf(token);
    const after = (at < 0 ? tokens[tokens.length - 1] : tokens[at - 1]) ?? null;
    return { found: at < 0 ? null : token, after, expected: this.expected };
  }
}

/** Outcomes that are also words of clauses. */
const OUTCOMES: ReadonlySet<string> = new Set(["over", "under", "met", "not", "yes", "no"]);

function ruleName(text: string): string {
  return text.replace(/[^A-Za-z0-9]+/g, "_");
}

let grammar: LineGrammar | undefined;

/** Reads a line's tokens (without its braces and comment) as one form. */
export function parseForm(form: LineForm, tokens: IToken[]): Reading {
  grammar ??= new LineGrammar();
  return grammar.read(form, tokens);
}
