/**
 * Lines → blocks where the braces do not balance. Every line may stand where the braces put it, or a slip may be
 * supposed there: a brace missing, a brace too many, a head lost. Each slip costs, and so does a line that stands
 * where its indentation or its words do not fit; the cheapest reading of the whole text is taken. So one broken line
 * leaves every other line in the blocks it was in. The search keeps the few cheapest readings from line to line.
 */

import type { Context } from "../constructs";
import { isSaid, type Layout, layoutOf } from "../layout";
import type { Line } from "../statement";
import { blockOf, DEEPEST, fits, levelOf, STEP, type Tree } from "../tree";
import { buildTree, type Move, type Role } from "./build";
import { type Frame, Frames } from "./frames";

/** What slips and misfits cost, against each other. Set by trying; only their order matters much. */
const COST = {
  /** A `}` is missing. */
  notClosed: 4,
  /** A `}` too many: where no head stands above it, under a head, in a text without indentation. */
  stray: 3,
  strayUnderHead: 6,
  strayAnywhere: 4,
  strayAtEnd: 5,
  /** A head is gone: with a blank line in its place, or with none. */
  lostHead: 4,
  lostHeadOutermost: 6.5,
  lostHeadUnseen: 8,
  lostHeadAnywhere: 3.5,
  lostHeadFitting: 4.5,
  lostHeadUnseenAnywhere: 6,
  /** A `{` is missing: at a head that must have one, may have one, on a line that could not be read. */
  notOpenedMust: 3,
  notOpenedMay: 4,
  notOpenedBroken: 3,
  /** The same, where another line stands between the head and what would be its block. */
  notOpenedApart: 7,
  /** A head that must have a block has none. */
  noBlock: 5,
  /** A `{` too many. */
  strayOpen: 3,
  /** A block on a line that has none. */
  blockNotHere: 5,
  /** Less, where an empty line or an empty block shows the place. */
  seen: 0.5,
  /** The block that ends so holds nothing. */
  empty: 1,
  /** A line that could not be read has a brace too many, or one and nothing else. */
  strayOpenBroken: 3.5,
  strayOpenBare: 3,
  bare: 1,
  /** A line that could not be read closes a block: with a `}` in it, or instead of one; out of its column. */
  brokenClose: 2,
  brokenForClose: 3,
  brokenCloseAside: 2,
  /** A line that could not be read stands further out: its column is weak evidence. */
  outer: 1,
  /** A line out of its column; one that could not be read, or a comment. */
  column: 2,
  columnBroken: 1,
  /** A line in a block that cannot hold it. */
  context: 2,
} as const;

/** Readings dearer than the cheapest by more are dropped, and all but the cheapest few. */
const MARGIN = 9;
const WIDTH = 16;

interface State {
  readonly frame: Frame;
  readonly cost: number;
  /** The column of the line before in the same block; -1 at its start. */
  readonly column: number;
  /** The line before did not fit either: one cause costs once. */
  readonly misfit: boolean;
  /** Heads that stand too deep to open a block. */
  readonly skipped: number;
  readonly moves: Move | null;
}

/** Makes the cheapest tree of lines whose braces do not balance; never fails. */
export function mend(lines: readonly Line[]): Tree {
  const layout = layoutOf(lines);
  const search = new Search(lines, layout);
  let states: State[] = [
    { frame: search.frames.root, cost: 0, column: -1, misfit: false, skipped: 0, moves: null },
  ];
  let next = nextSaid(lines, 0);
  for (let at = 0; at < lines.length; at++) {
    const line = lines[at] as Line;
    // Without indentation a comment says nothing; it goes with the line behind it, as a blank line does.
    if (line.kind === "blank" || (line.kind === "comment" && !layout.indented)) continue;
    if (next <= at) next = nextSaid(lines, at + 1);
    states = cheapest(search.readLine(states, line, at, next));
  }
  const open = (state: State): number => state.cost + state.frame.depth * COST.notClosed;
  const best = states.reduce((a, b) => (open(b) < open(a) ? b : a));
  return buildTree(lines, best.moves);
}

