/**
 * Wrong changes to tools, kit, labels, people and times. They are wrong by how they are made: the reason stands beside
 * each kind.
 */
import { blockAt, headsAround, indentOf, type Kind } from "../change";
import { bareLine } from "../nodes";
import { inProcedure } from "./figures";
import { leftOut, linesThat, nextThat, saidLess, word } from "./finding";

export const TRADE_KINDS: readonly Kind[] = [
  saidLess(
    "wrench left out",
    "a torque with nothing that shows it",
    /^tighten [\w-]+ with [\w-]*wrench( |$)/,
    / +with [\w-]*wrench/,
    ["tool-undeclared"],
  ),
  inProcedure(
    "wrench too small",
    "the wrench ends at 1.5 N·m, and no bolt is tightened to less",
    /^tool ([\w-]+) "" \d+ to \d+ N·m$/,
    ["tool-out-of-range"],
    (lines, at, match) => ({
      edits: new Map([[at, (lines[at] as string).replace(/\d+ to \d+ N·m/, "1 to 1.5 N·m")]]),
      lines: linesThat(lines, new RegExp(`^(?:tighten|stage) .*with .*${word(match[1] as string)}`)),
    }),
  ),
  leftOut(
    "kit item left out",
    "the old one is thrown away, and the new one is in no kit",
    /^item ([\w-]+) \d/,
    "kit-item-missing",
    (lines, _at, match) =>
      linesThat(lines, new RegExp(`^item ${word(match[1] as string)}`)).length > 1 ||
      linesThat(lines, new RegExp(`^remove .*${word(match[1] as string)}.* discard`)).length === 0
        ? []
        : linesThat(lines, new RegExp(`^fit new ${word(match[1] as string)}`)),
  ),
  inProcedure(
    "kit item that nobody fits",
    "nothing is fitted new under that name",
    /^kit "" \{$/,
    ["kit-item-unused"],
    (lines, at) => {
      const isFittedNew = (name: string): boolean =>
        lines.some((l) => new RegExp(`fit new ${word(name)}`).test(l));
      const names = lines.flatMap((l) => /^\s*remove ([\w-]+)(?: +keep)?$/.exec(l)?.[1] ?? []);
      const name = names.find((n) => !isFittedNew(n));
      return name
        ? { edits: new Map([[at, `${lines[at]}\n    item ${name} 1 "X-1"`]]), lines: [at + 1] }
        : null;
    },
  ),
  inProcedure(
    "tool that nobody uses",
    "no line names it",
    /^tool ([\w-]+) "" ?/,
    ["tool-unused"],
    (lines, at) => ({
      edits: new Map([[at, `${indentOf(lines[at] as string)}tool odd-tool "Odd tool"\n${lines[at]}`]]),
      lines: [at],
    }),
  ),
  inProcedure(
    "label left out",
    "the machine says that the two are like each other, and both are off at once",
    /^label ([\w-]+), ([\w-]+) ""$/,
    ["not-told-apart", "long-and-short-mixed"],
    (lines, at, match, source) => {
      const off = [match[1], match[2]].map(
        (name) =>
          linesThat(lines, new RegExp(`^(?:disconnect|remove) (?:[\\w-]+, )*${word(name as string)}`), at)[0],
      );
      const [one, other] = off;
      if (one === undefined || other === undefined) return null;
      const isBolt = Object.values(source.texts).some((text) =>
        new RegExp(`^ *fastener ${word(match[1] as string)}`, "m").test(text),
      );
      // With the second of them off, nobody can tell which is which. Bolts have a code of their own.
      const codes = [isBolt ? "long-and-short-mixed" : "not-told-apart"];
      return { edits: new Map([[at, null]]), lines: [Math.max(one, other)], codes };
    },
  ),
  saidLess(
    "which way round left out",
    "the machine says that it goes one way",
    /^fit .* way-round [\w-]+$/,
    / +way-round [\w-]+/,
    ["way-round-unsaid"],
  ),
  saidLess(
    "own place left out",
    "the machine says that each goes back where it was",
    /^fit [\w-]+ in own place$/,
    / +in own place/,
    ["own-place-lost"],
  ),
  inProcedure(
    "nobody watches",
    "what is under high voltage is watched at one act and not at the other",
    /^(?:remove|disconnect) .*watched by [\w-]+$/,
    ["second-person-absent"],
    (lines, at) =>
      linesThat(lines, /^(?:remove|disconnect) .*watched by [\w-]+$/).length < 2
        ? null
        : { edits: new Map([[at, (lines[at] as string).replace(/ +watched by [\w-]+/, "")]]), lines: [at] },
  ),
  leftOut(
    "tester not proved",
    "a tester is proved before and after",
    /^prove ([\w-]+) on/,
    "tester-not-proved",
    (lines, _at, match) => {
      const proofs = linesThat(lines, new RegExp(`^prove ${word(match[1] as string)}`));
      const uses = linesThat(lines, new RegExp(`^limit .*with ${word(match[1] as string)}`));
      // A third proof would stand in for the one left out.
      return proofs.length === 2 ? uses.map((at) => headsAround(lines, at)[0] as number) : [];
    },
  ),
  leftOut(
    "stored charge not waited for",
    "the machine says how long the charge stays",
    /^wait (\d+) min$/,
    "wait-missing",
    (lines, at) => {
      // A wait for another circuit, cut off before, would do as well.
      const isolated = linesThat(lines, /^isolate /, -1, at).filter(
        (line, _, all) => line === at - 1 && all.length === 1,
      );
      const touched = linesThat(lines, /^remove [\w-]*condenser(?:-\d+)?(?: |$)/, at)[0] ?? -1;
      return isolated.length > 0 &&
        touched >= 0 &&
        !lines.slice(at, touched).some((line) => /^\s*prove /.test(line))
        ? [touched]
        : [];
    },
  ),
  inProcedure(
    "too short a wait for the cure",
    "the sealant says how long it needs before its fluid is filled in or the machine is started",
    /^wait (\d) h after ([\w-]+)/,
    ["cured-too-soon"],
    (lines, at, match, source) => {
      const step = linesThat(lines, new RegExp(`^step ${word(match[2] as string)}`))[0] ?? -1;
      const [seal = -1] = linesThat(lines, /^seal [\w-]+ with/, step, at);
      const part = /^seal ([\w-]+)/.exec(bareLine(lines[seal] ?? ""))?.[1];
      const fluid = Object.values(source.texts)
        .map((text) => new RegExp(`^ *part ${part} [^}]*?contains +([\\w-]+)`, "m").exec(text)?.[1])
        .find((found) => found !== undefined);
      const loads = linesThat(lines, fluid ? new RegExp(`^(?:fill ${word(fluid)}|start )`) : /^start /, at);
      return {
        edits: new Map([[at, (lines[at] as string).replace(/wait \d h/, "wait 10 min")]]),
        lines: loads.slice(0, 1),
      };
    },
  ),
  inProcedure(
    "sealant open for too long",
    "the wait is longer than any open time here",
    /^seal ([\w-]+) with [\w-]+$/,
    ["open-time-passed"],
    (lines, at, match) => ({
      edits: new Map([[at, `${lines[at]}\n${indentOf(lines[at] as string)}wait 2 h`]]),
      lines: [nextThat(lines, at, new RegExp(`^fit (?:new )?${word(match[1] as string)}`)) + 1],
    }),
  ),
  inProcedure(
    "what was proved is disturbed",
    "the bolt is slackened after the check that proved it, and nothing proves it again",
    /^proves ([\w-]+)(?:, [\w-]+)*$/,
    ["verified-then-disturbed"],
    (lines, at, match) => {
      const names = match[0].replace("proves ", "").split(", ");
      const name = names.find((n) => lines.some((l) => new RegExp(`tighten ${word(n)} +with`).test(l)));
      const check = headsAround(lines, at)[0];
      if (check === undefined || !name) return null;
      if (lines.some((line, i) => i > at && /^\s*proves /.test(line) && new RegExp(word(name)).test(line)))
        return null;
      const end = blockAt(lines, check);
      const tight = lines.find((l) => new RegExp(`tighten ${word(name)} +with`).test(l)) as string;
      const pad = indentOf(lines[check] as string);
      const step = [`step "Once more" {`, `  loosen ${name}`, `  ${tight.trim()}`, "}"].map((l) => pad + l);
      return { edits: new Map([[end, `${lines[end]}\n${step.join("\n")}`]]), lines: [end + 2] };
    },
  ),
];
