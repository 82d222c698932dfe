/**
 * Wrong changes to checks, outcomes, returns and conditions. They are wrong by how they are made: the reason stands
 * beside each kind.
 */
import { dropped, headsAround, indentOf, type Kind } from "../change";
import { bareLine } from "../nodes";
import { inProcedure, onLines } from "./figures";

/** The first line inside a block that looks so, or -1. */
function inBlock(lines: readonly string[], head: number, last: number, pattern: RegExp): number {
  return lines.findIndex((line, i) => i > head && i < last && pattern.test(bareLine(line)));
}

/** The head of the check around a line, and its last line. */
function checkAround(lines: readonly string[], at: number): readonly [number, number] | null {
  const head = [at, ...headsAround(lines, at)].find((h) =>
    /^check [^a]|^check a(?!gain)/.test(bareLine(lines[h] as string)),
  );
  if (head === undefined) return null;
  return [head, Math.max(...dropped(lines, head).keys())];
}

const isInside = (block: readonly [number, number] | null, at: number): boolean =>
  block !== null && at > block[0] && at < block[1];

export const WAY_KINDS: readonly Kind[] = [
  onLines(
    "return without a bound",
    "nothing says how often it may go back",
    /^(?:check again|repeat from [\w-]+) at most/,
    ["endless-repeat"],
    (line) => line.replace(/ +at most \d+ times?/, ""),
  ),
  inProcedure(
    "no word on what happens when the returns are used up",
    "the outcome that goes back has no “if still”",
    /^if still /,
    ["still-missing"],
    (lines, at) => {
      const check = checkAround(lines, at);
      const outcome = bareLine(lines[at] as string).replace("still ", "");
      const head = check
        ? inBlock(lines, check[0], check[1], new RegExp(`^${outcome.replace(/[{]/g, "\\$&")}$`))
        : -1;
      if (head < 0) return null;
      return { edits: dropped(lines, at), lines: [head] };
    },
  ),
  inProcedure(
    "outcome that the check cannot have",
    "a question has no “over”, and a measurement no “yes”",
    /^if (over|under|no|yes|not met) \{$/,
    ["outcome-impossible"],
    (lines, at, match) => {
      const check = checkAround(lines, at);
      const asks = check && inBlock(lines, check[0], check[1], /^observe /) >= 0;
      const other = asks ? "over" : "yes";
      return {
        edits: new Map([[at, (lines[at] as string).replace(`if ${match[1]}`, `if ${other}`)]]),
        lines: [at],
      };
    },
  ),
  inProcedure(
    "two outcomes for one result",
    "“not met” holds whenever “over” does",
    /^if (over|under) \{$/,
    ["outcomes-overlap"],
    (lines, at) => {
      const indent = indentOf(lines[at] as string);
      const more = `${indent}if not met {\n${indent}  go on\n${indent}}`;
      return { edits: new Map([[at, `${more}\n${lines[at]}`]]), lines: [at, at + 3] };
    },
  ),
  inProcedure(
    "step under two conditions that cannot both hold",
    "an answer is given once for the whole job",
    /^when ([\w-]+) \{$/,
    ["unreachable-step"],
    (lines, at, match) => {
      const isInStep = headsAround(lines, at).some((h) => /^\s*(?:step|check)/.test(lines[h] as string));
      const last = Math.max(...dropped(lines, at).keys());
      if (isInStep || /otherwise/.test(lines[last + 1] ?? "")) return null;
      const pad = indentOf(lines[at] as string);
      const never = [
        "otherwise {",
        `  when ${match[1]} {`,
        '    step "Never" {',
        "      wait 5 min",
        "    }",
        "  }",
        "}",
      ];
      const text = never.map((line) => pad + line).join("\n");
      return { edits: new Map([[last, `${lines[last]}\n${text}`]]), lines: [last + 2, last + 3] };
    },
  ),
  inProcedure(
    "limit missed without a word on it",
    "it is measured, and nothing is said, kept or asked about it",
    /^record(?: "")?$/,
    ["check-without-outcome"],
    (lines, at) => {
      const check = checkAround(lines, at);
      const name = check ? /^check ([\w-]+) /.exec(bareLine(lines[check[0]] as string))?.[1] : null;
      if (!check || lines.some((line) => new RegExp(`(?:when|only if) ${name} `).test(line))) return null;
      const edits = new Map([[at, null]]);
      for (let i = check[0] + 1; i < check[1]; i++)
        if (/^\s*if /.test(lines[i] as string))
          for (const line of dropped(lines, i).keys()) edits.set(line, null);
      return { edits, lines: [check[0]] };
    },
  ),
  inProcedure(
    "value used that was not recorded",
    "a later line goes by the outcome, and nothing keeps it",
    /^record(?: "")?$/,
    ["used-not-recorded"],
    (lines, at) => {
      const check = checkAround(lines, at);
      const name = check ? /^check ([\w-]+) /.exec(bareLine(lines[check[0]] as string))?.[1] : null;
      const asks = new RegExp(`^when ${name} `);
      const uses = lines.flatMap((line, i) => (asks.test(bareLine(line)) && !isInside(check, i) ? [i] : []));
      return check && name && uses.length > 0 ? { edits: new Map([[at, null]]), lines: uses } : null;
    },
  ),
  onLines(
    "choices that overlap",
    "both hold the value where they meet",
    /^choose [\w-]+ over \d/,
    ["ranges-overlap"],
    (line) => line.replace(" over ", " "),
  ),
];
