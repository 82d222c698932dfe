/**
 * Wrong changes to cautions. Only cautions are taken that stand in a step or outcome right before the act that needs
 * them, where no other of the same hazard stands: so the place is the act behind them.
 */
import {
  blockAt,
  type Change,
  type Edits,
  edited,
  indentOf,
  type Kind,
  linesOf,
  matches,
  type Site,
} from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";
import { inProcedure, onLines } from "./figures";

const HEAD = /^(danger|warning|caution|notice) ([\w-]+) \{$/;

/** The line of the act right behind a caution, past prose and other cautions; -1 where none is. */
function actBehind(lines: readonly string[], head: number, hazard: string): number {
  let at = blockAt(lines, head) + 1;
  for (; at < lines.length; at++) {
    const bare = bareLine(lines[at] as string);
    if (bare === "" || bare === '""' || bare.startsWith("wait ")) continue;
    const other = HEAD.exec(bare);
    if (!other) break;
    if (other[2] === hazard) return -1;
    at = blockAt(lines, at);
  }
  return at;
}

/** Which acts raise a hazard, by their words: only these are taken. */
const RAISES: Readonly<Record<string, RegExp>> = {
  "electric-shock": /^remove |^disconnect /,
  "stored-energy": /^pull /,
  burn: /^drain /,
  injection: /^drain |^disconnect /,
  chemical: /^(?:clean|lubricate|seal) /,
  crushing: /^support |^remove |^raise /,
  noise: /^start /,
  dust: /^start /,
  "exhaust-gas": /^start /,
};

/** All acts right behind each other that need the caution: the first that raises the hazard is the place. */
function raising(source: Source, head: number, hazard: string): readonly number[] {
  const lines = linesOf(source, source.main);
  const pattern = RAISES[hazard];
  const first = actBehind(lines, head, hazard);
  if (first < 0 || !pattern) return [];
  const isFastener = (act: string): boolean => {
    const name = /^remove ([\w-]+)/.exec(act)?.[1];
    return Object.values(source.texts).some((text) => new RegExp(`^ *fastener ${name} `, "m").test(text));
  };
  for (let at = first; at < Math.min(first + 4, lines.length); at++) {
    const bare = bareLine(lines[at] as string);
    // Told of before, and not of another act that was done since, it need not be told again.
    const before = lines.slice(0, head).findLastIndex((l) => HEAD.exec(bareLine(l))?.[2] === hazard);
    if (
      before >= 0 &&
      (hazard === "chemical" || !lines.slice(before, head).some((l) => isRaised(source, l, pattern)))
    )
      return [];
    if (
      isRaised(source, bare, pattern) &&
      !isFastener(bare) &&
      (hazard !== "chemical" || isHarmful(source, bare))
    )
      return [at];
    if (!/^(?:open|remove|insert|wait|align|close|clean) /.test(bare)) return [];
  }
  return [];
}

/** Whether a line raises a hazard; of what is removed, only what is heavy or bears something can crush. */
function isRaised(source: Source, line: string, pattern: RegExp): boolean {
  const bare = bareLine(line);
  const part = /^remove ([\w-]+)/.exec(bare)?.[1];
  if (!pattern.test(bare)) return false;
  if (pattern !== RAISES.crushing || !part) return true;
  return Object.values(source.texts).some((text) => {
    const facts = new RegExp(`^ *part ${part} (?:[^{\n]*$|[^}]*\\})`, "m").exec(text)?.[0] ?? "";
    return /[ ;]bears +[\w-]/.test(facts) || Number(/weight +(\d+)/.exec(facts)?.[1] ?? 0) > 15;
  });
}

/** Whether the supply that an act is done with is said to be harmful. */
function isHarmful(source: Source, act: string): boolean {
  const supply = /with ([\w-]+)$/.exec(act)?.[1];
  return Object.keys(source.texts).some((file) => {
    const lines = linesOf(source, file);
    const head = lines.findIndex((line) => line.trim().startsWith(`consumable ${supply} `));
    return (
      head >= 0 &&
      lines.slice(head, blockAt(lines, head) + 1).some((l) => /(?<![\w-])harmful(?![\w-])/.test(bareLine(l)))
    );
  });
}

function onCautions(
  name: string,
  proof: string,
  code: string,
  change: (
    lines: readonly string[],
    head: number,
    act: number,
    match: RegExpExecArray,
  ) => { edits: Edits; lines: readonly number[] } | null,
): Kind {
  const sites = (source: Source): Site[] => {
    const lines = linesOf(source, source.main);
    return matches(source, source.main, HEAD).map(({ at, match }) => (): Change | null => {
      const [act] = raising(source, at, match[2] as string);
      if (act === undefined) return null;
      const made = change(lines, at, act, match);
      if (!made) return null;
      return {
        texts: edited(source, source.main, made.edits),
        codes: [code],
        file: source.main,
        lines: made.lines,
      };
    });
  };
  return { name, proof, sites };
}

const rangeOf = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

export const CAUTION_KINDS: readonly Kind[] = [
  onCautions(
    "caution left out",
    "the act behind it raises the hazard",
    "caution-missing",
    (lines, head, act) => {
      const taken = rangeOf(head, blockAt(lines, head)).map((at) => [at, null] as const);
      return { edits: new Map(taken), lines: [act] };
    },
  ),
  onCautions(
    "caution behind the act",
    "a caution is read before the act",
    "caution-late",
    (lines, head, act, match) => {
      const last = blockAt(lines, head);
      // A later act of the kind would make it a caution on that one.
      const end = lines.findIndex((line, i) => i > act && line.trim() === "}");
      const pattern = RAISES[match[2] as string] as RegExp;
      if (lines.slice(act + 1, end).some((line) => pattern.test(bareLine(line)))) return null;
      const block = lines.slice(head, last + 1).join("\n");
      const edits = new Map<number, string | null>(rangeOf(head, last).map((at) => [at, null]));
      edits.set(act, `${lines[act]}\n${block}`);
      return { edits, lines: [act] };
    },
  ),
  onCautions(
    "signal word too weak",
    "it stands at the least word that the hazard allows",
    "caution-too-weak",
    (lines, head, _act, match) => {
      const weaker: Readonly<Record<string, string>> = {
        danger: "warning",
        warning: "caution",
        caution: "notice",
      };
      const word = weaker[match[1] as string];
      const isLeast = match[2] === "electric-shock" || match[2] === "exhaust-gas" || match[1] !== "danger";
      if (!word || !isLeast) return null;
      return {
        edits: new Map([[head, (lines[head] as string).replace(match[1] as string, word)]]),
        lines: [head],
      };
    },
  ),
  inProcedure(
    "part of a caution left out",
    "a caution has three parts",
    /^(can|so) ""$/,
    ["caution-incomplete"],
    (lines, at) => {
      const head = lines.findLastIndex((line, i) => i < at && HEAD.test(bareLine(line)));
      return { edits: new Map([[at, null]]), lines: [head] };
    },
  ),
  inProcedure(
    "jump past a caution",
    "the jump leads to the step with the act, and the caution stands in the step before it",
    /^go on$/,
    ["caution-passed-by"],
    (lines, at) => {
      const head = lines.findIndex((line, i) => i > at && HEAD.test(bareLine(line)));
      if (head < 0) return null;
      const end = blockAt(lines, head);
      const step = /^step ([\w-]+) "/.exec((lines[end + 2] as string).trim());
      const act = end + 3;
      if (
        !step ||
        !RAISES[HEAD.exec(bareLine(lines[head] as string))?.[2] ?? ""]?.test(bareLine(lines[act] as string))
      )
        return null;
      return { edits: new Map([[at, `${indentOf(lines[at] as string)}go to ${step[1]}`]]), lines: [act] };
    },
  ),
  onLines("hazard misspelt", "no hazard of that name is known", HEAD, ["unknown-hazard"], (line, match) =>
    line.replace(match[2] as string, `${(match[2] as string).slice(0, 2)}q${(match[2] as string).slice(2)}`),
  ),
];
