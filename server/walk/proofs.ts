/**
 * What is proved must stay as it was: a passed check is void once something it proved is slackened, taken off or fitted
 * again. And a tester proves only while it is itself proved: on something known to be live, before and after.
 */
import { checkOf, type Entry, toolFacts } from "../facts";
import type { Thing } from "../model";
import { ALL_BITS, type Watch } from "./faults";
import type { Graph } from "./graph";
import type { Point } from "./points";
import type { Relations } from "./relations";
import { keptBySegment, type Segment } from "./segments";

/** Acts that void the proof of what they are done on. */
const DISTURBS: ReadonlySet<string> = new Set(["remove", "loosen", "fit"]);
const PROVED_KINDS = ["part", "fastener", "belt", "line"];

/** The checks of a segment that prove something, and those that measure with a tool: points of the asking. */
const asksOf = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) => (point.kind === "ask" ? [at] : [])),
);

const actsOf = keptBySegment(({ points }: Segment, _: null): readonly number[] =>
  points.flatMap((point, at) =>
    point.kind === "act" && (DISTURBS.has(point.verb) || point.verb === "prove" || point.supplies.length > 0)
      ? [at]
      : [],
  ),
);

function pointsBy(graph: Graph, of: (segment: Segment, _: null) => readonly number[]): number[] {
  return graph.segments.flatMap(({ segment, at }) => of(segment, null).map((local) => at.points + local));
}

const NOT_PROVED = 0;
const PROVED = 1;
const DISTURBED = 2;

/** A watch for each thing that some check proves. */
export function watchProofs(graph: Graph, relations: Relations): readonly Watch[] {
  const proofs = new Map<Thing, number[]>();
  for (const at of pointsBy(graph, asksOf)) {
    const { spot } = graph.points[at] as Point;
    for (const name of checkOf(spot.entry).proves) {
      const thing = relations.byName(name, PROVED_KINDS);
      if (thing) proofs.set(thing, [...(proofs.get(thing) ?? []), at]);
    }
  }
  if (proofs.size === 0) return [];
  const acts = pointsBy(graph, actsOf);
  return [...proofs].map(([thing, asks]) => watchProof(graph, thing, asks, acts));
}

function watchProof(graph: Graph, thing: Thing, asks: readonly number[], acts: readonly number[]): Watch {
  const end = graph.points.length - 1;
  const asked = new Set(asks);
  const failed = new Set(asks.flatMap((ask) => failuresOf(graph, ask)));
  const disturbed = new Set(
    acts.filter((at) => {
      const point = graph.points[at];
      return point?.kind === "act" && point.thing === thing && DISTURBS.has(point.verb);
    }),
  );
  return {
    thing,
    marks: [{ code: "verified-then-disturbed", thing, other: null, state: "", bits: ALL_BITS }],
    starts: [{ state: NOT_PROVED, where: null }],
    points: disturbed.size === 0 ? [] : [...asks, ...failed, ...disturbed, end],
    step: (state, at, report) => {
      if (at === end && state === DISTURBED) report(0);
      if (asked.has(at)) return PROVED;
      if (failed.has(at)) return NOT_PROVED;
      return state === PROVED && disturbed.has(at) ? DISTURBED : state;
    },
  };
}

/** The first points of what is done when a check has not been passed. */
function failuresOf({ points, controls, regions }: Graph, ask: number): number[] {
  const region = regions[(points[ask] as Point).region];
  const tests = region?.tests ?? controls;
  return tests.flatMap((at) => {
    const test = points[at];
    const isOutcome = test?.kind === "test" && test.spot.entry.construct === "if";
    if (!isOutcome || test.passes || outcomeOf(test.spot.entry) === "met") return [];
    return test.elseAt > at + 1 ? [at + 1] : [];
  });
}

const outcomeOf = (entry: Entry): string => entry.form.slots.find((s) => s.role === "outcome")?.text ?? "";

/** Whether something is done or measured with a tester in a segment. */
const hasTester = keptBySegment(({ points }: Segment, _: null): boolean =>
  points.some((point) => {
    const tools = point.kind === "ask" ? point.tools : point.kind === "act" ? point.supplies : [];
    return tools.some((tool) => tool.kind === "tool" && toolFacts(tool.entry).provesDead);
  }),
);

/** A watch for each tester: before it is used it must be proved, and after. */
export function watchTesters(graph: Graph): readonly Watch[] {
  if (!graph.segments.some(({ segment }) => hasTester(segment, null))) return [];
  const uses = new Map<Thing, Set<number>>();
  const proofs = new Map<Thing, Set<number>>();
  const add = (map: Map<Thing, Set<number>>, tool: Thing, at: number): void => {
    if (!toolFacts(tool.entry).provesDead) return;
    map.set(tool, (map.get(tool) ?? new Set()).add(at));
  };
  for (const at of pointsBy(graph, asksOf)) {
    const point = graph.points[at];
    if (point?.kind === "ask") for (const tool of point.tools) add(uses, tool, at);
  }
  for (const at of pointsBy(graph, actsOf)) {
    const point = graph.points[at];
    if (point?.kind !== "act") continue;
    if (point.verb === "prove") {
      if (point.thing) add(proofs, point.thing, at);
    } else for (const supply of point.supplies) if (supply.kind === "tool") add(uses, supply, at);
  }
  return [...uses].map(([tool, used]) => watchTester(graph, tool, used, proofs.get(tool) ?? new Set()));
}

const USED = 2;

function watchTester(
  graph: Graph,
  tool: Thing,
  uses: ReadonlySet<number>,
  proofs: ReadonlySet<number>,
): Watch {
  const end = graph.points.length - 1;
  return {
    thing: tool,
    marks: ["before", "after"].map((state) => ({
      code: "tester-not-proved",
      thing: tool,
      other: null,
      state,
      bits: ALL_BITS,
    })),
    starts: [{ state: NOT_PROVED, where: null }],
    points: [...uses, ...proofs, end],
    step: (state, at, report) => {
      if (at === end && state === USED) report(1);
      if (proofs.has(at)) return PROVED;
      if (!uses.has(at)) return state;
      if (state === NOT_PROVED) report(0);
      return USED;
    },
  };
}
