/** A way round that is said, and that the places of the pulleys, or the shafts, do not have. */
import { beltFacts, clauseOf, namesIn, slotIn } from "../facts";
import { otherRound, type Round, running } from "../mechanics/belts";
import { type Place, placeAt, type Thing } from "../model";
import { drivingOf } from "../walk/belts";
import { type BeltAt, beltAt, faultOf } from "./belts";
import { courseOf, laidOn } from "./lay-on";
import { titleOf, twins } from "./say";
import type { Fault, Fix, Page, ProcedureRule, ThingRule } from "./types";

const PAGE: Page = {
  code: "wrong-way",
  severity: "error",
  group: "runs",
  messages: {
    main: "The pulleys of “{belt}” lie {round} in this order, and the path is said to go {said}.",
    hint: "Write “path {round}”, or turn the order of the lines round.",
    shafts: "“{shaft}” is said to turn {said}, and “{belt}” turns it {round} while “{other}” turns {turns}.",
    "shafts-hint": "Correct what one of the shafts is said to do, or where “back of belt” is said.",
    arrow: "“{belt}” goes on with its mark {said}, and runs {round} when “{shaft}” turns {turns}.",
    "arrow-hint": "If the mark points the way it runs: “way-round {round}”.",
    laid: "“{belt}” is laid on {said} in an order that goes {round}.",
    "laid-hint": "Write “{round}”, or name the pulleys the other way round.",
    turned: "This is how it turns.",
    run: "Its run is said here.",
    fix: "Write “{round}”",
  },
  docs: {
    what: "The order of a belt’s pulleys goes the other way round than is said of it, a belt is laid on the other way than its order goes, two of its shafts cannot turn as they are said to, or its mark points against its run.",
    why: "Whoever believes the word lays the belt on backwards, and whoever believes the order does not: one of them is wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the belt"
  part motor-pulley "Motor pulley"
  part idler "Idler"
  part drum-pulley "Drum pulley"
  belt drive-belt "Drive belt" {
    path anticlockwise
    pulley motor-pulley  diameter 100 mm  centre 0 mm, 0 mm
    pulley idler  diameter 60 mm  centre 150 mm, 200 mm
    pulley drum-pulley  diameter 120 mm  centre 300 mm, 0 mm
  }
}
`,
      "    path anticlockwise\n",
      "    path clockwise\n",
    ),
  },
};

export const wrongWay: ThingRule = {
  ...PAGE,
  grain: "thing",
  check(thing, report, _, machine) {
    const at = beltAt(thing, machine);
    const path = at?.belt.path;
    // Two pulleys are passed either way round.
    if (!at || !path?.sound || faultOf(at.belt)?.kind === "side") return;
    if (path.otherWayThanSaid && at.belt.layout.pulleys.length > 2) report(ofPath(thing, path.round));
    for (const fault of ofShafts(thing, at)) report(fault);
    const arrow = ofArrow(thing, at);
    if (arrow) report(arrow);
  },
};

function ofPath(belt: Thing, round: Round): Fault<Place> {
  const slot = slotIn(clauseOf(belt.entry, "path"), "path");
  const place = slot ? placeAt(belt.file, belt.line, slot.at) : belt.place;
  return {
    place,
    args: { belt: titleOf(belt), round, said: otherRound(round) },
    fixes: slot ? [fixed(place, round)] : [],
  };
}

const fixed = (place: Place, round: Round): Fix<Place> => ({
  title: { id: "fix", args: { round } },
  safe: false,
  changes: [{ place, text: round }],
});

/** Shafts that the belt turns otherwise than is said, given the first that says how it turns. */
function ofShafts(belt: Thing, { belt: { facts, path }, find }: BeltAt): Fault<Place>[] {
  const [first, ...others] = drivingOf(facts, find);
  const run = path && first && running(path, first.pulley, first.turns);
  if (!run || !first) return [];
  return others.flatMap(({ pulley, shaft, turns }): Fault<Place>[] => {
    const found = run.turns[pulley];
    if (!found || found === turns) return [];
    return [
      {
        place: belt.place,
        message: "shafts",
        args: {
          belt: titleOf(belt),
          shaft: titleOf(shaft),
          said: turns,
          other: titleOf(first.shaft),
          turns: first.turns,
          round: found,
        },
        related: [first.shaft, shaft].map((s) => ({ place: s.place, message: "turned" })),
      },
    ];
  });
}

/** A mark that is to point a way round, against the way the belt runs. Marks may mean something else, so it is a warning. */
function ofArrow(belt: Thing, { belt: { facts, path }, find }: BeltAt): Fault<Place> | null {
  const way = clauseOf(belt.entry, "way-round");
  const said = namesIn(way, "direction")[0]?.name;
  const first = drivingOf(facts, find)[0];
  const run = path && first && running(path, first.pulley, first.turns);
  if (!way || !run || !first || (said !== "clockwise" && said !== "anticlockwise")) return null;
  const round = run.travel === "forwards" ? path.round : otherRound(path.round);
  if (round === said) return null;
  return {
    place: placeAt(belt.file, belt.line, way.at),
    message: "arrow",
    severity: "warning",
    args: { belt: titleOf(belt), said, round, shaft: titleOf(first.shaft), turns: first.turns },
    related: [{ place: first.shaft.place, message: "turned" }],
  };
}

export const wrongWayAtAct: ProcedureRule = {
  ...PAGE,
  grain: "procedure",
  check(procedure, report) {
    for (const laying of laidOn(procedure)) {
      const { at, belt } = laying;
      const said = at.act.direction;
      if (said === null || courseOf(laying).kind !== "other-way" || beltFacts(belt.entry).pulleys.length < 3)
        continue;
      const slot = slotIn(at.entry.form, "direction");
      const place = slot ? at.place(slot.at) : at.head;
      const round = said === "clockwise" ? "anticlockwise" : "clockwise";
      report({
        place,
        message: "laid",
        args: { belt: titleOf(belt), said, round },
        related: [{ place: belt.place, message: "run" }],
        fixes: slot ? [fixed(place, round)] : [],
      });
    }
  },
};
