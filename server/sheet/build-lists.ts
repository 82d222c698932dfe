/**
 * What is fetched before the work: tools, consumables, fluids and temporary items, worked out from the acts.
 */
import { clausesOf, fastenerFacts, fluidFacts, namesIn, temporaryFacts, toolFacts } from "../facts";
import { type Spot, stepAround, type Thing } from "../model";
import type { Consumables, Fluids, Temporaries, Tools } from "./blocks";
import { isLead } from "./build-checks";
import {
  type Build,
  dual,
  grouped,
  itemFor,
  quantityRuns,
  refOf,
  refsOf,
  targetOf,
  thingAt,
  thingsIn,
  titleOf,
  titles,
  words,
} from "./build-context";
import { placesOf, said } from "./build-sentences";
import { bare } from "./build-stages";
import type { Use } from "./build-uses";
import { plain, sentences, textOf } from "./fill";
import type { Ref, Runs } from "./inline";

/** The things of a kind that the job's procedures declare, each title once, with the procedure each stands in. */
function declared(
  build: Build,
  kind: Thing["kind"],
): readonly { readonly thing: Thing; readonly at: Spot }[] {
  const all = build.job.procedures.flatMap((at) =>
    at.procedure.things.filter((thing) => thing.kind === kind).map((thing) => ({ thing, at })),
  );
  return all.filter(
    ({ thing }, index) =>
      all.findIndex((other) => other.thing.name === thing.name && other.thing.title === thing.title) ===
      index,
  );
}

/** Where each tool, supply or temporary is used: in acts, in limits and choices. */
function usedAt(build: Build, wanted: Thing): readonly Spot[] {
  const same = (thing: Thing): boolean =>
    thing === wanted ||
    (thing.kind === wanted.kind && thing.name === wanted.name && thing.title === wanted.title);
  const acts = build.uses.all.filter(
    ({ tools, act, what }) => tools.some(same) || (act.verb === "prove" && what.some(same)),
  );
  const measured = build.job.spots.filter(
    (spot) =>
      (spot.entry.construct === "limit" || spot.entry.construct === "choose") &&
      clausesOf(spot.entry, "with").some((detail) => thingsIn(spot, detail, "tools").some(same)),
  );
  return [...acts.map(({ spot }) => spot), ...measured];
}

/** The tools, with what they must cover or bear. */
export function tools(build: Build): Tools {
  const rows = declared(build, "tool").map(({ thing, at }) => {
    const facts = toolFacts(thing.entry);
    const note = toolNote(build, thing, at);
    return {
      ...itemFor(thing, `tool:${thing.name}`),
      name: plain(titleOf(thing)),
      ...(facts.range ? { range: dual(build, facts.range) } : {}),
      ...(note.length > 0 ? { note } : {}),
      at: refsOf(usedAt(build, thing)),
    };
  });
  return { kind: "tools", id: "tools", rows };
}

function toolNote(build: Build, tool: Thing, at: Spot): Runs {
  const { rating, alternative, adapter, rightAngle, impact, provesDead } = toolFacts(tool.entry);
  const others = alternative.flatMap((name) => thingAt(at, name, ["tool"]) ?? []);
  return sentences([
    rating ? words(build, "tool.rating", { value: quantityRuns(build, rating) }) : [],
    others.length > 0 ? words(build, "tool.or", { tools: titles(build, others, "list.or") }) : [],
    adapter
      ? words(build, adapter.angle === "in-line" ? "tool.in-line" : "tool.angled", {
          extension: quantityRuns(build, adapter.extension),
          lever: quantityRuns(build, adapter.lever),
          angle: adapter.angle === "in-line" ? [] : quantityRuns(build, adapter.angle),
        })
      : [],
    rightAngle ? words(build, "tool.right-angle") : [],
    impact ? words(build, "tool.impact") : [],
    provesDead ? words(build, "tool.proves-dead") : [],
  ]);
}

/** The supplies that acts use, and those that the fasteners they tighten ask for. */
export function consumables(build: Build): Consumables {
  const named = build.uses.all.flatMap((use) =>
    [...use.tools, ...oils(use)].map((thing) => ({ thing, spot: use.spot })),
  );
  const used = named.filter(({ thing }) => thing.kind === "consumable");
  const rows = [...grouped(used, ({ thing }) => thing)].map(([thing, uses]) => {
    const { grade, openTime, cure, dispose, harmful, fuel } = fluidFacts(thing.entry);
    const note = sentences([
      harmful ? words(build, "harmful") : [],
      fuel ? words(build, "flammable") : [],
      dispose ? said(build, "dispose", { how: plain(bare(dispose)) }) : [],
    ]);
    return {
      ...itemFor(thing, `consumable:${thing.name}`),
      name: plain(titleOf(thing)),
      ...(grade ? { grade: plain(grade) } : {}),
      ...(openTime ? { openTime: textOf(quantityRuns(build, openTime)) } : {}),
      ...(cure ? { cure: textOf(quantityRuns(build, cure)) } : {}),
      ...(note.length > 0 ? { note } : {}),
      at: refsOf(uses.map(({ spot }) => spot)),
    };
  });
  return { kind: "consumables", id: "consumables", rows };
}

