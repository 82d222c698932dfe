/**
 * The words of a line. The lexer knows numbers, words, strings and a few signs; it knows no unit, and a keyword
 * is a word whose token type is narrowed afterwards, so that any name may equal a keyword.
 */
import { createToken, type IToken, Lexer, type TokenType } from "chevrotain";
import { KEYWORDS } from "./constructs";

// `[\s\S]`, not a dot: a line may hold U+2028, which ends a line for a dot and not for us.
export const Comment = createToken({
  name: "Comment",
  pattern: /\/\/[\s\S]*/,
  start_chars_hint: ["/"],
  line_breaks: false,
});
const Space = createToken({ name: "Space", pattern: /\s+/, group: Lexer.SKIPPED, line_breaks: false });
export const Text = createToken({
  name: "Text",
  pattern: /"(?:[^"\\]|\\[\s\S])*"/,
  start_chars_hint: ['"'],
  line_breaks: false,
});
/** A string that the line's end closed. */
export const OpenText = createToken({
  name: "OpenText",
  pattern: /"(?:[^"\\]|\\[\s\S])*\\?/,
  start_chars_hint: ['"'],
  line_breaks: false,
});
export const DateToken = createToken({ name: "Date", pattern: /\d{4}-\d{2}-\d{2}/ });
/** A thread that is not a plain word: M12 x 1.25, M2.5, 1/2-13, 1-8, 1-1/8-7, 10-24, 9/16-18 UNF, 1/4-20 UNC-2A, 3/8 UNC. */
export const Thread = createToken({
  name: "Thread",
  pattern:
    /(?:M\d+(?:\.\d+)?\s*[x×]\s*\d+(?:\.\d+)?|M\d+\.\d+|(?:(?:\d+[ -])?\d+\/\d+|#?\d{1,2})(?:-\d{1,2}(?: ?UNR?[CFS]?)?| ?UNR?[CF])(?:-[123][AB])?)(?![\w-]|\.\d|\/\d)/,
});
/** `47`, `0.05`, `.020`, `-10`, `1/6`, `1 1/2`. */
export const Numeral = createToken({
  name: "Numeral",
  pattern: /[-−]?(?:\d+ \d+\/\d+|\d+(?:\/\d+|\.\d+)?|\.\d+)/,
});
/** A deviation upwards: `+3`, `+0.05`. One downwards is a numeral with its minus. */
export const Upwards = createToken({
  name: "Upwards",
  pattern: /\+(?:\d+ \d+\/\d+|\d+(?:\/\d+|\.\d+)?|\.\d+)/,
});
// Joiners (U+200C, U+200D) stand inside words of several scripts.
const WORD =
  /[\p{L}_][\p{L}\p{M}\p{N}_\u200c\u200d]*(?:[-‐‑·⋅∙•‧*./][\p{L}\p{M}\p{N}_\u200c\u200d]+)*[²³]?/uy;
export const Word = createToken({
  name: "Word",
  // Chevrotain drops a pattern's `u` flag, so the expression runs in a function of our own.
  pattern: (text: string, offset: number) => {
    WORD.lastIndex = offset;
    return WORD.exec(text);
  },
  line_breaks: false,
  start_chars_hint: starts(/[\p{L}_]/u),
});
export const NumberWord = createToken({ name: "NumberWord", pattern: Lexer.NA, categories: [Word] });
/** A unit that is no word: degree and its look-alikes, degree with letter, percent, minute of arc. */
export const UnitSign = createToken({ name: "UnitSign", pattern: /[°˚][A-Za-z]?|[%℃℉′″]/ });
export const PlusMinus = createToken({ name: "PlusMinus", pattern: /±|\+\/-|\+-/ });
/** Between two deviations. */
export const Slash = createToken({ name: "Slash", pattern: /\// });
export const Comma = createToken({ name: "Comma", pattern: /,/ });
export const Open = createToken({ name: "Open", pattern: /\{/ });
export const Close = createToken({ name: "Close", pattern: /\}/ });
export const LeftParen = createToken({ name: "LeftParen", pattern: /\(/ });
export const RightParen = createToken({ name: "RightParen", pattern: /\)/ });
export const Stray = createToken({
  name: "Stray",
  pattern: (text: string, offset: number) => [text.charAt(offset)] as unknown as RegExpExecArray,
  line_breaks: false,
  start_chars_hint: starts(/[\s\S]/),
});

const NUMBER_WORDS = "one two three four five six seven eight nine ten eleven twelve".split(" ");
/** The value of a number written as a word. */
export const numberWords: ReadonlyMap<string, number> = new Map(NUMBER_WORDS.map((word, i) => [word, i + 1]));

/** The token type of each keyword; each is also a Word. */
const keywordTypes: ReadonlyMap<string, TokenType> = new Map(
  [...KEYWORDS].map((word) => {
    const categories = numberWords.has(word) ? [Word, NumberWord] : [Word];
    return [word, createToken({ name: `word ${word}`, pattern: Lexer.NA, categories })];
  }),
);

/** The token type of a keyword of the table. */
export function keywordType(word: string): TokenType {
  return keywordTypes.get(word) as TokenType;
}

/**
 * The character codes with which a token may start, for the lexer's table: it keeps one entry for each code below
 * 256 and one for each further 255 codes, so a code out of each of those stands for all of them.
 */
function starts(first: RegExp): number[] {
  const starts: number[] = [];
  for (let code = 0; code < 256; code++) if (first.test(String.fromCharCode(code))) starts.push(code);
  for (let code = 256; code <= 0xffff; code += 128) starts.push(code);
  return starts;
}

const LEXED = [
  Space,
  Comment,
  Text,
  OpenText,
  DateToken,
  Thread,
  Numeral,
  Word,
  UnitSign,
  PlusMinus,
  Upwards,
  Slash,
  Comma,
  Open,
  Close,
  LeftParen,
  RightParen,
  Stray,
];
/** Every token type, for the parser. */
export const ALL_TOKENS: TokenType[] = [...LEXED, NumberWord, ...keywordTypes.values()];

const lexer = new Lexer(LEXED, {
  positionTracking: "onlyOffset",
  ensureOptimizations: true,
  skipValidations: true,
});

/** Lexes one line; never fails, since any other sign is a Stray token. */
export function lexLine(text: string): IToken[] {
  const { tokens } = lexer.tokenize(text);
  for (const token of tokens) {
    if (token.tokenType !== Word) continue;
    const type = keywordTypes.get(token.image) ?? (numberWords.has(token.image) ? NumberWord : undefined);
    if (type) {
      token.tokenType = type;
      token.tokenTypeIdx = type.tokenTypeIdx as number;
    }
  }
  return tokens;
}

/** The offset after a token. */
export function tokenEnd(token: IToken): number {
  return token.startOffset + token.image.length;
}
