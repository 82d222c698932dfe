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
    "act behind the end of the job",
    "the line before it ends the job, whatever was shown",
    /^end job /,
    ["unreachable-step"],
    (lines, at) => {
      const before = lines[at - 1] as string;
      if (!/^(?:pull|stop|release|close|wait|isolate|clean) [^{]*$/.test(bareLine(before))) return null;
      return {
        edits: new Map([
          [at - 1, lines[at] as string],
          [at, before],
        ]),
        lines: [at],
      };
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
      // The second of the two is where the result has two outcomes.
      return { edits: new Map([[at, `${more}\n${lines[at]}`]]), lines: [at + 3] };
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
      return { edits: new Map([[last, `${lines[last]}\n${text}`]]), lines: [last + 2] };
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
  onLines(
    "gap between two choices",
    "a value in between is in neither",
    /^choose [\w-]+ over (\d+\.\d+) to \d/,
    ["ranges-gap"],
    (line, match) => line.replace(match[1] as string, (Number(match[1]) + 0.02).toFixed(2)),
  ),
  onLines(
    "limits that hold nothing",
    "over a figure up to the same figure",
    /^limit (?:"" )?(\d+(?:\.\d+)?) to (\d+(?:\.\d+)?) \S+ with/,
    ["limits-empty"],
    (line, match) =>
      line.replace(new RegExp(`${match[1]}( +to +)${match[2]}`), `over ${match[2]}$1${match[2]}`),
  ),
  onLines(
    "temperature said of one limit only",
    "another limit of the same check says at which temperature it holds",
    /^limit "" .* at \d+ to \d+ °C$/,
    ["hot-cold-unsaid"],
    (line) => line.replace(/ +at \d+ to \d+ °C/, ""),
  ),
  inProcedure(
    "asked before it is measured",
    "it stands in the first step, and the check comes later",
    /^check ([\w-]+) "" \{$/,
    ["condition-never-asked"],
    (lines, at, match) => {
      const step = lines.findIndex((line) => /^step /.test(bareLine(line)));
      const end = Math.max(...dropped(lines, at).keys());
      const block = lines.slice(at, end);
      const isRecorded = block.some((line) => /^record/.test(bareLine(line)));
      const outcome = block.some((line) => /^observe/.test(bareLine(line))) ? "no" : "not met";
      if (step < 0 || step > at || !isRecorded || block.some((line) => /^\s*choose/.test(line))) return null;
      const pad = indentOf(lines[step] as string);
      const ask = `${pad}  when ${match[1]} ${outcome} {\n${pad}    wait 5 min\n${pad}  }`;
      return { edits: new Map([[step, `${lines[step]}\n${ask}`]]), lines: [step + 1] };
    },
  ),
  inProcedure(
    "jump into a condition",
    "the step it leads to stands under a condition",
    /^when [\w-]+ \{$/,
    ["jump-into-block"],
    (lines, at) => {
      const step = at + 1;
      if (!/^step (?:[\w-]+ )?"" \{$/.test(bareLine(lines[step] ?? ""))) return null;
      const named = /^step ([\w-]+) /.exec(bareLine(lines[step] as string))?.[1];
      const name = named ?? "odd-step";
      const pad = indentOf(lines[at] as string);
      const check = [
        'check "Which way?" {',
        '  observe "Is it so?"',
        "  if no {",
        `    go to ${name}`,
        "  }",
        "}",
      ];
      const edits = new Map([[at, `${check.map((line) => pad + line).join("\n")}\n${lines[at]}`]]);
      if (!named) edits.set(step, (lines[step] as string).replace("step ", `step ${name} `));
      return { edits, lines: [at + 3] };
    },
  ),
  inProcedure(
    "job that cannot be finished",
    "every answer ends the job unfinished",
    /^check (?:[\w-]+ )?"" \{$/,
    ["no-way-to-end"],
    (lines, at) => {
      const end = Math.max(...dropped(lines, at).keys());
      const block = lines.slice(at + 1, end).map(bareLine);
      const pad = indentOf(lines[at] as string);
      const isUnder = headsAround(lines, at).some((h) =>
        /^\s*(?:when|otherwise|for)/.test(lines[h] as string),
      );
      const ends = block.filter((line) => line.startsWith("end job")).length;
      const outcomes = block.filter((line) => line.startsWith("if "));
      if (isUnder || ends !== 1 || outcomes.join() !== "if no {") return null;
      const yes = `${pad}  if yes {\n${pad}    end job "Nothing to do."\n${pad}  }`;
      const head = lines.findIndex((line) => /^procedure /.test(line));
      return { edits: new Map([[end, `${yes}\n${lines[end]}`]]), lines: [head] };
    },
  ),
  inProcedure(
    "check that every way jumps over",
    "a check before it leads on behind it, whatever the answer",
    /^check (?:[\w-]+ )?"" \{$/,
    ["unreachable-check"],
    (lines, at) => {
      const end = Math.max(...dropped(lines, at).keys());
      const pad = indentOf(lines[at] as string);
      const fork = [
        'check "Which way?" {',
        '  observe "Is it so?"',
        "  if yes {",
        "    go to odd-step",
        "  }",
        "  if no {",
        "    go to odd-step",
        "  }",
        "}",
      ];
      const behind = ['step odd-step "Behind it" {', "  wait 5 min", "}"].map((line) => pad + line);
      const edits = new Map([
        [at, `${fork.map((line) => pad + line).join("\n")}\n${lines[at]}`],
        [end, `${lines[end]}\n${behind.join("\n")}`],
      ]);
      return { edits, lines: [at + fork.length] };
    },
  ),
  inProcedure(
    "too few parts for a second try",
    "what comes off at the return is thrown away, and the kit has one",
    /^remove ([\w-]+) keep$/,
    ["retry-needs-more-parts"],
    (lines, at, match) => {
      const fits = lines.flatMap((line, i) =>
        new RegExp(`^fit new ${match[1]}(?![\\w-])`).test(bareLine(line)) ? [i] : [],
      );
      const isOne = lines.some((line) => new RegExp(`^\\s*item ${match[1]} +1 `).test(line));
      const outcome = headsAround(lines, at).find((h) => /^\s*if /.test(lines[h] as string));
      const isReturn =
        outcome !== undefined &&
        lines.slice(at, Math.max(...dropped(lines, outcome).keys())).some((l) => /^\s*repeat from/.test(l));
      if (!isReturn || !isOne || fits.length !== 1) return null;
      return { edits: new Map([[at, (lines[at] as string).replace("keep", "discard")]]), lines: fits };
    },
  ),
];
