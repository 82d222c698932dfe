/**
 * How large the shapes of a drawing of the ways are with their text in them, and how their text is broken.
 */
import { TYPE } from "./svg";
import { cut, widthOf, wrapped } from "./text";
import type { WaysRow } from "./ways-rows";

/** A shape's size, and its lines of text from the top. */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly text: readonly { readonly words: string; readonly strong: boolean }[];
}

/** From one line to the next. */
export const TEXT_LINE = TYPE.note * 1.34;
export const LABEL_LINE = TYPE.note * 1.3;
/** Bold letters are wider than those that widths are known of. */
const BOLD = 1.08;
/** How far the sides of a question slant. */
export const SLANT = 5;
const INSET = 2;

/** The most lines of text that a shape has. */
const MOST_LINES = 7;
/** And of what is done before a job ends. */
const MOST_BEFORE = 3;

const known = new WeakMap<WaysRow, Map<number, Block>>();

/** The shape of a row in a column so wide. It is kept, since a row is laid out again and again until pages are full. */
export function blockOf(row: WaysRow, column: number): Block {
  const own = known.get(row) ?? new Map<number, Block>();
  known.set(row, own);
  const block = own.get(column) ?? madeBlock(row, column);
  own.set(column, block);
  return block;
}

function madeBlock(row: WaysRow, column: number): Block {
  const isTerminal = row.kind === "begin" || row.kind === "end";
  const aside = row.kind === "question" ? SLANT + 1 : isTerminal ? 4 : INSET;
  const room = column - 2 * aside;
  const heads = wrapped(row.head, TYPE.note * BOLD, room).map((words) => ({ words, strong: true }));
  const lines = row.lines
    .flatMap((line) => wrapped(line, TYPE.note, room))
    .map((words) => ({ words, strong: false }));
  const foot = row.kind === "run" && row.foot ? wrapped(row.foot, TYPE.note * BOLD, room) : [];
  const most = row.kind === "run" && row.most ? row.most : MOST_LINES;
  const before = isTerminal && row.before ? wrapped(row.before, TYPE.note, room) : [];
  const text = [
    ...limited(
      before.map((words) => ({ words, strong: false })),
      room,
      MOST_BEFORE,
    ),
    ...limited([...heads, ...lines], room, most),
    ...foot.map((words) => ({ words, strong: true })),
  ];
  const widest = Math.max(
    ...text.map(({ words, strong }) => widthOf(words, TYPE.note * (strong ? BOLD : 1))),
    0,
  );
  // Terminals are as wide as their words, all else as its column.
  const width = isTerminal ? Math.min(column, Math.max(24, widest + 2 * aside)) : column;
  const least = row.kind === "question" ? 11 : 6.5;
  return {
    width,
    height: Math.max(least, text.length * TEXT_LINE + (row.kind === "question" ? 3.4 : 2.6)),
    text,
  };
}

/** So many lines and no more; the last then ends with an ellipsis. */
function limited(lines: Block["text"], room: number, most: number): Block["text"] {
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  const last = kept[most - 1] as Block["text"][number];
  const size = TYPE.note * (last.strong ? BOLD : 1);
  const words = last.words.split(" ");
  while (words.length > 1 && widthOf(`${words.join(" ")} …`, size) > room) words.pop();
  const end = cut(words.join(" ").replace(/[\s.,;:]+$/u, ""), size, room - widthOf(" …", size));
  return [...kept.slice(0, -1), { ...last, words: `${end} …` }];
}

/** A label in so much room. */
export function labelOf(
  words: string,
  room: number,
): { readonly width: number; readonly lines: readonly string[] } {
  const lines = wrapped(words, TYPE.note, room);
  return { width: Math.max(0, ...lines.map((line) => widthOf(line, TYPE.note))), lines };
}
