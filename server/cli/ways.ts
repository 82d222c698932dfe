/**
 * `torquil ways`: how many ways lead through a procedure, the shortest and the longest, and what parts them.
 */
import {
  type AnswerTold,
  numbersInShort,
  type PlaceTold,
  tellWays,
  type WaysTold,
  type WayTold,
  waysWords,
} from "../features";
import { waysPhrase as say } from "../phrases/ways";
import { helpText, readArguments, type Usage } from "./arguments";
import { chosenProcedure, PROCEDURE_OPTION } from "./chosen";
import { harmless } from "./display";
import type { Command, Io, Paint } from "./io";
import type { NameOf } from "./open";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "ways FILE",
  about: [
    "Says how many ways lead through a procedure, which are the shortest and the longest, and what each check and condition",
    "decides: what is done on each answer alone, where it leads, and how many ways take it. Two ways differ where a check or",
    "condition is answered differently, as often as it is asked; a condition asked twice has the same answer. How long a way",
    "is, is how many steps and checks are done on it, each as often as it is: the language states no time for a step.",
  ].join("\n"),
  options: {
    ...PROCEDURE_OPTION,
    format: { about: "Text for people, or JSON for programs.", value: "FORMAT", choices: ["text", "json"] },
  },
  more: [
    "Exit code: 0 told, 1 it cannot be followed, or its ways cannot be counted, 2 wrong use or unreadable input.",
    "",
    'JSON: "count" has "ways", "whole" (to the end of the work) and "early" as digits, since they may be of any size, and is',
    'null where they are not counted; "shortest", "longest" and "soonest" (to end early) have "steps" and "decisions";',
    '"places" has each check and condition with its "answers": "steps" and what else it "does" on that answer alone, where it',
    '"leads", and the "ways" that take it. "problem" says why ways are not counted. Lines and characters count from 0.',
  ].join("\n"),
  examples: [
    ["torquil ways jobs/pump.torquil", "The ways of the only procedure in a file."],
    ["torquil ways jobs/pump.torquil --procedure strip", "Of the procedure called strip."],
    ["torquil ways jobs/pump.torquil --format json", "As JSON."],
  ],
};

export const ways: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "ways", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const chosen = chosenProcedure(given, "ways", io);
  if (typeof chosen === "number") return chosen;
  const { procedure, project } = chosen;
  const told = tellWays(project.workspace.project(), procedure);
  if (given.value("format") === "json")
    io.out(`${JSON.stringify(waysJson(told, project.nameOf), null, 2)}\n`);
  else io.out(waysText(told, io));
  if (told.problem === null) return 0;
  io.err(`${harmless(told.problem)}\n`);
  return 1;
};

/** The ways as programs get them; lines and characters count from 0. */
function waysJson(told: WaysTold, nameOf: NameOf): object {
  const places = told.places.map((one) => ({
    ...one,
    place: { ...one.place, file: nameOf(one.place.file) },
  }));
  return { version: 1, ...told, places };
}

function waysText(told: WaysTold, io: Io): string {
  const { paintOut: paint, width } = io;
  const { shortest, longest, soonest, count, places } = told;
  const isSame = JSON.stringify(shortest) === JSON.stringify(longest);
  const parts = [paint("strong", harmless(told.title))];
  if (count) parts.push(harmless(count.sentence));
  if (shortest) parts.push(wayText(isSame ? say("only") : say("shortest"), shortest, paint));
  if (longest && !isSame) parts.push(wayText(say("longest"), longest, paint));
  if (soonest) parts.push(wayText(say("soonest"), soonest, paint));
  if (places.length > 0) parts.push(paint("strong", say("places")));
  parts.push(...places.map((place) => placeText(place, paint, width)));
  return `${parts.join("\n\n")}\n`;
}

function wayText(heading: string, { steps, decisions }: WayTold, paint: Paint): string {
  const count = steps === 1 ? say("steps-one") : say("steps", { count: `${steps}` });
  const lines = decisions.length === 0 ? [say("straight-on")] : decisions;
  return [paint("strong", `${heading}: ${count}`), ...lines.map((line) => `  ${harmless(line)}`)].join("\n");
}

function placeText(
  { title, question, after, answers, kind, number }: PlaceTold,
  paint: Paint,
  width: number,
): string {
  const within = kind === "condition" && number !== null ? `${say("within", { number: `${number}` })} ` : "";
  const asked = question === "" ? "" : `${/[?:.!]$/u.test(title) ? "" : ":"} ${question}`;
  const [head = "", ...more] = wrappedLines(harmless(`${within}${title}${asked}`), width - 6);
  return [
    `  ${paint("strong", head)}`,
    ...more.map((line) => `    ${paint("strong", line)}`),
    ...after.map((decision) => `    (${harmless(say("in-answer", { decision }))})`),
    ...answers.flatMap((answer) => answerText(answer, width)),
  ].join("\n");
}

function answerText(
  { answer, steps, does, leads, ways: taking }: AnswerTold,
  width: number,
): readonly string[] {
  const count = taking === null ? "" : ` (${waysWords(taking)})`;
  const done = [...(steps.length > 0 ? [numbersInShort(steps)] : []), ...does].map((one) =>
    one.replace(/\.$/u, ""),
  );
  const said = [...done, leads.words].join("; ");
  return wrappedLines(harmless(`${answer}${count}: ${said}`), width - 6).map((line, i) =>
    i === 0 ? `    ${line}` : `      ${line}`,
  );
}

/** A text broken between words. */
function wrappedLines(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let current = "";
  for (const word of text.split(" ")) {
    if (current !== "" && current.length + 1 + word.length > Math.max(20, width)) {
      lines.push(current);
      current = word;
    } else current = current === "" ? word : `${current} ${word}`;
  }
  return [...lines, current];
}
