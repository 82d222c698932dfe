/**
 * The safety summary: what is worn, what is heavy, and what the panels of the sheet warn of.
 */
import { CAUTION_WORDS, cautionOf, clauseOf, headerOf, quantityIn } from "../facts";
import type { Spot, Thing } from "../model";
import { say } from "../phrases/sheet";
import type { Safety, Signal } from "./blocks";
import { type Build, dual, firstStep, grouped, itemOf, refsOf, titleOf } from "./build-context";
import { plain } from "./fill";
import { prose } from "./markdown";

/** Parts from this weight on are told, in kilograms: what the checks call heavy too. */
const HEAVY = 15;

export function safety(build: Build): Safety {
  return {
    kind: "safety",
    id: "safety",
    equipment: equipment(build),
    heavy: heavy(build),
    hazards: hazards(build),
  };
}

function equipment(build: Build): Safety["equipment"] {
  const worn = [...new Set(build.job.procedures.flatMap(({ entry }) => headerOf(entry).wear))];
  return worn.map((text) => ({ id: `wear:${text}`, text: prose(text) }));
}

/** The heavy parts that the job handles, and by how many people. */
function heavy(build: Build): Safety["heavy"] {
  const handled = [...new Set(build.uses.all.flatMap(({ what }) => what))];
  return handled.flatMap((thing) => {
    const weight = weightOf(thing);
    if (!weight || ((weight.low ?? weight.nominal ?? weight.high)?.si ?? 0) <= HEAVY) return [];
    const people = Math.max(...build.uses.on(thing).map(({ act }) => act.people));
    const how =
      people > 1 ? { how: plain(say(build.language, "people-needed", { count: String(people) })) } : {};
    return [{ id: `heavy:${thing.name}`, part: plain(titleOf(thing)), weight: dual(build, weight), ...how }];
  });
}

/** A face stands in the entry of its part, and is not what is lifted. */
const WEIGHED = new Set(["part", "line", "belt"]);

function weightOf(thing: Thing): ReturnType<typeof quantityIn> {
  return WEIGHED.has(thing.kind) ? quantityIn(clauseOf(thing.entry, "weight"), "weight") : null;
}

const GRAVITY: readonly Signal[] = ["danger", "warning", "caution", "notice"];

/** Each hazard once, gravest first, with the steps at which its panels stand. */
function hazards(build: Build): Safety["hazards"] {
  const panels = build.job.spots.filter(({ entry }) => CAUTION_WORDS.includes(entry.construct));
  const groups = grouped(panels, ({ entry }) => `${cautionOf(entry).word} ${cautionOf(entry).text}`);
  const rows = [...groups.values()].map((spots) => {
    const [first] = spots as [Spot];
    const { word, text } = cautionOf(first.entry);
    return {
      ...itemOf(first, "/summary"),
      signal: word,
      text: prose(text),
      at: refsOf(spots.flatMap((spot) => stepOfPanel(spot) ?? [])),
    };
  });
  return GRAVITY.flatMap((signal) => rows.filter((row) => row.signal === signal));
}

/** The step in which a panel stands, or the first step after a panel at the head of a section. */
function stepOfPanel(panel: Spot): Spot | undefined {
  for (let at: Spot = panel; at.parent; at = at.parent) {
    if (at.parent.number !== null) return at.parent;
    const siblings = at.parent.children;
    const next = siblings
      .slice(siblings.indexOf(at) + 1)
      .map(firstStep)
      .find(Boolean);
    if (next) return next;
  }
  return undefined;
}
