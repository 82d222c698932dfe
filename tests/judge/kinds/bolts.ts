/**
 * Wrong changes to how fasteners are tightened, and with what. They are wrong by how they are made: the reason stands
 * beside each kind.
 */
import { blockAt, edited, headsAround, indentOf, type Kind, linesOf, matches, type Site } from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";
import { inProcedure, onLines } from "./figures";
import { linesThat, word } from "./finding";

/** A kind that changes a fastener's block, in any file. */
function inFasteners(
  name: string,
  proof: string,
  pattern: RegExp,
  code: string,
  /** Where it shows: in a file, at lines; null where nothing is wrong. */
  shows: (
    source: Source,
    file: string,
    head: number,
    at: number,
  ) => { file: string; lines: readonly number[] } | null,
): Kind {
  const sites = (source: Source): Site[] =>
    Object.keys(source.texts).flatMap((file) =>
      matches(source, file, pattern).map(({ at }) => () => {
        const lines = linesOf(source, file);
        const head = headsAround(lines, at)[0] ?? -1;
        if (!/^fastener /.test(bareLine(lines[head] ?? ""))) return null;
        const place = shows(source, file, head, at);
        if (!place || place.lines.length === 0) return null;
        return { texts: edited(source, file, new Map([[at, null]])), codes: [code], ...place };
      }),
    );
  return { name, proof, sites };
}

const nameAt = (lines: readonly string[], head: number): string =>
  /^fastener ([\w-]+)/.exec(bareLine(lines[head] as string))?.[1] ?? "";

/** Whether a fastener is turned by an angle after its torque. */
const turnsOn = (lines: readonly string[], head: number): boolean =>
  linesThat(lines, /^stage [\w-]+ \d+°/, head, blockAt(lines, head)).length > 0;