function nextSaid(lines: readonly Line[], from: number): number {
  let at = from;
  while (at < lines.length && !isSaid(lines[at] as Line)) at++;
  return at;
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

/** A place for a line: after some blocks have ended without a `}`, perhaps in a block that lost its head. */
interface Place {
  readonly state: State;
  readonly pops: number;
  readonly headless: boolean;
  readonly cost: number;
}

class Search {
  readonly frames: Frames;
  private readonly sectioned: boolean;

  constructor(
    private readonly lines: readonly Line[],
    private readonly layout: Layout,
  ) {
    this.frames = new Frames(layout.step, lines.length);
    this.sectioned = lines.some((line) => line.head === "section" && line.kind === "statement");
  }

  /** Every state that a line may lead to; `next` is the next line that says anything. */
  readLine(states: readonly State[], line: Line, at: number, next: number): State[] {
    const reached: State[] = [];
    for (const state of states) {
      if (line.kind === "close") this.readClose(reached, state, line, at, next);
      else for (const place of this.places(state, line, at)) this.readAt(reached, place, line, at, next);
    }
    return reached;
  }

  private readClose(reached: State[], state: State, line: Line, at: number, next: number): void {
    const { frame, moves } = state;
    const role = (role: Role, pops = 0): Move => ({ before: moves, at, pops, headless: false, role });
    if (state.skipped > 0) {
      reached.push({ ...state, skipped: state.skipped - 1, moves: role("leaf") });
      return;
    }
    const under = this.standsUnder(line, frame);
    const cost = (under ? 0 : COST.column) + (state.column < 0 ? COST.empty : 0);
    if (frame.parent) reached.push(endBlock(state, cost, role("close")));
    const empty = !this.layout.indented && (state.column < 0 || this.lines[at - 1]?.kind === "blank");
    if (!under || empty) this.closeFurtherOut(reached, state, line, role, empty ? COST.seen : 0);
    if (under && !this.isOdd(frame, next)) return;
    const indented = under ? COST.strayUnderHead : COST.stray;
    const anywhere = frame.parent || next < this.lines.length ? COST.strayAnywhere : COST.strayAtEnd;
    const stray = this.layout.indented ? indented : anywhere;
    reached.push({ ...state, cost: state.cost + stray, moves: role("stray") });
  }

  private closeFurtherOut(
    reached: State[],
    state: State,
    line: Line,
    role: (role: Role, pops: number) => Move,
    less: number,
  ): void {
    let outer = { ...state, cost: state.cost - less };
    for (let pops = 1; outer.frame.parent?.parent; pops++) {
      outer = endBlock(outer, COST.notClosed, null);
      if (!this.standsUnder(line, outer.frame)) continue;
      reached.push(endBlock(outer, 0, role("close", pops)));
      return;
    }
  }

  private standsUnder(line: Line, frame: Frame): boolean {
    return (
      frame.parent !== null &&
      (!this.layout.indented || line.indent === frame.column || line.indent === frame.due)
    );
  }

  /** Whether the next line would not fit behind the block's end, so that the `}` may be one too many. */
  private isOdd(frame: Frame, next: number): boolean {
    const line = this.lines[next];
    const outer = frame.parent;
    if (!line || !outer) return false;
    if (line.kind === "close")
      return this.layout.indented ? !this.standsUnder(line, outer) : outer.parent === null;
    if (line.kind === "broken" && !this.layout.indented) return true;
    return !this.inColumn(line, outer, frame.column) || !this.fits(line, outer.context);
  }

  /** Whether a line may stand in a block; a step beside sections has most likely dropped out of one. */
  private fits(line: Line, context: Context | undefined): boolean {
    return fits(line, context) && !(this.sectioned && context === "procedure" && levelOf(line) === STEP);
  }

  private inColumn(line: Line, frame: Frame, column: number): boolean {
    if (!this.layout.indented || line.indent === column) return true;
    const { step } = this.layout;
    return line.indent === frame.column + step || line.indent === frame.due + step;
  }

  private misfitCost(line: Line, { frame, column, misfit }: State): number {
    const out = this.inColumn(line, frame, column) ? 0 : isSoft(line) ? COST.columnBroken : COST.column;
    return out + (misfit || this.fits(line, frame.context) ? 0 : COST.context);
  }

  /** The places where a line may stand: where it is, and further out where it fits better. */
  private places(state: State, line: Line, at: number): Place[] {
    const places: Place[] = [];
    let least = Number.POSITIVE_INFINITY;
    let outer = state;
    for (let pops = 0; ; pops++) {
      const misfit = this.misfitCost(line, outer);
      const cost = outer.cost + misfit + (pops > 0 && line.kind === "broken" ? COST.outer : 0);
      if (misfit < least) places.push({ state: outer, pops, headless: false, cost });
      least = Math.min(least, misfit);
      if (this.mayLackHead(line, outer, pops, at))
        places.push({
          state: outer,
          pops,
          headless: true,
          cost: outer.cost + this.lostHeadCost(line, outer.frame, at),
        });
      if (misfit === 0 || !outer.frame.parent) return places;
      outer = endBlock(outer, COST.notClosed, null);
    }
  }

  private mayLackHead(line: Line, { frame }: State, pops: number, at: number): boolean {
    if (line.kind === "comment" || frame.depth >= DEEPEST) return false;
    const { indented, step } = this.layout;
    if (indented) return line.indent === frame.due + 2 * step;
    return pops === 0 && (!this.fits(line, frame.context) || this.lines[at - 1]?.kind === "blank");
  }

  private lostHeadCost(line: Line, frame: Frame, at: number): number {
    const blanks = this.blanksBefore(at);
    if (this.layout.indented && blanks > 0) return frame.parent ? COST.lostHead : COST.lostHeadOutermost;
    if (this.layout.indented) return COST.lostHeadUnseen;
    if (blanks > 1) return COST.lostHeadAnywhere;
    if (blanks === 0 || !frame.parent) return COST.lostHeadUnseenAnywhere;
    return this.fits(line, frame.context) ? COST.lostHeadFitting : COST.lostHeadAnywhere;
  }

  private blanksBefore(at: number): number {
    let last = at - 1;
    while (this.lines[last]?.kind === "comment") last--;
    let first = last;
    while (this.lines[first]?.kind === "blank") first--;
    return last - first;
  }

  /** Every part the line may play at a place. */
  private readAt(reached: State[], place: Place, line: Line, at: number, next: number): void {
    const { state, pops, headless } = place;
    const frame = headless ? this.frames.open(state.frame, line, at, true) : state.frame;
    const begun = headless ? { column: -1, misfit: false } : state;
    const { skipped } = state;
    const move = (role: Role): Move => ({ before: state.moves, at, pops, headless, role });
    const says = line.kind === "statement" || line.kind === "prose";
    const column = says ? line.indent : begun.column;
    const misfit = line.kind === "comment" ? begun.misfit : !this.fits(line, frame.context);
    const stay = (cost: number, more = 0): void => {
      reached.push({
        frame,
        cost: place.cost + cost,
        column,
        misfit,
        skipped: skipped + more,
        moves: move("leaf"),
      });
    };
    const open = (cost: number): void => {
      const opened = this.frames.open(frame, line, at, false);
      reached.push({
        frame: opened,
        cost: place.cost + cost,
        column: -1,
        misfit: false,
        skipped,
        moves: move("open"),
      });
    };
    const end = (cost: number): void => {
      if (frame.parent) reached.push(endBlock({ ...state, frame, cost: place.cost }, cost, move("close")));
    };
    if (line.kind === "comment" || line.kind === "prose") stay(0);
    else if (frame.depth >= DEEPEST) stay(0, line.opens ? 1 : 0);
    else if (line.kind === "broken") this.readBroken(line, frame, at, next, stay, open, end);
    else this.readHead(line, frame, at, next, stay, open);
  }

  private readHead(line: Line, frame: Frame, at: number, next: number, stay: Take, open: Take): void {
    const block = blockOf(line);
    if (line.opens) {
      if (block === "never") stay(COST.strayOpen);
      open(block === "never" ? COST.blockNotHere : 0);
    } else if (block === "must") {
      open(COST.notOpenedMust);
      stay(COST.noBlock);
    } else {
      stay(0);
      if ((block === "may" || line.head === "+for-each") && this.hasChild(line, frame, next))
        open(this.follows(at, next) ? COST.notOpenedMay : COST.notOpenedApart);
    }
  }

  private readBroken(
    line: Line,
    frame: Frame,
    at: number,
    next: number,
    stay: Take,
    open: Take,
    end: Take,
  ): void {
    if (line.opens) {
      const bare = /^\s*["{]/.test(line.text);
      stay(bare ? COST.strayOpenBare : COST.strayOpenBroken);
      open(bare ? COST.bare : 0);
    } else stay(0);
    const aside = this.standsUnder(line, frame) ? 0 : COST.brokenCloseAside;
    if (/\}/.test(line.text.replace(/"[^"]*"/g, ""))) end(COST.brokenClose + aside);
    else if (!line.opens) end(COST.brokenForClose + aside);
    if (!line.opens && this.hasChild(line, frame, next))
      open(this.follows(at, next) ? COST.notOpenedBroken : COST.notOpenedApart);
  }

  /** Whether the next line looks as if it stood in a block that this line opens. */
  private hasChild(line: Line, frame: Frame, next: number): boolean {
    const child = this.lines[next];
    if (!child || child.kind === "close") return false;
    if (this.layout.indented)
      return child.indent > (line.kind === "broken" ? frame.due + this.layout.step : line.indent);
    return line.kind === "broken" || !this.fits(child, frame.context);
  }

  /** Whether nothing but comments stands between two lines. */
  private follows(at: number, next: number): boolean {
    let between = at + 1;
    while (this.lines[between]?.kind === "comment") between++;
    return between === next;
  }
}

type Take = (cost: number) => void;

const isSoft = (line: Line): boolean => line.kind === "broken" || line.kind === "comment";

/** Ends the innermost block. */
function endBlock(state: State, cost: number, moves: Move | null): State {
  const { frame, skipped } = state;
  const parent = frame.parent as Frame;
  return {
    frame: parent,
    cost: state.cost + cost,
    column: frame.column,
    misfit: frame.misfit,
    skipped,
    moves: moves ?? state.moves,
  };
}
