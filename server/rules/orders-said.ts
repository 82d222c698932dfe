/**
 * What the rules about orders share: every order of holes that is given, in a fastener or at an act, with the methods named for it.
 */
import {
  clauseOf,
  type Detail,
  fastenerFacts,
  methodIn,
  type OrderMethod,
  type Stage,
  slotIn,
} from "../facts";
import { orderFaults } from "../mechanics/order";
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { holesOf } from "../walk/orders";
import { actsOf, thingsNamed } from "./look";

/** An order of the holes of one fastener. */
export interface GivenOrder {
  readonly fastener: Thing;
  readonly order: readonly number[];
  /** Of the numbers as they are written. */
  readonly place: Place;
  /** The methods that it is to keep to. */
  readonly methods: readonly OrderMethod[];
  /** Whether it is one for tightening: an act may loosen some of a group on purpose. */
  readonly tightens: boolean;
}

/** The orders that a fastener gives, its own and those of its stages. */
export function ordersOfFastener(thing: Thing): readonly GivenOrder[] {
  if (thing.kind !== "fastener") return [];
  const facts = fastenerFacts(thing.entry);
  const given = (
    holder: { readonly details: readonly Detail[] },
    methods: readonly OrderMethod[],
  ): GivenOrder[] => {
    const slot = slotIn(clauseOf(holder, "order"), "holes");
    if (!slot || slot.holes.length === 0) return [];
    const place = placeAt(thing.file, thing.line, slot.at);
    return [{ fastener: thing, order: slot.holes, place, methods: distinct(methods), tightens: true }];
  };
  const leaning = facts.stages.filter((s: Stage) => s.order.length === 0).map((s) => s.method);
  const stages = thing.entry.details.filter(({ clause }) => clause === "stage" || clause === "tighten-to");
  return [
    ...given(thing.entry, [facts.method, ...leaning]),
    ...stages.flatMap((detail) => given(detail, [methodIn(detail.details) ?? facts.method])),
  ];
}

const distinct = (methods: readonly OrderMethod[]): readonly OrderMethod[] => [
  ...new Set(methods.filter((m) => m !== null)),
];

/** The orders that acts give for one fastener each. */
export function ordersAtActs(procedure: Procedure): readonly GivenOrder[] {
  return actsOf(procedure).flatMap(({ act, entry, place }): GivenOrder[] => {
    const slot = slotIn(clauseOf(entry, "order"), "holes");
    const [found, ...more] = thingsNamed(procedure, act.what, ["fastener"]);
    if (!slot || slot.holes.length === 0 || !found || more.length > 0 || found.thing.doubtful) return [];
    const tightens = act.verb === "tighten";
    const method = methodIn(entry.details) ?? (tightens ? fastenerFacts(found.thing.entry).method : null);
    const methods = distinct([method]);
    return [{ fastener: found.thing, order: slot.holes, place: place(slot.at), methods, tightens }];
  });
}

/** Holes that an order leaves out, names twice, or makes up; null where it is not said which holes there are. */
export function faultsIn({ fastener, order }: GivenOrder): ReturnType<typeof orderFaults> {
  const holes = holesOf(fastenerFacts(fastener.entry));
  return holes && orderFaults(order, holes);
}

/** Where the fastener says which holes there are. */
export function holesPlace({ file, line, entry, place }: Thing): Place {
  const at = clauseOf(entry, "layout")?.at ?? clauseOf(entry, "count")?.at;
  return at ? placeAt(file, line, at) : place;
}
