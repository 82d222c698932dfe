/**
 * Random edits of a small project, as a writer and the world around make them: slips, moved and pasted lines, braces,
 * undo, settings, files that vanish and appear. The same seed gives the same edits.
 */

import { below, pick, type Random } from "../support/random";

/** What a project is: the texts open in the editor, and the files on the disk. */
export interface State {
  readonly open: ReadonlyMap<string, string>;
  readonly disk: ReadonlyMap<string, string>;
}

/** A place of a text: its line from 0, and the UTF-16 offset in the line. */
export interface At {
  readonly line: number;
  readonly character: number;
}

/** One thing that happens. */
export type Happening =
  | {
      readonly kind: "edit";
      readonly file: string;
      readonly start: At;
      readonly end: At;
      readonly text: string;
      readonly why: string;
    }
  | { readonly kind: "disk"; readonly file: string; readonly text: string | null; readonly why: string }
  | { readonly kind: "open" | "close"; readonly file: string; readonly why: string };

const LINE_END = /\r\n|\n|\r/g;
export const SETTINGS = "torquil.json";

/** The lines of a text, each with where it starts and ends. */
export function linesOf(text: string): readonly { readonly start: number; readonly end: number }[] {
  const lines: { start: number; end: number }[] = [];
  let start = 0;
  for (const match of text.matchAll(LINE_END)) {
    lines.push({ start, end: match.index });
    start = match.index + match[0].length;
  }
  return [...lines, { start, end: text.length }];
}

function placeOf(text: string, offset: number): At {
  const lines = linesOf(text);
  const line = Math.max(
    0,
    lines.findLastIndex((l) => l.start <= offset),
  );
  return { line, character: offset - (lines[line]?.start ?? 0) };
}

/** A stretch of a text, by offsets, and what is put in its place. */
interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Makes a splice of a text. */
export function spliced(text: string, { from, to, text: put }: Splice): string {
  return text.slice(0, from) + put + text.slice(to);
}

interface Past {
  readonly file: string;
  /** What undoes it. */
  readonly back: Splice;
}

/** Makes one happening after the other; each changes the state. */
export class Writer {
  private readonly past: Past[] = [];
  state: State;

  constructor(
    readonly random: Random,
    private readonly start: State,
    private readonly settings: readonly string[],
  ) {
    this.state = start;
  }

  next(): Happening {
    const dice = this.below(100);
    if (dice < 4) return this.changeSettings();
    if (dice < 8) return this.changeDisk();
    if (dice < 10) return this.openOrClose();
    if (dice < 26 || this.past.length > 30) return this.undo() ?? this.edit();
    return this.edit();
  }

  private below(count: number): number {
    return below(this.random, count);
  }

  private pick<T>(list: readonly T[]): T {
    return pick(this.random, list);
  }

  private changeSettings(): Happening {
    const text = this.pick(this.settings);
    this.state = { ...this.state, disk: new Map(this.state.disk).set(SETTINGS, text) };
    return { kind: "disk", file: SETTINGS, text, why: "settings" };
  }

  /** A file that is not open vanishes, appears, or is written by another program. */
  private changeDisk(): Happening {
    const names = [...this.start.disk.keys()].filter(
      (name) => name !== SETTINGS && !this.state.open.has(name),
    );
    if (names.length === 0) return this.openOrClose();
    const file = this.pick(names);
    const disk = new Map(this.state.disk);
    const was = disk.get(file);
    const original = this.start.disk.get(file) ?? "";
    const text =
      was !== undefined && this.below(2) === 0
        ? null
        : was === original
          ? spliced(original, this.spliceIn(original))
          : original;
    if (text === null) disk.delete(file);
    else disk.set(file, text);
    this.state = { ...this.state, disk };
    return { kind: "disk", file, text, why: text === null ? "vanished" : "written outside" };
  }

  private openOrClose(): Happening {
    const open = new Map(this.state.open);
    const names = [...this.start.disk.keys()].filter((name) => name !== SETTINGS);
    const file = this.pick(names);
    // One text at least stays open, so that there is something to edit.
    const close = open.has(file) && open.size > 1;
    if (close) open.delete(file);
    else if (!open.has(file)) open.set(file, this.state.disk.get(file) ?? "");
    this.state = { ...this.state, open };
    this.past.splice(0, this.past.length, ...this.past.filter((p) => p.file !== file));
    return { kind: close ? "close" : "open", file, why: close ? "closed" : "opened" };
  }

  private undo(): Happening | null {
    const last = this.past.pop();
    return last ? this.make(last.file, last.back, "undo", false) : null;
  }

  private edit(): Happening {
    const file = this.pick([...this.state.open.keys()]);
    const text = this.state.open.get(file) ?? "";
    const original = this.start.disk.get(file) ?? "";
    // What has grown or shrunk out of all likeness is begun again, as by reverting it.
    const odd = text.length > 2 * original.length || text.length < original.length / 3;
    return this.make(
      file,
      odd ? { from: 0, to: text.length, text: original } : this.spliceIn(text),
      "edit",
      true,
    );
  }

