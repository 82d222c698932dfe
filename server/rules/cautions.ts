/**
 * What the rules about cautions share: the hazards of which no caution tells in time.
 */
import type { Place, Procedure } from "../model";
import { type Point, placeOf, type Untold } from "../walk";
import type { Sight } from "./types";

/** A hazard raised untold, with the places to report. */
export interface UntoldAt {
  readonly untold: Untold;
  /** The act that raises it. */
  readonly act: Point;
  readonly place: Place;
  /** The caution that stands too late. */
  readonly late: Place | null;
  /** The caution that a jump leads past. */
  readonly passed: Place | null;
}

/** The hazards that some act of a procedure raises untold. */
export function untoldOf(procedure: Procedure, { walk, houseHazards }: Sight): readonly UntoldAt[] {
  const { graph, tellings } = walk(procedure);
  return tellings(houseHazards).untold.map((one) => {
    const act = graph.points[one.point] as Point;
    const late = graph.points[one.late];
    const passed = graph.points[one.passed];
    return {
      untold: one,
      act,
      place: placeOf(act),
      late: late ? placeOf(late) : null,
      passed: passed ? placeOf(passed) : null,
    };
  });
}

const WORDS = ["notice", "caution", "warning", "danger"];

/** The head of a caution with its signal word, or the least that will do where its own is weaker. */
export function strongEnough(head: string, least: string): string {
  const indent = head.slice(0, head.length - head.trimStart().length);
  const [word = ""] = head.trimStart().split(" ");
  const isWeak = WORDS.includes(word) && WORDS.indexOf(word) < WORDS.indexOf(least);
  return isWeak ? `${indent}${least}${head.slice(indent.length + word.length)}` : head;
}
