/** A line that comes back to a clip it has been through, or crosses its own run. */
import { runFacts } from "../facts";
import { runThrough } from "../mechanics/runs";
import { placeAt, type Thing } from "../model";
import { runIn } from "../walk/lines";
import { finderIn } from "./belts";
import { ledThrough } from "./runs";
import { titleOf, twins } from "./say";
import type { Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "run-loops-back",
  severity: "error",
  group: "runs",
  messages: {
    main: "“{line}” comes through “{clip}” twice.",
    hint: "Name each clip once.",
    crosses: "“{line}” crosses its own run between “{a}” and “{b}”.",
    "crosses-hint": "If that is meant, leave it; else two clips may stand in each other’s place.",
    first: "It comes through it here.",
    same: "On the run of “{line}”, “{a}” and “{b}” lie at the same place.",
    "same-hint": "Correct the “centre” of one of them.",
    placed: "Its place is said here.",
  },
  docs: {
    what: "A line’s run, or the act that lays it, names a clip twice; or two places that follow each other are one and the same; or, as a hint, the run crosses itself in the view.",
    why: "A line runs from one end to the other; a second mention stands where another clip should.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  clip upper "Upper clip"
  clip middle "Middle clip"
  wire stop-wire "Stop wire"  through upper, middle, upper
}
`,
      '  wire stop-wire "Stop wire"  through upper, middle, upper\n',
      '  wire stop-wire "Stop wire"  through upper, middle\n',
    ),
  },
};

export const runLoopsBack: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report, _, machine) {
    if (thing.kind !== "line") return;
    const find = finderIn(machine);
    const { through } = runFacts(thing.entry);
    const title = (name: string): string => {
      const clip = find(name);
      return clip ? titleOf(clip) : name;
    };
    const again = through.flatMap(({ name, at }, index) => {
      const first = through.findIndex((n) => n.name === name);
      return first === index ? [] : [{ name, at, first: through[first]?.at ?? at }];
    });
    for (const { name, at, first } of again)
      report({
        place: placeAt(thing.file, thing.line, at),
        args: { line: titleOf(thing), clip: title(name) },
        related: [{ place: placeAt(thing.file, thing.line, first), message: "first" }],
      });
    const same = again.length === 0 ? coincident(thing, find) : null;
    if (same)
      report({
        place: placeAt(thing.file, thing.line, same.b.name.at),
        message: "same",
        args: { line: titleOf(thing), a: title(same.a.name.name), b: title(same.b.name.name) },
        related: [same.a, same.b].map(({ thing: placed }) => ({ place: placed.place, message: "placed" })),
      });
    const crossing = again.length === 0 ? crossed(thing, find) : null;
    if (crossing)
      report({
        place: placeAt(thing.file, thing.line, crossing.at),
        message: "crosses",
        severity: "hint",
        args: { line: titleOf(thing), a: title(crossing.a), b: title(crossing.b) },
      });
  },
};

/** The first two places of a run that follow each other and are the same; nothing can be worked out of it. */
function coincident(line: Thing, find: (name: string) => Thing | undefined) {
  const places = runIn(line, find)?.places ?? [];
  for (const problem of runThrough(places.map((p) => p.at)).problems) {
    if (problem.kind !== "coincident") continue;
    const [a, b] = problem.places.map((place) => places[place]);
    return a && b ? { a, b } : null;
  }
  return null;
}

/** The first piece of a run that a later one crosses. In depth they may well lie apart. */
function crossed(line: Thing, find: (name: string) => Thing | undefined) {
  const places = runIn(line, find)?.places ?? [];
  const [pair] = runThrough(places.map((p) => p.at)).run?.crossings ?? [];
  const [from, to] = [places[pair?.[0] ?? -1], places[(pair?.[0] ?? -2) + 1]];
  return from && to ? { a: from.name.name, b: to.name.name, at: from.name.at } : null;
}

export const runLoopsBackAtAct: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    for (const { line, led } of ledThrough(procedure)) {
      led.forEach(({ name, place }, index) => {
        const first = led.findIndex((l) => l.name === name);
        const clip = procedure.find(name, ["clip", "part"]);
        if (first === index || !clip) return;
        report({
          place,
          args: { line: titleOf(line), clip: titleOf(clip) },
          related: [{ place: led[first]?.place ?? place, message: "first" }],
        });
      });
    }
  },
};
