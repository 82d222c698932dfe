/**
 * The order in which things are put right: what stands behind before what stands in front, a part before what secures
 * it, joints before what is filled in, supplies last; else what came off last goes on first.
 */
import { partFacts, temporaryFacts } from "../facts";
import { actRow, type Walk } from "../walk";
import type { RightingAct } from "./righting";

/** Acts that put something in front of others again. */
const PUTS_BACK: ReadonlySet<string> = new Set(["fit", "connect"]);
/** Acts on a thing in the order in which they are done. */
const ON_ONE: readonly string[] = [
  "stop",
  "remove",
  "fit",
  "tighten",
  "connect",
  "close",
  "release",
  "lower",
  "restore",
];

/** Sorts acts so that each can be done when it comes. */
export function inWorkingOrder<A extends RightingAct>(walk: Walk, acts: readonly A[]): readonly A[] {
  const left = acts
    .map((act, i) => ({ act, i }))
    .sort((a, b) => b.act.since - a.act.since || a.i - b.i)
    .map(({ act }) => act);
  const ordered: A[] = [];
  while (left.length > 0) {
    const free = left.findIndex((act) => left.every((other) => other === act || !precedes(walk, other, act)));
    // Where each waits for another, as it may be in a machine with parts behind one another, the last off is taken.
    ordered.push(...left.splice(Math.max(0, free), 1));
  }
  return ordered;
}

/** Whether one act is done before another. */
export function precedes(walk: Walk, a: RightingAct, b: RightingAct): boolean {
  return mustPrecede(walk, a, b) || (a.thing !== b.thing && suppliesAfter(a, b));
}

/** Whether one act cannot be done but before another: that supplies come last is custom only. */
export function mustPrecede(walk: Walk, a: RightingAct, b: RightingAct): boolean {
  if (a.thing === b.thing) return onOne(a, b);
  return (
    a.verb === "stop" ||
    isInFront(walk, a, b) ||
    secures(walk, a, b) ||
    fillsAfter(walk, a, b) ||
    pullsAfter(walk, a, b) ||
    letsDownAfter(a, b)
  );
}

function onOne(a: RightingAct, b: RightingAct): boolean {
  if (a.verb === "tighten" && b.verb === "tighten") return !a.onWheels && b.onWheels;
  return ON_ONE.indexOf(a.verb) < ON_ONE.indexOf(b.verb);
}

/** What must be reached comes before what goes in front of it. */
export function isInFront({ relations }: Walk, a: RightingAct, b: RightingAct): boolean {
  if (!PUTS_BACK.has(b.verb) || !actRow(a.verb).reach) return false;
  const fronts = relations.fronts(a.thing, a.verb);
  return fronts.some((front) => front === b.thing || relations.carriedBy(b.thing).includes(front));
}

/** A part goes on before what secures it. */
function secures({ relations }: Walk, a: RightingAct, b: RightingAct): boolean {
  return a.verb === "fit" && b.thing.kind === "fastener" && relations.secured(b.thing).includes(a.thing);
}

/** A fluid goes in when what holds it is together; the lid it goes in by is closed after it. */
function fillsAfter({ relations }: Walk, a: RightingAct, b: RightingAct): boolean {
  if (b.verb === "fill") {
    if (a.verb === "close") return a.thing.kind === "line";
    const holders = a.thing.kind === "fastener" ? relations.secured(a.thing) : [a.thing];
    const makes = a.verb === "fit" || a.verb === "tighten" || a.verb === "connect";
    return makes && holders.some((t) => relations.fluidsIn(t).includes(b.thing));
  }
  return a.verb === "fill" && b.verb === "close" && b.thing.kind !== "line";
}

/** A pin comes out when the belts are on, and before what covers it; what covers an opening before the opening is used. */
function pullsAfter({ relations }: Walk, a: RightingAct, b: RightingAct): boolean {
  const place = (act: RightingAct) => (act.verb === "pull" ? relations.into(act.thing) : null);
  const into = place(b);
  if (into && a.verb === "fit" && a.thing.kind === "belt")
    return relations.shaftOf(into) !== null || relations.belts.some((belt) => belt === a.thing);
  const over = place(a);
  if (!over || !PUTS_BACK.has(b.verb) || b.thing.kind === "belt") return false;
  if (b.thing === over) return temporaryFacts(a.thing.entry).over !== null;
  return relations.fronts(over, a.verb).includes(b.thing);
}

/** What was put on while the machine was held goes on while it is held; what is done on its wheels comes after. */
function letsDownAfter(a: RightingAct, b: RightingAct): boolean {
  if (b.verb === "release" || b.verb === "lower") {
    const works = a.verb === "fit" || a.verb === "tighten" || a.verb === "connect";
    return works && !a.onWheels && a.since > b.since;
  }
  return (a.verb === "release" || a.verb === "lower") && b.onWheels;
}

/** A battery is connected when all is done, and what was cut off is restored last of all. */
function suppliesAfter(a: RightingAct, b: RightingAct): boolean {
  return rank(a) < rank(b);
}

function rank({ verb, thing }: RightingAct): number {
  if (verb === "restore") return 2;
  return verb === "connect" && partFacts(thing.entry).battery ? 1 : 0;
}
