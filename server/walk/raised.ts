/**
 * Which acts raise which hazard, and from which source: the table of acts and facts held against what the machine's
 * things are said to be.
 */
import { beltFacts, fluidFacts, namesIn, partFacts, temporaryFacts, toolFacts } from "../facts";
import type { Thing } from "../model";
import { actRow } from "./acts";
import type { Graph } from "./graph";
import { FACTS, type Fact, type FactRow, HAZARDS, HEAVY } from "./hazards";
import type { ActPoint } from "./points";
import type { Relations } from "./relations";
import { KINDS, type Scope } from "./scope";
import { keptBySegment, type Segment } from "./segments";
import { turnsFree } from "./trains";

/** A hazard that a house or a machine adds. */
export interface HouseHazard {
  readonly name: string;
  readonly title: string;
  readonly least: "danger" | "warning" | "caution" | "notice";
  /** Verbs that raise it, on things whose names or titles contain one of the words. */
  readonly verbs: readonly string[];
  readonly things: readonly string[];
}

/** A hazard with its source, and the points that have to do with it. */
export interface Raised {
  readonly hazard: string;
  readonly title: string;
  readonly least: HouseHazard["least"];
  readonly source: Thing;
  readonly fact: FactRow;
  /** Points that raise it: whether also where the hazard was gone. */
  readonly at: Map<number, boolean>;
}

/** Every hazard that some act of a graph can raise. */
export function raisedIn(
  graph: Graph,
  relations: Relations,
  house: readonly HouseHazard[],
): readonly Raised[] {
  const raised = new Map<string, Raised>();
  const sight = sightOf(graph, relations, house);
  for (const { segment, at } of graph.segments) {
    for (const { point, key, of, fact } of raisersOf(segment, sight)) {
      let entry = raised.get(key);
      if (!entry) {
        entry = { ...of, fact, at: new Map() };
        raised.set(key, entry);
      }
      const where = at.points + point;
      entry.at.set(where, entry.at.get(where) === true || fact.evenIfGone === true);
    }
  }
  return [...raised.values()];
}

/** What hazards are read with. */
interface Sight {
  readonly scope: Scope;
  readonly relations: Relations;
  readonly house: readonly HouseHazard[];
  /** Hazards of the machine and of the house. */
  readonly own: readonly OwnHazard[];
}

const sights = new WeakMap<Relations, Sight>();

function sightOf(graph: Graph, relations: Relations, house: readonly HouseHazard[]): Sight {
  const known = sights.get(relations);
  if (known && isSameHouse(known.house, house)) return known;
  const own = [...machineHazards(graph, relations), ...house.map(bySettings)];
  const made = { scope: graph.scope, relations, house, own };
  sights.set(relations, made);
  return made;
}

/** Whether two houses add the same hazards, which are objects that last. */
const isSameHouse = (a: readonly HouseHazard[], b: readonly HouseHazard[]): boolean =>
  a.length === b.length && a.every((hazard, i) => hazard === b[i]);

/** One act that raises a hazard from a source. */
interface Raiser {
  /** Counted from the segment's first point. */
  readonly point: number;
  /** Equal for the same hazard from the same source. */
  readonly key: string;
  readonly of: Pick<Raised, "hazard" | "title" | "least" | "source">;
  readonly fact: FactRow;
}

const raisersOf = keptBySegment(({ points }: Segment, sight: Sight): readonly Raiser[] => {
  const { relations, own } = sight;
  const raisers: Raiser[] = [];
  points.forEach((point, at) => {
    if (point.kind !== "act") return;
    const add = (of: Raiser["of"], fact: Fact): void => {
      const row = FACTS[fact];
      const key = `${of.hazard} ${row.as ?? fact} ${of.source.id}`;
      raisers.push({ point: at, key, of, fact: row });
    };
    for (const [hazard, fact] of actRow(point.verb).raises) {
      const { least } = HAZARDS[hazard];
      for (const source of sourcesOf(fact, point, relations))
        add({ hazard, title: hazard, least, source }, fact);
    }
    const { thing, verb } = point;
    if (!thing) return;
    if (barsImpact(sight.scope, point))
      add({ hazard: "damage", title: "damage", least: "notice", source: thing }, "impact barred");
    for (const { name, title, least, raises } of own) {
      if (raises(verb, thing)) add({ hazard: name, title, least, source: thing }, "work");
    }
  });
  return raisers;
});

function barsImpact(scope: Scope, { act }: ActPoint): boolean {
  return act.never.some((n) => {
    const tool = scope.find(n.name, KINDS.tool);
    return tool !== undefined && toolFacts(tool.entry).impact;
  });
}

