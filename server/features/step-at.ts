/**
 * Where in a procedure is meant: a step or check by its printed number, its name or its title, a line, or the end; as the
 * point of the graph that it stands before.
 */
import { nearest } from "../../grammar";
import { namesIn, textIn } from "../facts";
import { type Numbered, numbering, type Procedure } from "../model";
import { statePhrase as say } from "../phrases/state";
import { walkOf } from "../rules";
import { pointBefore } from "../walk";

/** A place of a procedure. */
export interface StepAt {
  /** The point of the procedure's graph that it stands before. */
  readonly point: number;
  /** In words: `Before 12, “Belt off”`. */
  readonly at: string;
  /** The printed number of the step; null for a line, and for the end. */
  readonly number: number | null;
}

export interface NoStep {
  /** What is wrong with what was asked for, and the way out. */
  readonly problem: string;
}

const titleOf = (procedure: Procedure): string => procedure.thing.title || procedure.thing.name;

/** The end of a procedure. */
export function endOf(procedure: Procedure): StepAt {
  return { point: walkOf(procedure).graph.points.length - 1, at: say("end"), number: null };
}

/**
 * The step or check that a word means: its printed number, its name, its title, `line 12`, `end`. The procedure must not be
 * doubtful.
 */
export function stepNamed(procedure: Procedure, asked: string): StepAt | NoStep {
  const all = numbering(procedure);
  const title = titleOf(procedure);
  const word = asked.trim();
  if (word.toLowerCase() === "end") return endOf(procedure);
  const line = /^(?:line\s*|L|:)(\d+)$/i.exec(word)?.[1];
  if (line !== undefined) return atLine(procedure, Number(line) - 1, all) ?? noLine(procedure, line);
  if (/^\d+$/.test(word)) {
    const one = all[Number(word) - 1];
    if (one) return before(procedure, one);
    return {
      problem:
        all.length === 0
          ? say("no-numbers", { title })
          : say("no-number", { title, asked: word, last: String(all.length) }),
    };
  }
  const named = all.find((one) => nameOf(one) === word) ?? all.find((one) => headOf(one) === word);
  if (named) return before(procedure, named);
  const near = nearest(
    word,
    [...all.map(nameOf), ...all.map(headOf)].filter((name) => name !== ""),
  );
  const hint = near ? ` ${say("did-you-mean", { near })}` : "";
  return { problem: `${say("no-step", { title, asked: word })}${hint}` };
}

const nameOf = ({ entry }: Numbered): string => namesIn(entry.form, "name")[0]?.name ?? "";
const headOf = ({ entry }: Numbered): string => textIn(entry.form, "title");

function before(procedure: Procedure, one: Numbered): StepAt {
  const through = one.through[0] ?? null;
  return {
    point: pointBefore(walkOf(procedure).graph, one.file, one.line, through),
    at: say("before.step", { number: String(one.number), title: headOf(one) || nameOf(one) }),
    number: one.number,
  };
}

/** The place of a line of the procedure's own file, from 0; null where it is not in its work. */
export function atLine(
  procedure: Procedure,
  line: number,
  all: readonly Numbered[] = numbering(procedure),
): StepAt | null {
  const { file } = procedure.thing;
  const head = all.find((one) => one.through.length === 0 && one.line === line);
  if (head) return before(procedure, head);
  const last = procedure.thing.line + procedure.thing.entry.lineCount - 1;
  const { graph } = walkOf(procedure);
  if (line === last) return endOf(procedure);
  const point = pointBefore(graph, file, line);
  if (point < 0) return null;
  return { point, at: inWords(line, point, all), number: null };
}

/** A line within a step or check is told with it; what stands in front of the work is its start. */
function inWords(line: number, point: number, all: readonly Numbered[]): string {
  const around = all.findLast(
    (one) => one.through.length === 0 && one.line < line && line < one.line + one.entry.lineCount,
  );
  if (!around) return point === 0 ? say("start") : say("before.line", { line: String(line + 1) });
  return say("before.line-in", {
    line: String(line + 1),
    number: String(around.number),
    title: headOf(around) || nameOf(around),
  });
}

function noLine(procedure: Procedure, asked: string): NoStep {
  const { line, entry } = procedure.thing;
  const first = String(line + 1);
  const last = String(line + entry.lineCount);
  return { problem: say("no-line", { title: titleOf(procedure), asked, first, last }) };
}
