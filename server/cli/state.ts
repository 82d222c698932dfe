/**
 * `torquil state`: how everything stands at a step, over all ways that come there.
 */
import { endOf, type StateTold, stepNamed, tellState } from "../features";
import { statePhrase as say } from "../phrases/state";
import { helpText, readArguments, type Usage } from "./arguments";
import { chosenProcedure, PROCEDURE_OPTION } from "./chosen";
import { harmless } from "./display";
import type { Command, Paint } from "./io";
import type { NameOf } from "./open";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "state FILE --at STEP",
  about: [
    "Says how everything stands before a step: what is off, loose, open, held, where shafts stand, and what is still owed.",
    "All ways that lead there are followed; where they differ, each state is told with its way.",
  ].join("\n"),
  options: {
    at: {
      about:
        'The step or check: its printed number, its name or title; "line 120";\n"end", which is meant when nothing is said.',
      value: "STEP",
    },
    ...PROCEDURE_OPTION,
    format: { about: "Text for people, or JSON for programs.", value: "FORMAT", choices: ["text", "json"] },
  },
  more: "Exit code: 0 told, 1 the procedure cannot be followed, 2 wrong use or unreadable input.",
  examples: [
    ["torquil state jobs/pump.torquil --at 12", "Before step 12 of the sheet."],
    ["torquil state jobs/pump.torquil --at fit-belt", "Before the step called fit-belt."],
    ['torquil state jobs/pump.torquil --at "line 120" --format json', "Before a line, as JSON."],
  ],
};

export const state: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "state", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const chosen = chosenProcedure(given, "state", io);
  if (typeof chosen === "number") return chosen;
  const { procedure, project } = chosen;
  const asked = given.value("at");
  const step = asked === undefined ? endOf(procedure) : stepNamed(procedure, asked);
  if ("problem" in step) return wrongUse(step.problem, "state", io);
  const told = tellState(procedure, step.point, step.at);
  if (given.value("format") === "json")
    io.out(`${JSON.stringify(stateJson(told, step.number, project.nameOf), null, 2)}\n`);
  else io.out(stateText(told, io.paintOut));
  return 0;
};

/** The state as programs get it; lines and characters count from 0. */
function stateJson(told: StateTold, number: number | null, nameOf: NameOf): object {
  const named = <T extends { readonly file: string }>(place: T | null): T | null =>
    place && { ...place, file: nameOf(place.file) };
  return {
    version: 1,
    ...told,
    number,
    turning: told.turning.map((stand) => ({ ...stand, since: named(stand.since) })),
    groups: told.groups.map((group) => ({
      ...group,
      things: group.things.map((thing) => ({
        ...thing,
        place: named(thing.place),
        stands: thing.stands.map((stand) => ({ ...stand, since: named(stand.since) })),
      })),
    })),
  };
}

function stateText(told: StateTold, paint: Paint): string {
  const parts = [`${paint("strong", harmless(told.at))} of “${harmless(told.title)}”`];
  parts.push(...told.notes.map((note) => harmless(note)));
  for (const { heading, things } of told.groups) {
    const lines = things.flatMap(({ title, stands }) =>
      stands.length === 1
        ? [`  ${title}: ${stands[0]?.state}`]
        : [`  ${title}`, ...stands.map(({ state, way }) => `    ${state}${wayText(way)}`)],
    );
    parts.push([paint("strong", heading), ...lines.map((line) => harmless(line))].join("\n"));
  }
  if (told.turning.length > 0) {
    const lines = told.turning.flatMap(({ sentences, way }) =>
      told.turning.length === 1
        ? sentences.map((sentence) => `  ${sentence}`)
        : [`  ${wayText(way).trim()}`, ...sentences.map((sentence) => `    ${sentence}`)],
    );
    parts.push([paint("strong", say("turning")), ...lines.map((line) => harmless(line))].join("\n"));
  }
  if (told.owed.length > 0)
    parts.push(
      [paint("strong", say("owed")), ...told.owed.map(({ act }) => `  ${harmless(act)}`)].join("\n"),
    );
  if (told.settled.length > 0)
    parts.push(`${paint("strong", say("settled"))}\n  ${harmless(told.settled.join(", "))}`);
  return `${parts.join("\n\n")}\n`;
}

const wayText = (way: readonly string[]): string =>
  way.length === 0 ? `  [${say("way.else")}]` : `  [${way.join(", then ")}]`;
