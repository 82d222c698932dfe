/**
 * The stages of a tightening as a list beside or below the holes.
 */
import type { Point } from "../mechanics/belts/plane";
import { PAPER } from "./page";
import { TYPE, text } from "./svg";
import { widthOf, wrapped } from "./text";

/** A list on the paper: how large it is, and how it is written with its upper left corner somewhere. */
export interface StageList {
  readonly width: number;
  readonly height: number;
  readonly svg: (corner: Point) => string;
}

const PITCH = TYPE.name * 1.5;
/** Bold letters are so much wider than those that widths are reckoned from. */
const BOLD = 1.08;

/** The stages, one a line, under a line that says what they are; nothing for no stages. */
export function stageList(stages: readonly string[], head: string): StageList {
  const rows = [
    ...(head === "" || stages.length === 0 ? [] : [{ words: head, size: TYPE.note, bold: false }]),
    ...stages.flatMap((stage) =>
      wrapped(stage, TYPE.name * BOLD, PAPER - 2).map((words) => ({ words, size: TYPE.name, bold: true })),
    ),
  ];
  return {
    width: Math.max(0, ...rows.map(({ words, size, bold }) => widthOf(words, size) * (bold ? BOLD : 1))),
    height: rows.length * PITCH,
    svg: ({ x, y }) =>
      rows
        .map(({ words, size, bold }, index) =>
          text({ x, y: y + PITCH * (index + 0.75) }, words, size, bold ? { "font-weight": "bold" } : {}),
        )
        .join("\n"),
  };
}