/** The lubricant or compound that the fasteners of a tightening are used with. */
function oils({ spot, act, what }: Use): readonly Thing[] {
  if (act.verb !== "tighten") return [];
  return what.flatMap((thing) =>
    thing.kind === "fastener"
      ? (thingAt(spot, fastenerFacts(thing.entry).lubricant, ["consumable", "fluid"]) ?? [])
      : [],
  );
}

const FLUID_ACTS = new Set(["drain", "fill", "bleed", "throw-away"]);

/** The fluids that are drained, filled or bled, and what becomes of them. */
export function fluids(build: Build): Fluids {
  const uses = build.uses.all.filter(({ act }) => FLUID_ACTS.has(act.verb));
  const handled = [...new Set(uses.flatMap(({ what }) => what.filter(({ kind }) => kind === "fluid")))];
  const rows = handled.map((thing) => {
    const { capacity, grade, dispose } = fluidFacts(thing.entry);
    const own = uses.filter(({ what }) => what.includes(thing));
    const drains = own.filter(({ act }) => act.verb === "drain");
    const thrown = own.some(({ act }) => act.verb === "throw-away");
    const kept = drains.length > 0 && !thrown && drains.every(({ act }) => act.keep);
    const amount = capacity ?? own.find(({ act }) => act.quantity)?.act.quantity ?? null;
    const note =
      dispose && !kept && drains.length > 0 ? said(build, "dispose", { how: plain(bare(dispose)) }) : [];
    return {
      ...itemFor(thing, `fluid:${thing.name}`),
      name: plain(titleOf(thing)),
      ...(amount ? { amount: dual(build, amount) } : {}),
      ...(grade ? { grade: plain(grade) } : {}),
      drained:
        drains.length === 0 ? ("not-drained" as const) : kept ? ("keep" as const) : ("dispose" as const),
      ...(note.length > 0 ? { note } : {}),
      at: refsOf(own.map(({ spot }) => spot)),
    };
  });
  return { kind: "fluids", id: "fluids", rows };
}

/** What goes in for the job, where, and when it comes out again. */
export function temporaries(build: Build): Temporaries {
  const rows = declared(build, "temporary").flatMap(({ thing, at }) => {
    const uses = insertions(build, thing, at);
    if (uses.length === 0) return [];
    const place = placeSaid(build, thing, at);
    return [
      {
        ...itemFor(thing, `temporary:${thing.name}`),
        name: temporarySaid(build, thing),
        ...(place.length > 0 ? { place } : {}),
        uses,
      },
    ];
  });
  return { kind: "temporaries", id: "temporaries", rows };
}

function temporarySaid(build: Build, thing: Thing): Runs {
  const { diameter, count } = temporaryFacts(thing.entry);
  const name = plain(titleOf(thing));
  const sized = diameter
    ? words(build, "temporary.diameter", { name, value: quantityRuns(build, diameter) })
    : name;
  return count > 1 ? words(build, "temporary.count", { name: sized, count: plain(String(count)) }) : sized;
}

function placeSaid(build: Build, thing: Thing, at: Spot): Runs {
  const [place] = placesOf(at, [thing]);
  return place ? words(build, `place.${place.way}`, { what: plain(titleOf(place.at)) }) : [];
}

/** Each way in with the way out that follows it on the printed way; equal ones once. */
function insertions(build: Build, thing: Thing, at: Spot): Temporaries["rows"][number]["uses"] {
  const own = build.uses.on(thing);
  const pulls = own.filter(({ act }) => act.verb === "pull");
  const already = at.children.some(
    (spot) =>
      spot.entry.construct === "starts" &&
      spot.children.some((child) =>
        namesIn(child.entry.form, "things").some((name) => name.name === thing.name),
      ),
  );
  const ways = own
    .filter(({ act }) => act.verb === "insert")
    .map((use) => ({ in: stepRef(use), out: stepRef(pullAfter(build, use, pulls)) }));
  const all = already ? [{ in: undefined, out: stepRef(pulls[0]) }, ...ways] : ways;
  const once = all.filter(
    (way, index) =>
      all.findIndex((other) => other.in?.id === way.in?.id && other.out?.id === way.out?.id) === index,
  );
  return once.map((way) => ({ ...(way.in ? { in: way.in } : {}), ...(way.out ? { out: way.out } : {}) }));
}

function stepRef(use: Use | undefined): Ref | undefined {
  const step = use && stepAround(use.spot);
  return step ? refOf(step) : undefined;
}

/** The way out after a way in: in the same outcome, else where the outcome leads, else further on. */
function pullAfter(build: Build, { spot, index }: Use, pulls: readonly Use[]): Use | undefined {
  const outcome = around(spot, "if");
  const lead = outcome?.children.find(isLead);
  const inside = outcome && pulls.find((pull) => pull.index > index && around(pull.spot, "if") === outcome);
  const target = inside || !lead ? undefined : targetOf(build, lead, namesIn(lead.entry.form, "target")[0]);
  const from = (target ?? spot).index;
  const usual = pulls.filter(
    (pull) => around(pull.spot, "if") === null || around(pull.spot, "if") === outcome,
  );
  return (
    inside ?? usual.find((pull) => pull.spot.index > from) ?? pulls.find((pull) => pull.spot.index > from)
  );
}

function around(spot: Spot, construct: string): Spot | null {
  for (let at: Spot | null = spot; at; at = at.parent) if (at.entry.construct === construct) return at;
  return null;
}
