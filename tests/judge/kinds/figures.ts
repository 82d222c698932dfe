/**
 * Wrong changes to figures, names and lists. They are wrong by how they are made: the reason stands beside each kind.
 */
import {
  type Change,
  type Edits,
  edited,
  headsAround,
  type Kind,
  linesOf,
  matches,
  type Site,
} from "../change";
import type { Source } from "../sources";

/** A kind that changes single lines, of any file or of the procedure's alone, and is found on the line itself. */
export function onLines(
  name: string,
  proof: string,
  pattern: RegExp,
  codes: readonly string[],
  change: (line: string, match: RegExpExecArray) => string | null,
  /** So many lines below the first, where the change makes several of one. */
  shows?: number,
): Kind {
  const sites = (source: Source): Site[] =>
    Object.keys(source.texts).flatMap((file) =>
      matches(source, file, pattern).map(({ at, match }) => () => {
        const line = linesOf(source, file)[at] as string;
        const now = change(line, match);
        if (now === null || now === line) return null;
        return { texts: edited(source, file, new Map([[at, now]])), codes, file, lines: [at + (shows ?? 0)] };
      }),
    );
  return { name, proof, sites };
}

/** A kind that edits the procedure at a line and names the lines where it shows. */
export function inProcedure(
  name: string,
  proof: string,
  pattern: RegExp,
  codes: readonly string[],
  change: (
    lines: readonly string[],
    at: number,
    match: RegExpExecArray,
    source: Source,
  ) => { edits: Edits; lines: readonly number[]; codes?: readonly string[] } | null,
): Kind {
  const sites = (source: Source): Site[] => {
    const lines = linesOf(source, source.main);
    return matches(source, source.main, pattern).map(({ at, match }) => (): Change | null => {
      const made = change(lines, at, match, source);
      if (!made || made.lines.length === 0) return null;
      const texts = edited(source, source.main, made.edits);
      return { texts, codes: made.codes ?? codes, file: source.main, lines: made.lines };
    });
  };
  return { name, proof, sites };
}

/** Outside of texts: the first match is replaced. */
function replaced(line: string, pattern: RegExp, by: string | ((match: string) => string)): string {
  const parts = line.split(/("(?:\\.|[^"\\])*"|\/\/.*$)/);
  let done = false;
  return parts
    .map((part, i) => {
      if (i % 2 === 1 || done || !pattern.test(part)) return part;
      done = true;
      return part.replace(pattern, by as string);
    })
    .join("");
}

const FIGURE =
  /(?:^|; | )(?:tighten|weight|limit|stage [\w-]+|open-time|cure|pitch|working-time|wait|run-in [\w-]+)(?: at (?:most|least))? \d/;

/** A letter in the middle doubled. */
const misspelt = (name: string): string => {
  const at = Math.max(1, Math.floor(name.length / 2));
  return `${name.slice(0, at)}${name[at] === "z" ? "x" : "z"}${name.slice(at)}`;
};

/** Other units of each kind. */
const WRONG: readonly (readonly [RegExp, string])[] = [
  [/(?<=\d )N·m(?! \()/, "mm"],
  [/(?<=\d )kg/, "mm"],
  [/(?<=\d )min(?=$|\s)/, "mm"],
  [/(?<=\d )h(?=$|\s)/, "kg"],
];

const onFigures = (name: string, proof: string, code: string, change: (line: string) => string): Kind =>
  onLines(name, proof, FIGURE, [code], change);

export const FIGURE_KINDS: readonly Kind[] = [
  onLines(
    "unit of another kind",
    "a torque, weight or time in a unit that is none",
    FIGURE,
    ["wrong-dimension"],
    (line) => {
      const one = WRONG.find(([unit]) => unit.test(line.replace(/"[^"]*"/g, "")));
      return one && !/\d to \d|±/.test(line) ? replaced(line, one[0], one[1]) : null;
    },
  ),
  onLines("unit left out", "a figure alone, where a quantity must stand", FIGURE, ["bare-number"], (line) =>
    /\(|\d (?:h|kg|mm) \d/.test(line) ? null : replaced(line, / (?:N·m|kg|min|mm|h)(?=$|\s)/, ""),
  ),
  onFigures("unit that nobody knows", "no such unit exists", "unknown-unit", (line) =>
    /\(/.test(line) ? line : replaced(line, /(?<=\d )(?:N·m|kg|min|mm)(?=$|\s)/, (unit) => `${unit}q`),
  ),
  onLines("decimal comma", "a comma within a number", /\d\.\d+/, ["decimal-comma"], (line, match) =>
    /^thread/.test(match.input) ? null : replaced(line, /(\d)\.(\d)/, "$1,$2"),
  ),
  onLines(
    "limits the wrong way round",
    "the lower end is the greater figure",
    /\d+(?:\.\d+)? to \d/,
    ["limits-reversed"],
    (line, match) =>
      /holes|^mark|belt-off/.test(match.input)
        ? null
        : replaced(line, /(\d+(?:\.\d+)?) to (\d+(?:\.\d+)?)/, "$2 to $1"),
  ),
  onLines(
    "figure in the second unit wrong",
    "the two figures differ by half",
    /\d N·m \(\d+ lb·ft\)/,
    ["units-disagree"],
    (line) =>
      line.replace(/\((\d+) lb·ft\)/, (_, figure: string) => `(${Math.round(Number(figure) * 1.5)} lb·ft)`),
  ),
  onLines(
    "name misspelt",
    "nothing bears the name with a strange letter in it",
    /^(?:remove|fit|tighten|drain|fill|connect|disconnect|insert|pull) (?:new )?([\w-]{3,})/,
    ["unknown-name"],
    (line, match) => line.replace(match[1] as string, misspelt(match[1] as string)),
  ),
  onLines(
    "name declared twice",
    "a copy of a declaration under the same name",
    /^(?:part|fastener|tool|fluid|temporary) ([\w-]+) ""(?! \{)[^{]*$/,
    ["duplicate-name"],
    (line) => `${line}\n${line}`,
    1,
  ),
  onLines(
    "word mistyped",
    "no line begins with that word",
    /^(?:remove|fit|tighten|limit|observe|record|wait|weight|behind|secures) /,
    ["not-understood"],
    (line) => line.replace(/^(\s*)(\w)(\w)/, "$1$3q$2"),
  ),
];

/** The count changed, where a layout gives the number of holes; found at the head. */
export const countKind: Kind = {
  name: "count that is not the number of holes",
  proof: "one more is said than the layout has holes",
  sites: (source) =>
    Object.keys(source.texts).flatMap((file) =>
      matches(source, file, /^count (\d+)$/).map(({ at, match }) => () => {
        const lines = linesOf(source, file);
        const end = lines.findIndex((line, i) => i > at && line.trim() === "}");
        const layout = lines.findIndex(
          (line, i) => i > at && i < end && /^\s*layout .*holes 1 to/.test(line),
        );
        if (layout < 0) return null;
        const now = (lines[at] as string).replace(/\d+/, String(Number(match[1]) + 1));
        return {
          texts: edited(source, file, new Map([[at, now]])),
          codes: ["count-differs"],
          file,
          lines: [headsAround(lines, at)[0] as number],
        };
      }),
    ),
};