  private make(file: string, splice: Splice, why: string, remember: boolean): Happening {
    const text = this.state.open.get(file) ?? "";
    const fitting = withoutTornEnds(text, splice);
    if (remember)
      this.past.push({
        file,
        back: {
          from: fitting.from,
          to: fitting.from + fitting.text.length,
          text: text.slice(fitting.from, fitting.to),
        },
      });
    this.state = { ...this.state, open: new Map(this.state.open).set(file, spliced(text, fitting)) };
    return {
      kind: "edit",
      file,
      start: placeOf(text, fitting.from),
      end: placeOf(text, fitting.to),
      text: fitting.text,
      why,
    };
  }

  private spliceIn(text: string): Splice {
    const lines = linesOf(text);
    const line = this.pick(lines);
    const own = text.slice(line.start, line.end);
    const within = (): number => line.start + this.below(own.length + 1);
    const end = this.pick(["\n", "\n", "\r\n", "\r"]);
    switch (this.below(14)) {
      case 0:
        return { from: within(), to: line.end, text: "" };
      case 1:
        return insert(within(), this.pick([...'abz019{}",.()°·± -/', "//", "\t", "🔩", "é"]));
      case 2: {
        const from = within();
        return { from, to: Math.min(from + 1 + this.below(3), line.end), text: "" };
      }
      case 3:
        return insert(this.pick([line.start, line.end]), this.pick(["{", "}", `{${end}`, `}${end}`, " {"]));
      case 4:
        return { from: line.start, to: this.after(lines, line), text: "" };
      case 5:
        return insert(line.start, own + end);
      case 6:
      case 7:
        return this.otherWord(text, line);
      case 8:
        return this.otherNumber(text, line);
      case 9: {
        const chunk = this.someLines();
        return insert(this.pick([line.start, line.end]), chunk.replace(LINE_END, end) + this.pick(["", end]));
      }
      case 10: {
        const to = this.pick(lines);
        return {
          from: Math.min(line.start, to.start),
          to: Math.max(line.start, to.start),
          text: this.pick(["", this.someLines()]),
        };
      }
      case 11:
        return insert(within(), end);
      case 12:
        return insert(
          line.start,
          this.pick([
            `allow tool-unused "x"${end}`,
            `allow unused-declaration "y"${end}`,
            `  "Some prose."${end}`,
            `// note${end}`,
            end,
          ]),
        );
      default:
        return { from: line.start, to: line.end, text: this.pick(this.allLines()) };
    }
  }

  private after(
    lines: readonly { start: number; end: number }[],
    line: { start: number; end: number },
  ): number {
    return lines[lines.indexOf(line) + 1]?.start ?? line.end;
  }

  private allTexts(): string {
    return [...this.start.disk]
      .filter(([name]) => name !== SETTINGS)
      .map(([, text]) => text)
      .join("\n");
  }

  private allLines(): readonly string[] {
    return this.allTexts().split("\n");
  }

  private someLines(): string {
    const all = this.allLines();
    const from = this.below(all.length);
    return all.slice(from, from + 2 + this.below(12)).join("\n");
  }

  /** A word in place of another: a name of something else, mostly. */
  private otherWord(text: string, line: { start: number; end: number }): Splice {
    const words = [...text.slice(line.start, line.end).matchAll(/[\p{L}][\p{L}\d-]*/gu)];
    if (words.length === 0) return insert(line.end, " ");
    const word = this.pick(words);
    const others = this.allTexts().match(/[\p{L}][\p{L}\d-]*/gu) ?? [];
    const from = line.start + word.index;
    return { from, to: from + word[0].length, text: this.pick(others) };
  }

  private otherNumber(text: string, line: { start: number; end: number }): Splice {
    const numbers = [...text.slice(line.start, line.end).matchAll(/\d+/g)];
    if (numbers.length === 0) return insert(line.end, this.pick([" ", "  // remark", " 4"]));
    const number = this.pick(numbers);
    const from = line.start + number.index;
    return { from, to: from + number[0].length, text: String(this.below(300)) };
  }
}

const insert = (at: number, text: string): Splice => ({ from: at, to: at, text });

/**
 * No editor tears the two signs of one line end apart, or joins two line ends to one: the stretch is moved to where it
 * does not.
 */
function withoutTornEnds(text: string, splice: Splice): Splice {
  const after = spliced(text, splice);
  const end = splice.from + splice.text.length;
  const joins = (at: number): boolean => after[at - 1] === "\r" && after[at] === "\n";
  const tears = (at: number): boolean => text[at - 1] === "\r" && text[at] === "\n";
  const wrong =
    tears(splice.from) || tears(splice.to) || (joins(splice.from) && splice.text !== "") || joins(end);
  return wrong ? { from: 0, to: text.length, text: after.replace(LINE_END, "\n") } : splice;
}