export const BOLT_KINDS: readonly Kind[] = [
  inFasteners(
    "torque left out",
    "it is tightened, and nowhere is said how tight",
    /^tighten \d[^;]*$/,
    "tightening-missing",
    (source, file, head) => {
      const name = nameAt(linesOf(source, file), head);
      const acts = linesThat(linesOf(source, source.main), new RegExp(`^tighten ${word(name)}`));
      return { file: source.main, lines: acts.slice(0, 1) };
    },
  ),
  inFasteners(
    "state of the thread left out at a stretched bolt",
    "a torque, then an angle, with no word on oil",
    /^(?:dry|oiled .*|locked .*|as supplied)$/,
    "thread-state-unsaid",
    (source, file, head) => (turnsOn(linesOf(source, file), head) ? { file, lines: [head] } : null),
  ),
  {
    name: "left-hand thread in the title alone",
    proof: "the title says so, and no line does",
    sites: (source) =>
      Object.keys(source.texts).flatMap((file) =>
        matches(source, file, /^fastener [\w-]+ "" \{$/).map(({ at }) => () => {
          const lines = linesOf(source, file);
          const isSaid = linesThat(lines, /^left-hand/, at, blockAt(lines, at)).length > 0;
          if (isSaid || /left-hand/i.test(lines[at] as string)) return null;
          const now = (lines[at] as string).replace(/"([^"]*)"/, '"$1, left-hand thread"');
          const texts = edited(source, file, new Map([[at, now]]));
          return { texts, codes: ["left-hand-unsaid"], file, lines: [at] };
        }),
      ),
  },
  inProcedure(
    "angle with nothing to measure it",
    "so many degrees, and no tool",
    /^stage [\w-]+ with [\w-]*(?:angle|disc)[\w-]*$/,
    ["angle-gauge-missing"],
    (lines, at) => ({
      edits: new Map([[at, (lines[at] as string).replace(/ +with [\w-]+/, "")]]),
      lines: [at],
    }),
  ),
  inProcedure(
    "first stage left out",
    "the last stage stands alone, on a bolt that was placed by hand",
    /^stage [\w-]+ with [\w-]+$/,
    ["stage-out-of-order"],
    (lines, at) => {
      const head = headsAround(lines, at)[0] ?? -1;
      const isFirst = head === at - 1 && /^\s*stage /.test(lines[at + 1] ?? "");
      const name = /^tighten ([\w-]+) \{$/.exec(bareLine(lines[head] as string))?.[1];
      const placed = linesThat(lines, new RegExp(`^fit (?:new )?${word(name ?? "")}.* by hand`), -1, at);
      return isFirst && name && placed.length > 0
        ? // What is missing is missed in the whole tightening.
          { edits: new Map([[at, null]]), lines: [head] }
        : null;
    },
  ),
  {
    name: "order that goes round where it should go crosswise",
    proof: "each hole is the neighbour of the one before",
    sites: (source) =>
      Object.keys(source.texts).flatMap((file) =>
        matches(source, file, /(?:^|\d N·m )crosswise$/).map(({ at }) => () => {
          const lines = linesOf(source, file);
          const head = headsAround(lines, at)[0] ?? -1;
          const end = blockAt(lines, head);
          const count = linesThat(lines, /^layout circle holes 1 to \d+$/, head, end)
            .map((l) => Number(/to (\d+)/.exec(lines[l] as string)?.[1]))
            .find((n) => n >= 4);
          if (!count || linesThat(lines, /^order /, head, end).length > 0) return null;
          const order = Array.from({ length: count }, (_, i) => i + 1).join(", ");
          const now = `${lines[at]}\n${indentOf(lines[at] as string)}order ${order}`;
          const texts = edited(source, file, new Map([[at, now]]));
          return { texts, codes: ["order-not-crosswise"], file, lines: [at + 1] };
        }),
      ),
  },
  inProcedure(
    "reach of an adapter left out",
    "in line it lengthens the wrench, and nobody can tell by how much",
    /^tool ([\w-]*crowfoot[\w-]*) "" in-line/,
    ["adapter-without-setting"],
    (lines, at, match) => ({
      edits: new Map([[at, (lines[at] as string).replace(/ +in-line .*/, "")]]),
      lines: linesThat(lines, new RegExp(`^(?:tighten|stage) .*${word(match[1] as string)}`)).slice(0, 1),
    }),
  ),
  inProcedure(
    "sealed or oiled with nothing",
    "nothing is said that it is done with, here or at the machine",
    /^(?:seal|lubricate) ([\w-]+) with [\w-]+$/,
    ["consumable-undeclared"],
    (lines, at, match, source) => {
      // A fastener says itself what it is oiled with.
      const isBolt = Object.values(source.texts).some((text) =>
        new RegExp(`^ *fastener ${word(match[1] as string)}`, "m").test(text),
      );
      const now = (lines[at] as string).replace(/ +with [\w-]+/, "");
      return isBolt ? null : { edits: new Map([[at, now]]), lines: [at] };
    },
  ),
  onLines(
    "tool used that is ruled out",
    "the line itself says that it must never be used",
    /^(?:remove|tighten) [\w-]+ with ([\w-]+)$/,
    ["forbidden-tool-used"],
    (line, match) => `${line}  never ${match[1]}`,
  ),
  inProcedure(
    "lifting gear too weak",
    "it is rated for 2 kg, and lifts more than that",
    /^tool ([\w-]+) "" rating \d+ kg$/,
    ["load-over-rating"],
    (lines, at, match, source) => {
      const weighs = (name: string): boolean =>
        Object.values(source.texts).some((text) =>
          new RegExp(`^ *part ${word(name)} .*(?:weight +\\d|\\{\n(?:[^}]*\n)? *weight +\\d)`, "m").test(
            text,
          ),
        );
      const lifted = linesThat(
        lines,
        new RegExp(`^(?:raise|lower|support|remove|fit) ([\\w-]+) .*with ${word(match[1] as string)}`),
      ).filter((l) =>
        weighs(/^\S+ ([\w-]+)/.exec(bareLine(lines[l] as string).replace(/ +/g, " "))?.[1] ?? ""),
      );
      return {
        edits: new Map([[at, (lines[at] as string).replace(/rating \d+ kg/, "rating 2 kg")]]),
        lines: lifted.slice(0, 1),
      };
    },
  ),
];
