/**
 * Lines → blocks where the braces do not balance. Every line may stand where the braces put it, or a slip may be
 * supposed there: a brace missing, a brace too many, a head lost. Each slip costs, and so does a line that stands
 * where its indentation or its words do not fit; the cheapest reading of the whole text is taken. So one broken line
 * leaves every other line in the blocks it was in. The search keeps the few cheapest readings from line to line.
 */
import { layoutOf } from "../layout";
import { heightOf } from "../sound";
import type { Line } from "../statement";
import { type Block, DEEPEST, type Tree } from "../tree";
import { buildTree } from "./build";
import { COST } from "./costs";
import { Search } from "./search";
import { solidBlocks } from "./solid";
import type { State } from "./state";

/** Readings dearer than the cheapest by more are dropped, and all but the cheapest few. */
const MARGIN = 7;
const WIDTH = 10;

/** Makes the cheapest tree of lines whose braces do not balance; never fails. */
export function mend(lines: readonly Line[]): Tree {
  const layout = layoutOf(lines);
  const search = new Search(lines, layout);
  let states: State[] = [
    { frame: search.frames.root, cost: 0, column: -1, misfit: false, skipped: 0, moves: null },
  ];
  const solids = layout.indented ? solidBlocks(lines) : new Map<number, Block>();
  let plainUntil = 0;
  for (let at = 0; at < lines.length; ) {
    const line = lines[at] as Line;
    // Without indentation a comment says nothing; it goes with the line behind it, as a blank line does.
    const silent = line.kind === "blank" || (line.kind === "comment" && !layout.indented);
    const found = silent || at < plainUntil ? undefined : solids.get(at);
    const solid = solidFor(states, found);
    if (found && !solid) plainUntil = at + found.lineCount;
    if (solid) states = cheapest(search.readSolid(states, line, at, solid));
    else if (!silent) states = cheapest(search.readLine(states, line, at));
    at += solid ? solid.lineCount : 1;
  }
  const open = (state: State): number => state.cost + state.frame.depth * COST.notClosed;
  const best = states.reduce((a, b) => (open(b) < open(a) ? b : a));
  return buildTree(lines, best.moves);
}

/** The sound block, unless it would stand too deep somewhere. */
function solidFor(states: readonly State[], block: Block | undefined): Block | undefined {
  if (!block) return undefined;
  const height = heightOf(block);
  return states.every((one) => one.skipped === 0 && one.frame.depth + height < DEEPEST) ? block : undefined;
}

/** The cheapest state of each stack of open blocks, cheapest first, as many as are kept. */
function cheapest(states: State[]): State[] {
  if (states.length === 1) return states;
  states.sort((a, b) => a.cost - b.cost);
  const most = (states[0] as State).cost + MARGIN;
  const kept: State[] = [];
  for (const state of states) {
    if (state.cost > most || kept.length >= WIDTH) break;
    if (!kept.some((other) => other.frame === state.frame && other.skipped === state.skipped))
      kept.push(state);
  }
  return kept;
}
