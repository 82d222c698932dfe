/**
 * Wrong changes to braces, words and names, and to what is declared. They are wrong by how they are made: the reason
 * stands beside each kind.
 */
import { blockAt, edited, indentOf, type Kind, linesOf, matches, type Site } from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";
import { inProcedure, onLines } from "./figures";

/** Letters that look the same in another alphabet. */
const CYRILLIC: Readonly<Record<string, string>> = { a: "а", c: "с", e: "е", o: "о", p: "р", x: "х" };

/** The first name behind a word with one letter that only looks right. */
function withOtherLetter(line: string): string {
  return line.replace(/^(\s*\w+ +(?:new )?)([\w-]+)/, (all, before: string, name: string) => {
    const at = [...name].findIndex((letter) => CYRILLIC[letter] !== undefined);
    if (at < 0) return all;
    return before + name.slice(0, at) + CYRILLIC[name[at] as string] + name.slice(at + 1);
  });
}

const STEP = /^step (?:[\w-]+ )?"" \{$/;

/** Something declared in front of a line that nothing names. */
const declared = (name: string, pattern: RegExp, text: string): Kind =>
  inProcedure(name, "nothing names it", pattern, ["unused-declaration"], (lines, at) => ({
    edits: new Map([[at, `${indentOf(lines[at] as string)}${text}\n${lines[at]}`]]),
    lines: [at],
  }));

export const SHAPE_KINDS: readonly Kind[] = [
  inProcedure(
    "closing brace left out",
    "a step opened and never closed",
    STEP,
    ["block-not-closed"],
    (lines, at) => ({ edits: new Map([[blockAt(lines, at), null]]), lines: [at] }),
  ),
  inProcedure("closing brace too many", "it closes nothing", STEP, ["brace-stray"], (lines, at) => {
    const end = blockAt(lines, at);
    // Two lines that are the same: which of them is one too many, nobody can tell.
    return { edits: new Map([[end, `${lines[end]}\n${lines[end]}`]]), lines: [end, end + 1] };
  }),
  inProcedure("opening brace left out", "a step needs a block", STEP, ["brace-missing"], (lines, at) => ({
    edits: new Map([[at, (lines[at] as string).replace(/ *\{$/, "")]]),
    lines: [at],
  })),
  onLines(
    "letter of another alphabet in a name",
    "it looks the same, and no name is spelt so",
    /^(?:remove|fit|tighten|connect|disconnect) (?:new )?[\w-]+/,
    ["look-alike-letter"],
    withOtherLetter,
  ),
  onLines(
    "fact said twice",
    "one count, and another",
    /^count (\d+)$/,
    ["said-twice"],
    (line, match) => `${line}\n${line.replace(match[1] as string, String(Number(match[1]) + 1))}`,
    1,
  ),
  onLines(
    "act among the facts of a machine",
    "a machine is, and does nothing",
    /^machine [\w-]+ "" \{$/,
    ["out-of-place"],
    (line) => `${line}\n  wait 5 min`,
    1,
  ),
  onLines(
    "fact of a bolt among the acts",
    "a torque is said of a fastener, not of a step",
    STEP,
    ["out-of-place"],
    (line) => `${line}\n${indentOf(line)}  secures nothing-here`,
    1,
  ),
  inProcedure(
    "tool taken off the machine",
    "a tool is no part of it",
    /^(?:remove|disconnect|open) ([\w-]+)$/,
    ["wrong-kind"],
    (lines, at, match) => {
      const tool = lines.flatMap((line) => /^\s*tool ([\w-]+) /.exec(line)?.[1] ?? [])[0];
      if (!tool) return null;
      return {
        edits: new Map([[at, (lines[at] as string).replace(match[1] as string, tool)]]),
        lines: [at],
      };
    },
  ),
  onLines("used file that is not there", "no file has that name", /^use ""$/, ["missing-file"], (line) =>
    line.replace(/"(\w)/, '"x$1'),
  ),
  onLines(
    "version of the language that is none",
    "there is no version 9",
    /^torquil 1$/,
    ["version-unknown"],
    (line) => line.replace("1", "9"),
  ),
  onLines(
    "minutes before hours",
    "the parts of one figure get finer",
    /^working-time (\d+ h) (\d+ min)$/,
    ["bad-number"],
    (line, match) => line.replace(/\d+ h +\d+ min/, `${match[2]} ${match[1]}`),
  ),
  declared("supply that nobody uses", /^tool [\w-]+ "" ?/, 'consumable odd-supply "Odd supply"'),
  declared("symptom that nobody asks about", /^tool [\w-]+ "" ?/, 'symptom odd-noise "An odd noise"'),
  declared("pin that nobody puts in", /^tool [\w-]+ "" ?/, 'temporary odd-pin "Odd pin"'),
  machineUsesItsUser(),
];

/** The machine file uses the procedure’s, which uses it. */
function machineUsesItsUser(): Kind {
  const sites = (source: Source): Site[] =>
    matches(source, source.main, /^use ""$/).flatMap(({ at }) => {
      const name = /use +"([^"]+)"/.exec(linesOf(source, source.main)[at] as string)?.[1] ?? "";
      const first =
        source.texts[name] === undefined
          ? -1
          : linesOf(source, name).findIndex((l) => bareLine(l) === "torquil 1");
      if (first < 0) return [];
      const line = linesOf(source, name)[first] as string;
      const texts = edited(source, name, new Map([[first, `${line}\nuse "${source.main}"`]]));
      return [() => ({ texts, codes: ["include-loop"], file: name, lines: [first + 1] })];
    });
  return { name: "files that use each other", proof: "each then waits for the other", sites };
}