/** The things from which a fact raises a hazard when an act is done. */
function sourcesOf(fact: Fact, point: ActPoint, relations: Relations): readonly Thing[] {
  const { thing } = point;
  if (fact === "harmful supply")
    return point.supplies.filter((s) => s.kind === "consumable" && fluidFacts(s.entry).harmful);
  // That a guard is off by mistake is a fault of its own; left off on purpose, it must be warned of.
  if (fact === "guard off")
    return thing?.kind === "machine"
      ? relations.guards.filter((guard) => point.act.without.some((n) => n.name === guard.name))
      : relations.guards;
  if (!thing) return [];
  switch (fact) {
    case "hot":
      return contentsOf(thing, relations).filter((t) => partFacts(t.entry).hot);
    case "pressurised":
      // Where it is hot as well, the caution on burns covers what sprays out.
      return contentsOf(thing, relations).filter(
        (t) => partFacts(t.entry).pressurised && !partFacts(t.entry).hot,
      );
    case "fuel":
      return contentsOf(thing, relations).filter((t) => fluidFacts(t.entry).fuel);
    case "harmful contents":
      return contentsOf(thing, relations).filter((t) => fluidFacts(t.entry).harmful);
    case "to dispose of":
      return thing.kind === "fluid" && fluidFacts(thing.entry).dispose !== "" && !point.act.keep
        ? [thing]
        : [];
    case "load":
      return relations.weightOf(thing) > HEAVY || !partFacts(thing.entry).weight ? [thing] : [];
    case "bearing":
      return relations.borneBy(thing).length > 0 ? [thing] : [];
    case "heavy":
      return relations.weightOf(thing) > HEAVY ? [thing] : [];
    case "spring-loaded":
      return partFacts(thing.entry).springLoaded ? [thing] : [];
    case "held spring": {
      const held = temporaryFacts(thing.entry).into ? relations.into(thing) : null;
      return held && partFacts(held.entry).springLoaded ? [held] : [];
    }
    case "high-voltage":
      return partFacts(thing.entry).highVoltage ? [thing] : [];
    case "battery":
      return partFacts(thing.entry).battery ? [thing] : [];
    case "belt off":
      return beltsTurned(thing, relations);
    default:
      return [thing];
  }
}

/** The thing itself and the fluids in it. */
function contentsOf(thing: Thing, relations: Relations): readonly Thing[] {
  return [thing, ...partFacts(thing.entry).contains.flatMap((n) => relations.byName(n, ["fluid"]) ?? [])];
}

/**
 * The belts on a shaft that is turned, unless it may be turned freely with its belt off; nor those of a shaft on several
 * whose other shafts all may, as in `shafts.ts`.
 */
function beltsTurned(shaft: Thing, relations: Relations): readonly Thing[] {
  if (shaft.kind !== "shaft" || turnsFree(shaft)) return [];
  const shaftsOn = (belt: Thing): readonly Thing[] =>
    beltFacts(belt.entry).pulleys.flatMap((p) => (p.shaft && relations.byName(p.shaft, ["shaft"])) ?? []);
  const own = relations.belts.filter((belt) => shaftsOn(belt).includes(shaft));
  return own.length < 2
    ? own
    : own.filter((belt) => !shaftsOn(belt).every((s) => s === shaft || turnsFree(s)));
}

interface OwnHazard extends Pick<HouseHazard, "name" | "title" | "least"> {
  readonly raises: (verb: string, thing: Thing) => boolean;
}

function bySettings({ verbs, things, ...hazard }: HouseHazard): OwnHazard {
  const words = things.map((word) => word.toLowerCase());
  const means = (thing: Thing): boolean =>
    words.some((w) => thing.name.toLowerCase().includes(w) || thing.title.toLowerCase().includes(w));
  return { ...hazard, raises: (verb, thing) => verbs.includes(verb) && means(thing) };
}

/** The hazards a machine declares. */
function machineHazards(graph: Graph, relations: Relations): readonly OwnHazard[] {
  const things = graph.procedure.machine?.things ?? [];
  return things
    .filter((t) => t.kind === "hazard")
    .map(({ name, title, entry }) => {
      const raisers = entry.details
        .filter((d) => d.clause === "raised-by")
        .map((d) => ({
          verb: namesIn(d, "act")[0]?.name,
          things: namesIn(d, "things").flatMap((n) => relations.byName(n, []) ?? []),
        }));
      const least = entry.details.find((d) => d.clause === "least")?.slots[0]?.text as
        | HouseHazard["least"]
        | undefined;
      return {
        name,
        title: title || name,
        least: least ?? "warning",
        raises: (verb: string, thing: Thing) =>
          raisers.some((r) => r.verb === verb && r.things.includes(thing)),
      };
    });
}
