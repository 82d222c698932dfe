/**
 * What a drawing of a belt shows, and what it says of it: at the pulleys, below, and as a description.
 */
import type { BeltKind, BeltPath, Layout, Running } from "../mechanics/belts";
import { type DrawingWord, drawingWord } from "../phrases/drawings";
import type { Language } from "../phrases/sheet";
import { sentences } from "./page";
import { scaleWords } from "./scale";

/** A mark on one of the pulleys. */
export interface BeltMark {
  /** By its place in the layout. */
  readonly pulley: number;
  readonly title: string;
  /** Where on the rim it is seen when it is in line: radians, anticlockwise from the x axis; null where nobody says. */
  readonly angle: number | null;
}

/** All that a drawing of a belt shows. */
export interface BeltPicture {
  readonly title: string;
  readonly kind: BeltKind;
  readonly layout: Layout;
  readonly path: BeltPath;
  /** Null where no driving shaft says a direction. */
  readonly running: Running | null;
  /** What the pulleys are called, in the layout's order. */
  readonly names: readonly string[];
  /** Its number in the order of laying on, by pulley, null for one that is left out; null where no order is said. */
  readonly laid: readonly (number | null)[] | null;
  readonly marks: readonly BeltMark[];
  /** Where it is seen from, in the writer's words. */
  readonly view: string;
  readonly language: Language;
}

/** A pulley's number as it is drawn: of the laying on, else of the path. */
export function numberOf({ laid }: BeltPicture, index: number): string {
  return laid ? `${laid[index] ?? "–"}` : `${index + 1}`;
}

/** What is said of a pulley beside its name. */
export function remarks(
  { layout, path, marks, kind, language }: BeltPicture,
  index: number,
): readonly string[] {
  const pulley = layout.pulleys[index];
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  if (!pulley) return [];
  return [
    ...(pulley.teeth === null ? [] : [say("teeth", { n: `${pulley.teeth}` })]),
    ...(pulley.side === "back" ? [say(kind === "chain" ? "outside-of-chain" : "back-of-belt")] : []),
    ...(pulley.travel > 0 ? [say("tensioner")] : []),
    ...(path.wraps[index]?.touched ? [] : [say("not-touched")]),
    ...marks.filter((mark) => mark.pulley === index).map((mark) => say("mark", { mark: mark.title })),
  ];
}

/** What stands below: pulleys whose labels found no place, where it is seen from, the scale, and what the signs mean. */
export function notesOf(
  picture: BeltPicture,
  factor: number,
  unplaced: readonly number[],
): readonly string[] {
  const { layout, path, running, marks, kind, laid, language } = picture;
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const { way, n } = scaleWords(factor);
  const signs: readonly (readonly [boolean, DrawingWord])[] = [
    [true, laid ? "belt.numbers.laid" : "belt.numbers.path"],
    [running !== null, "belt.arrows"],
    [layout.pulleys.some((p) => p.side === "back"), kind === "chain" ? "chain.grey" : "belt.grey"],
    [layout.pulleys.some((p) => p.travel > 0), "belt.travel"],
    [marks.some((mark) => mark.angle !== null), "belt.marks"],
    [!path.sound, "belt.unsound"],
  ];
  return [
    ...unplaced.map((index) => named(picture, index)),
    sentences(picture.view, say(way === "up" ? "scale.up" : "scale.down", { n: `${n}` })),
    sentences(...signs.filter(([shown]) => shown).map(([, id]) => say(id))),
  ];
}

/** `2 Guide roller (back of belt)`. */
function named(picture: BeltPicture, index: number, more: readonly string[] = []): string {
  const notes = [...remarks(picture, index), ...more];
  const name = drawingWord(picture.language, "belt.pulley", {
    n: numberOf(picture, index),
    name: picture.names[index] ?? "",
  });
  return notes.length === 0
    ? name
    : drawingWord(picture.language, "belt.note", { name, notes: notes.join(", ") });
}

/** All that it shows, in words. */
export function describe(picture: BeltPicture, title: string): string {
  const { path, running, laid, language } = picture;
  const say = (id: DrawingWord, args = {}) => drawingWord(language, id, args);
  const pulleys = picture.names.map((_, index) => {
    const turns = running?.turns[index];
    return named(picture, index, turns ? [say("belt.turns", { round: say(`round.${turns}`) })] : []);
  });
  return sentences(
    title,
    picture.view,
    say(laid ? "belt.numbers.laid" : "belt.numbers.path"),
    say("belt.order", { round: say(`round.${path.round}`), pulleys: pulleys.join("; ") }),
    path.sound ? "" : say("belt.unsound"),
  );
}
