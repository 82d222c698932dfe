/** Control flow against a graph library: what can be reached at all, and where ways go round (graphology, from npm). */
import { DirectedGraph } from "graphology";
import { stronglyConnectedComponents } from "graphology-components";
import { expect, test } from "vitest";
import { controlOf } from "../../server/walk/control";
import { type Graph, graphOf } from "../../server/walk/graph";
import type { Point } from "../../server/walk/points";
import { projectOf } from "../support/project";
import { seeded } from "../support/random";
import { MACHINE, makeProgram } from "./programs";

/** Where a point leads, whatever is decided: as the doc comments of the points say, by itself. */
function leadsTo(point: Point, at: number): readonly number[] {
  if (point.kind === "end" || point.kind === "end-job") return [];
  if (point.kind === "test") return [at + 1, point.elseAt];
  if (point.kind === "jump" || point.kind === "go-to") return [point.to];
  if (point.kind === "return") return point.bound === null ? [point.to] : [at + 1, point.to];
  return [at + 1];
}

function library({ points }: Graph): DirectedGraph {
  const graph = new DirectedGraph();
  points.forEach((_, at) => {
    graph.addNode(at);
  });
  points.forEach((point, at) => {
    for (const to of leadsTo(point, at)) graph.mergeEdge(at, to);
  });
  return graph;
}

function programs(count: number): Graph[] {
  const random = seeded(20_261_125);
  return Array.from({ length: count }, (_, i) => {
    const { text } = makeProgram(random, 3 + (i % 6));
    const procedure = projectOf({ "job.torquil": text, "winch.torquil": MACHINE }).files.get("job.torquil")
      ?.procedures[0];
    if (!procedure || procedure.doubtful) throw new Error(`cannot be followed:\n${text}`);
    return graphOf(procedure);
  });
}

test("the points that are reached are those that the library comes to", () => {
  let unreached = 0;
  for (const graph of programs(300)) {
    const known = library(graph);
    // With a way back to the first point from everywhere, what it reaches is one strongly connected component.
    for (const node of known.nodes()) if (node !== "0") known.mergeEdge(node, "0");
    const component = stronglyConnectedComponents(known).find((nodes) => nodes.includes("0")) ?? [];
    const { reachable } = controlOf(graph);
    const ours = graph.points.flatMap((_, at) => (reachable[at] === 1 ? [String(at)] : []));
    expect([...ours].sort()).toEqual([...component].sort());
    unreached += graph.points.length - ours.length;
  }
  expect(unreached).toBeGreaterThan(0);
});

test("ways go round just where a return leads back, and every return that can be taken is on such a round", () => {
  let rounds = 0;
  for (const graph of programs(300)) {
    const { reachable } = controlOf(graph);
    const known = library(graph);
    const components = stronglyConnectedComponents(known).filter((nodes) => nodes.length > 1);
    rounds += components.length;
    for (const nodes of components) {
      const returns = nodes.filter((node) => graph.points[Number(node)]?.kind === "return");
      expect(returns.length).toBeGreaterThan(0);
    }
    graph.points.forEach((point, at) => {
      if (point.kind !== "return" || reachable[at] === 0) return;
      // The step it leads back to leads on to it again.
      expect(components.some((nodes) => nodes.includes(String(at)) && nodes.includes(String(point.to)))).toBe(
        true,
      );
    });
  }
  expect(rounds).toBeGreaterThan(50);
});
