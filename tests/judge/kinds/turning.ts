/**
 * Wrong changes to what turns: shafts, pins, belts, bolts that sit on them. They are wrong by how they are made: the
 * reason stands beside each kind.
 */
import { blockAt, headsAround, indentOf, type Kind, linesOf } from "../change";
import { inProcedure } from "./figures";
import { linesThat, nextThat, onLinesBefore, word } from "./finding";

export const TURNING_KINDS: readonly Kind[] = [
  inProcedure(
    "nothing held",
    "the bolt sits on a shaft whose belt is off, and no pin is in it",
    /^(?:tighten|remove) .*holding ([\w-]*(?:pulley|wheel|sprocket|gear)[\w-]*) with [\w-]+$/,
    ["nothing-holds"],
    (lines, at, match, source) => {
      const held = match[1] as string;
      const all = Object.values(source.texts).join("\n");
      const shaft = new RegExp(`pulley +${held} .* on +([\\w-]+)`).exec(all)?.[1] ?? held;
      const pins = [...all.matchAll(/^ *temporary ([\w-]+) .* into +([\w-]+)/gm)]
        .filter(([, , into]) => into === held || into === shaft)
        .map(([, pin]) => pin as string);
      const belt = new RegExp(`^ *belt ([\\w-]+) [^}]*pulley +${held} `, "m").exec(all)?.[1];
      const isOff = linesThat(lines, new RegExp(`^remove ${word(belt ?? "")}`), -1, at).length > 0;
      const isIn = pins.some(
        (pin) => linesThat(lines, new RegExp(`^insert .*${word(pin)}`), -1, at).length > 0,
      );
      if (!belt || !isOff || isIn) return null;
      const now = (lines[at] as string).replace(/ +holding [\w-]+ +with [\w-]+/, "");
      return { edits: new Map([[at, now]]), lines: [at] };
    },
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
        // The tightening as a whole has the order.
        lines: [headsAround(lines, at)[0] ?? -1],
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
          return {
            texts: { ...source.texts, [file]: left },
            codes: ["yield-without-renewal"],
            file,
            lines: stages.slice(0, 1),
          };
        });
      }),
  },
  inProcedure(
    "shaft turned while its belt is off",
    "it is coupled by teeth, and nothing says that it may be turned then",
    /^remove ([\w-]+) discard$/,
    ["turned-with-belt-off"],
    (lines, at, match, source) => {
      const all = Object.values(source.texts).join("\n");
      const belt = new RegExp(`^ *(?:belt|chain) ${match[1]} [^]*?^ *\\}`, "m").exec(all)?.[0] ?? "";
      const shafts = [...belt.matchAll(/ teeth +\d+.* on +([\w-]+)/g)].map((m) => m[1] as string);
      const isHeld = lines.slice(0, at).some((line) => /^\s*insert /.test(line));
      const shaft = shafts.find((s) => !new RegExp(`shaft ${s} .*belt-off`).test(all));
      const isToothed = /^ *chain|^ *toothed/m.test(belt);
      const way = new RegExp(`shaft ${shaft} .*turns ((?:anti)?clockwise)`).exec(all)?.[1];
      if (!shaft || shafts.length < 2 || !isToothed || isHeld || !way) return null;
      const turn = `${indentOf(lines[at] as string)}turn ${shaft} 1 turn ${way}`;
      return { edits: new Map([[at, `${lines[at]}\n${turn}`]]), lines: [at + 1] };
    },
  ),
  inProcedure(
    "started with something on the shaft",
    "it is pulled off only after the machine has run",
    /^pull ([\w-]+)$/,
    ["tool-left-on"],
    (lines, at, match) => {
      const on = linesThat(lines, new RegExp(`^temporary ${word(match[1] as string)} .* on [\\w-]+$`));
      const start = nextThat(lines, at, /^start [\w-]+$/);
      if (on.length === 0 || start < 0) return null;
      const edits = new Map([
        [at, null],
        [start, `${lines[start]}\n${lines[at]}`],
      ]);
      return { edits, lines: [start] };
    },
  ),
  inProcedure(
    "mark looked at behind what is on",
    "the machine says what stands in front of the mark",
    /^marks ([\w-]+), /,
    ["measured-before-reachable"],
    (lines, at, match, source) => {
      const all = Object.values(source.texts).join("\n");
      const front = new RegExp(`mark +${match[1]} .*behind ([\\w-]+)`).exec(all)?.[1];
      const fit = linesThat(lines, new RegExp(`^fit ${word(front ?? "")}$`), at)[0] ?? -1;
      const check = headsAround(lines, at)[0];
      if (!front || fit < 0 || check === undefined) return null;
      const edits = new Map([
        [fit, null],
        [
          check,
          `${indentOf(lines[check] as string)}step "Close it" {\n${lines[fit]}\n${indentOf(lines[check] as string)}}\n${lines[check]}`,
        ],
      ]);
      return { edits, lines: [check + 3] };
    },
  ),
];
