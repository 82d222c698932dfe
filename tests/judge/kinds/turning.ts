/**
 * Wrong changes to what turns: shafts, pins, belts, bolts that sit on them. They are wrong by how they are made: the
 * reason stands beside each kind.
 */
import { blockAt, headsAround, type Kind, linesOf } from "../change";
import { inProcedure } from "./figures";
import { linesThat, nextThat, onLinesBefore, saidLess, word } from "./finding";

export const TURNING_KINDS: readonly Kind[] = [
  saidLess(
    "nothing held",
    "the bolt sits on a shaft whose belt is off",
    /^(?:tighten|remove) .*holding [\w-]*(?:pulley|wheel|sprocket)[\w-]* with [\w-]+$/,
    / +holding [\w-]+ +with [\w-]+/,
    ["nothing-holds", "pin-takes-torque"],
  ),
  onLinesBefore(
    "odd number of turns",
    "the wheels have 1 to 2 or 2 to 3 teeth, so one turn fewer puts a mark elsewhere",
    /^turn [\w-]+ (\d) turns [\w-]+/,
    "mark-cannot-align",
    /^marks /,
    (line) => line.replace(/(\d) turns/, (_, n: string) => (n === "2" ? "1 turn" : `${Number(n) - 1} turns`)),
  ),
  inProcedure(
    "turned the wrong way",
    "the machine says which way the shaft turns",
    /^turn ([\w-]+) \d turns? ((?:anti)?clockwise)/,
    ["turned-wrong-way"],
    (lines, at, match, source) => {
      const only = new RegExp(`shaft ${word(match[1] as string)}.* turns ${match[2]} only`);
      if (!Object.values(source.texts).some((text) => only.test(text))) return null;
      const other = match[2] === "clockwise" ? " anticlockwise" : " clockwise";
      const now = (lines[at] as string).replace(/ (?:anti)?clockwise/, other);
      return { edits: new Map([[at, now]]), lines: [at] };
    },
  ),
  inProcedure(
    "turned with the pin in",
    "the pin is in the shaft that is turned",
    /^pull ([\w-]*(?:crank|motor)-pin[\w-]*)$/,
    ["turned-with-pin-in"],
    (lines, at) => {
      const turn = nextThat(lines, at, /^turn /);
      if (turn < 0 || headsAround(lines, at).some((h) => /^\s*if /.test(lines[h] as string))) return null;
      const edits = new Map([
        [at, null],
        [turn, `${lines[turn]}\n${lines[at]}`],
      ]);
      return { edits, lines: [turn] };
    },
  ),
  inProcedure(
    "stages in the wrong order",
    "the last stage stands before the first",
    /^stage [\w-]+ with [\w-]+$/,
    ["stage-out-of-order"],
    (lines, at) => {
      const next = at + 1;
      if (!/^\s*stage .* with /.test(lines[next] ?? "")) return null;
      return {
        edits: new Map([
          [at, lines[next] as string],
          [next, lines[at] as string],
        ]),
        lines: [at, next, headsAround(lines, at)[0] ?? at],
      };
    },
  ),
  inProcedure(
    "pulley left out of the lay-on",
    "the belt's path has one more",
    /^lay-on [\w-]+ (?:anti)?clockwise ([\w-]+), /,
    ["run-misses"],
    (lines, at, match) => ({
      edits: new Map([[at, (lines[at] as string).replace(`${match[1]}, `, "")]]),
      lines: [at],
    }),
  ),
  inProcedure(
    "pulley twice in the lay-on",
    "the belt's path has it once",
    /^lay-on [\w-]+ (?:anti)?clockwise ([\w-]+), /,
    ["run-repeats"],
    (lines, at, match) => ({ edits: new Map([[at, `${lines[at]}, ${match[1]}`]]), lines: [at] }),
  ),
  {
    name: "renewal left out at a stretched bolt",
    proof: "a bolt tightened by torque, then by angle, with no word on renewal",
    sites: (source) =>
      Object.keys(source.texts).flatMap((file) => {
        const lines = linesOf(source, file);
        return linesThat(lines, /^renew every time$/).map((at) => () => {
          const head = headsAround(lines, at)[0] ?? -1;
          const stages = linesThat(lines, /^stage [\w-]+ \d+°/, head, blockAt(lines, head));
          if (!/^\s*fastener/.test(lines[head] ?? "") || stages.length === 0) return null;
          const left = lines.map((line, i) => (i === at ? "" : line)).join("\n");
          const inside = Array.from({ length: blockAt(lines, head) - head }, (_, i) => head + i);
          return {
            texts: { ...source.texts, [file]: left },
            codes: ["yield-without-renewal"],
            file,
            lines: inside,
          };
        });
      }),
  },
];
