/**
 * The tightening table: every fastener that the job tightens, with all that a wrench needs to know.
 */
import {
  clauseOf,
  clausesOf,
  countIn,
  type FastenerFacts,
  fastenerFacts,
  quantityIn,
  type Stage as StageFact,
} from "../facts";
import type { Spot, Thing } from "../model";
import type { TighteningTable } from "./blocks";
import { oilPlace } from "./build-clauses";
import {
  type Build,
  grouped,
  itemFor,
  quantityRuns,
  refsOf,
  thingAt,
  titleOf,
  titles,
  words,
} from "./build-context";
import { bare, countOf, orderSaid, type StageDone, stageSaid, stagesDone } from "./build-stages";
import type { Use } from "./build-uses";
import { list, plain, sentences } from "./fill";
import type { Runs } from "./inline";

type Row = TighteningTable["rows"][number];

/** One row for each fastener, in the order in which they are first tightened. */
export function tighteningTable(build: Build): TighteningTable {
  const tightened = build.uses.all
    .filter(({ act }) => act.verb === "tighten")
    .flatMap((use) => use.what.filter(({ kind }) => kind === "fastener").map((thing) => ({ thing, use })));
  const rows = [...grouped(tightened, ({ thing }) => thing)].map(([thing, all]) =>
    rowOf(
      build,
      thing,
      all.map(({ use }) => use),
    ),
  );
  return { kind: "tightening", id: "tightening", rows };
}

function rowOf(build: Build, fastener: Thing, uses: readonly Use[]): Row {
  const facts = fastenerFacts(fastener.entry);
  const [first] = uses as [Use];
  const stages = allStages(build, facts.stages, fastener, uses);
  const order = orderSaid(build, first.spot, first.act, fastener, stages);
  const state = stateSaid(build, first.spot, fastener, facts);
  const renew = renewSaid(build, first.spot, fastener, facts);
  const thread = [facts.thread.replace(/(?<=\d) ?x ?(?=\d)/i, " × "), facts.class].filter(Boolean).join(", ");
  return {
    ...itemFor(fastener, `tightening:${fastener.name}`),
    name: plain(titleOf(fastener)),
    ...(thread ? { thread } : {}),
    count: String(countOf(first.spot, fastener)),
    ...(state.length > 0 ? { state } : {}),
    ...(facts.leftHand ? { leftHand: true as const } : {}),
    ...renew,
    stages: stages.map((stage) => stageSaid(build, first.spot, stage)),
    ...(order.length > 0 ? { order } : {}),
    at: refsOf(uses.map(({ spot }) => spot)),
  };
}

/** All stages of a fastener, each with the tools that the job does it with. */
function allStages(
  build: Build,
  stages: readonly StageFact[],
  fastener: Thing,
  uses: readonly Use[],
): readonly StageDone[] {
  const done = uses.flatMap((use) => stagesDone(build, use, fastener));
  const said = stages.map((fact) => done.find((one) => one.fact === fact) ?? { fact, tools: [] });
  return said.length > 0 ? said : done;
}

/** Dry, oiled with what and where, locked, as supplied; and which sides have a left-hand thread. */
function stateSaid(build: Build, spot: Spot, fastener: Thing, facts: FastenerFacts): Runs {
  const oil = titlesPlain(
    thingAt(spot, facts.lubricant, ["consumable", "fluid"]),
    facts.lubricant?.name ?? "",
  );
  const state = facts.state;
  const oiled = clauseOf(fastener.entry, "oiled");
  const place = oiled ? oilPlace(oiled) : "";
  const members = list(
    build.language,
    facts.leftHandOn.map(({ name }) => plain(name.replaceAll("-", " "))),
  );
  const parts = [
    state === "oiled"
      ? words(build, place ? `thread.oiled-${place}` : "thread.oiled", { oil })
      : state === null
        ? []
        : words(build, `thread.${state}`, { oil }),
    members.length > 0 ? words(build, "left-hand-on", { members }) : [],
  ].filter((part) => part.length > 0);
  return parts.flatMap((part, index) => (index === 0 ? part : [...plain("; "), ...part]));
}

function titlesPlain(thing: Thing | undefined, name: string): Runs {
  return plain(thing ? titleOf(thing) : name);
}

/** When it is renewed, how often it may be used again, and which hole takes which length. */
function renewSaid(build: Build, spot: Spot, fastener: Thing, facts: FastenerFacts): Pick<Row, "renew"> {
  const lengths = lengthsSaid(build, facts);
  if (facts.renewEveryTime && lengths.length === 0) return { renew: "always" };
  const locks = facts.lockedBy.flatMap((name) => thingAt(spot, name, ["part", "fastener"]) ?? []);
  const renew = sentences([
    facts.renewEveryTime ? words(build, "renew.always") : [],
    facts.renewWhen ? words(build, "renew.when", { text: plain(bare(facts.renewWhen)) }) : [],
    ...clausesOf(fastener.entry, "reuse").map((detail) =>
      reuseSaid(build, quantityIn(detail, "limit"), countIn(detail, "times")),
    ),
    locks.length > 0 ? words(build, "locked-by", { things: titles(build, locks) }) : [],
    ...lengths,
  ]);
  return renew.length > 0 ? { renew } : {};
}

function reuseSaid(build: Build, length: ReturnType<typeof quantityIn>, times: number | null): Runs {
  if (length) return words(build, "reuse.length", { value: quantityRuns(build, length) });
  if (times === null) return [];
  return times === 1
    ? words(build, "reuse.once")
    : words(build, "reuse.times", { times: plain(String(times)) });
}

/** Which holes take which length, one sentence each. */
export function lengthsSaid(build: Build, { lengths }: FastenerFacts): readonly Runs[] {
  return lengths.flatMap(({ holes, length }) => {
    if (!length) return [];
    const said = list(
      build.language,
      holes.map((hole) => plain(String(hole))),
    );
    return [
      words(build, holes.length === 1 ? "lengths.one" : "lengths", {
        holes: said,
        value: quantityRuns(build, length),
      }),
    ];
  });
}
