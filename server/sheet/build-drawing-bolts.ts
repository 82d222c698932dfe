/**
 * What a drawing of a group of fasteners shows: its holes from the machine, the order in which a job turns them, and the stages
 * that are gone through in that order.
 */

import { type BoltsPicture, boltsDrawing, circlePlaces, gridPlaces, type Hole, rowPlaces } from "../drawings";
import { type FastenerFacts, fastenerFacts } from "../facts";
import type { Thing } from "../model";
import { say } from "../phrases/sheet";
import { holesOf, placesOf } from "../walk/orders";
import { dualText } from "./atoms";
import { type Build, titleOf } from "./build-context";
import { viewOf } from "./build-drawing-belt";
import { byOrder, stageSaid, stagesDone, turningOrder } from "./build-stages";
import { lengthsSaid } from "./build-tightening";
import type { Use } from "./build-uses";
import { textOf } from "./fill";
import type { Made } from "./made";

type Order = readonly number[];

/** The orders that an act turns a group's holes in, each once; one of no holes where a tightening has none. */
export function ordersOf(build: Build, use: Use, fastener: Thing): readonly Order[] {
  const { spot, act } = use;
  const facts = fastenerFacts(fastener.entry);
  const places = placesIn(facts);
  if (places === null || facts.count < 2) return [];
  if (act.verb !== "tighten") {
    const { order } = turningOrder(spot, act, fastener, []);
    return order.length > 0 ? [order] : [];
  }
  const orders = byOrder(spot, act, fastener, stagesDone(build, use, fastener)).map(({ said }) => said.order);
  const all = orders.length > 0 ? orders : [turningOrder(spot, act, fastener, []).order];
  const each = [...new Map(all.map((order) => [order.join(), order])).values()];
  return each.filter((order) => order.length > 0 || tells(facts, places));
}

/** Whether the holes alone are worth a drawing: where they are, or which takes what, and not only how many there are. */
const tells = ({ lengths, firstAt }: FastenerFacts, { schematic }: Places): boolean =>
  !schematic || firstAt !== null || lengths.length > 0;

/** Where holes lie, and in what sense. */
type Places = Pick<BoltsPicture, "holes" | "schematic" | "onCircle" | "first">;

/** The places of a group's holes: as they are said, else as its layout has them; null where nobody can tell. */
function placesIn(facts: FastenerFacts): Places | null {
  const { layout, firstAt, numberedRound, rows } = facts;
  const said = placesOf(facts);
  if (said) {
    const holes = said.map(({ number, at }) => ({ number, at: { x: at.x * 1000, y: at.y * 1000 } }));
    return { holes, schematic: false, onCircle: layout === "circle", first: null };
  }
  const numbers = holesOf(facts);
  const at = (holes: readonly Hole[]): Places => ({ holes, schematic: true, onCircle: false, first: null });
  if (numbers === null) return null;
  if (layout === "row") return at(rowPlaces(numbers));
  if (layout === "grid") return rows ? at(gridPlaces(numbers, rows)) : null;
  if (layout !== "circle") return null;
  const start = firstAt?.nominal?.si;
  const holes = circlePlaces(numbers, start, numberedRound ?? "clockwise");
  return { holes, schematic: true, onCircle: true, first: start === undefined ? (numbers[0] ?? null) : null };
}

/** Draws a group of fasteners for the acts that turn it in an order; null where its holes are nowhere. */
export function drawingOfBolts(
  build: Build,
  uses: readonly Use[],
  fastener: Thing,
  order: Order,
): Made | null {
  const facts = fastenerFacts(fastener.entry);
  const places = placesIn(facts);
  const [first] = uses;
  if (!places || !first) return null;
  const view = viewOf(first.spot);
  // Places that are made up are in no view, unless it is said where the first one lies.
  const isSeen = !places.schematic || facts.firstAt !== null;
  const tightenings = uses.filter(({ act }) => act.verb === "tighten");
  const drawing = boltsDrawing({
    ...places,
    title: titleOf(fastener),
    order,
    way: tightenings.length > 0 ? "tighten" : "loosen",
    stages: stagesSaid(build, tightenings, fastener, order),
    notes: lengthsSaid(build, facts).map(textOf),
    view: isSeen && view ? titleOf(view) : "",
    language: build.language,
  });
  return drawing && { drawing, madeFrom: isSeen && view ? [view] : [] };
}

/** The stages of all tightenings that go in this order, each once, numbered where there are several. */
function stagesSaid(build: Build, uses: readonly Use[], fastener: Thing, order: Order): readonly string[] {
  const said = uses.flatMap((use) =>
    byOrder(use.spot, use.act, fastener, stagesDone(build, use, fastener))
      .filter(({ said: own }) => own.order.join() === order.join())
      .flatMap(({ stages }) => stages)
      .map((stage) => {
        const { name, value, setting } = stageSaid(build, use.spot, stage);
        const wrench = setting ? [say(build.language, "setting", { value: dualText(setting) })] : [];
        return [name === undefined ? dualText(value) : `${name}: ${dualText(value)}`, ...wrench].join("; ");
      }),
  );
  const all = [...new Set(said)];
  return all.length > 1 ? all.map((one, index) => `${index + 1}\u00a0\u00a0${one}`) : all;
}
