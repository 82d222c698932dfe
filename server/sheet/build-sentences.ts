/**
 * The sentence of an act itself. Every word comes from phrases; titles, quantities and places are put in.
 */
import { clauseOf, fastenerFacts, fluidFacts, namesIn, temporaryFacts } from "../facts";
import type { Spot, Thing } from "../model";
import { type ActWord, actTemplate, isActWord } from "../phrases/acts";
import type { Quantity } from "../units/quantity";
import type { Runs } from "./blocks";
import { type Build, quantityRuns, saidIn, stepTitled, type Titled, thingAt, titles } from "./build-context";
import { bare } from "./build-stages";
import { type Use, withs } from "./build-uses";
import { type Args, fill, plain } from "./fill";

/** A sentence of the acts, filled in. */
export function said(build: Build, id: ActWord, args: Args = {}): Runs {
  return fill(actTemplate(build.language, id), args);
}

/** What is held against turning meanwhile; said first. */
export function holdingSaid(build: Build, spot: Spot): Runs {
  const holding = clauseOf(spot.entry, "holding");
  if (!holding) return [];
  return said(build, "holding", {
    what: titles(build, saidIn(spot, holding, "part")),
    tools: titles(build, saidIn(spot, holding, "tools")),
  });
}

/** The sentence of the act itself. */
export function mainSaid(build: Build, use: Use, what: readonly Titled[], things: readonly Thing[]): Runs {
  const { spot, act } = use;
  const id = sentenceOf(use, things);
  if (!isActWord(id)) return [];
  const course = saidIn(spot, spot.entry.form, "clips", "parts");
  return said(build, id, {
    what: titles(build, what),
    tools: titles(build, toolsFor(use, things)),
    amount: quantityRuns(build, amountOf(use, things)),
    direction: act.direction ? plain(actTemplate(build.language, act.direction)) : [],
    course: course.length > 0 ? titles(build, course) : [],
    sign: plain(bare(act.text)),
    place: titles(
      build,
      placesOf(spot, things)
        .slice(0, 1)
        .map(({ at }) => at),
    ),
    event: eventSaid(build, spot, namesIn(spot.entry.form, "event")[0]?.name),
  });
}

/** Which sentence an act has: its own, or one of its kinds. */
function sentenceOf({ spot, act }: Use, things: readonly Thing[]): string {
  const { words } = act;
  switch (act.verb) {
    case "fit":
      return act.age ? `fit.${act.age}` : "fit";
    case "turn":
      return words.includes("until") ? "turn.until" : "turn";
    case "press":
      return words.includes("in") ? "press.in" : "press.out";
    case "insert": {
      const [first, ...rest] = placesOf(spot, things);
      return first &&
        things.length === 1 + rest.length &&
        rest.every(({ at, way }) => at === first.at && way === first.way)
        ? `insert.${first.way}`
        : "insert";
    }
    case "pull":
      return things.length > 0 &&
        placesOf(spot, things).filter(({ way }) => way === "over").length === things.length
        ? "pull.off"
        : "pull";
    case "wait":
      return waitSentence(words);
    default:
      return act.verb;
  }
}

/** Which sentence a wait has. */
export function waitSentence(words: readonly string[]): ActWord {
  if (words.includes("below")) return "wait.below";
  if (words.includes("above")) return "wait.above";
  if (words.includes("until")) return "wait.sign";
  return words.includes("after") ? "wait.after" : "wait.time";
}

/** Where temporaries go: into, over or on what. */
export function placesOf(
  spot: Spot,
  things: readonly Thing[],
): readonly { readonly way: "into" | "over" | "on"; readonly at: Thing }[] {
  return things
    .filter((thing) => thing.kind === "temporary")
    .flatMap((thing) => {
      const facts = temporaryFacts(thing.entry);
      return (["into", "over", "on"] as const).flatMap((way) => {
        const at = thingAt(spot, facts[way], ["part", "shaft", "belt", "line", "fastener"]);
        return at ? [{ way, at }] : [];
      });
    });
}

/** The tools said; a lubricant that the fasteners themselves name need not be said again by the writer. */
function toolsFor({ spot, act }: Use, things: readonly Thing[]): readonly Titled[] {
  const own = withs(spot.entry).flatMap((detail) => saidIn(spot, detail, "tools"));
  if (own.length > 0 || act.verb !== "lubricate") return own;
  return things.flatMap((thing) =>
    thing.kind === "fastener"
      ? (thingAt(spot, fastenerFacts(thing.entry).lubricant, ["consumable", "fluid"]) ?? [])
      : [],
  );
}

/** The amount an act says; for filling, what the machine holds where the act says none. */
function amountOf({ act }: Use, things: readonly Thing[]): Quantity | null {
  const [fluid] = things;
  if (act.quantity || act.verb !== "fill" || things.length !== 1 || fluid?.kind !== "fluid")
    return act.quantity;
  return fluidFacts(fluid.entry).capacity;
}

/** A step, a check or a supply that time is counted from. */
export function eventSaid(build: Build, spot: Spot, name: string | undefined): Runs {
  const thing = name === undefined ? undefined : spot.procedure.find(name, ["step", "check", "consumable"]);
  const at = thing && build.job.spotOf(thing, spot);
  return at ? stepTitled(build, at) : thing ? titles(build, [thing]) : plain(name ?? "");
}

/** The acts in which the way of a thread matters. */
export const THREADED = new Set(["remove", "fit", "loosen", "tighten"]);

/** Whether a fastener has a left-hand thread on every member of its set. */
export function isLeftHanded({ entry }: Thing): boolean {
  const { leftHand, leftHandOn } = fastenerFacts(entry);
  return leftHand && leftHandOn.length === 0;
}
