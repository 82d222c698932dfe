/**
 * The readings that one line may lead to: each part it may play, at each place where it may stand, with its cost.
 */
import type { Context } from "../constructs";
import { isSaid, type Layout } from "../layout";
import type { Line } from "../statement";
import { type Block, blockOf, DEEPEST, fits, levelOf, STEP } from "../tree";
import type { Move, Role } from "./build";
import { COST } from "./costs";
import { type Frame, Frames } from "./frames";
import { endBlock, type State } from "./state";

/** A place for a line: after some blocks have ended without a `}`, perhaps in a block that lost its head. */
interface Place {
  readonly state: State;
  readonly pops: number;
  readonly headless: boolean;
  readonly cost: number;
}

/** Finds the readings that the lines of one text may lead to. */
export class Search {
  readonly frames: Frames;
  private readonly sectioned: boolean;

  constructor(
    private readonly lines: readonly Line[],
    private readonly layout: Layout,
  ) {
    this.frames = new Frames(layout.step, lines.length);
    this.sectioned = lines.some((line) => line.head === "section" && line.kind === "statement");
  }

  /** Every state that a block which is left whole may lead to. */
  readSolid(states: readonly State[], line: Line, at: number, block: Block): State[] {
    return states.flatMap((state) =>
      this.places(state, line, at).map(({ state, pops, headless, cost }) => {
        const frame = headless ? this.frames.open(state.frame, line, at, true) : state.frame;
        const moves: Move = { before: state.moves, at, pops, headless, role: "leaf", block };
        return {
          frame,
          cost,
          column: line.indent,
          misfit: !this.fits(line, frame.context),
          skipped: 0,
          moves,
        };
      }),
    );
  }

  /** Every state that a line may lead to. */
  readLine(states: readonly State[], line: Line, at: number): State[] {
    const reached: State[] = [];
    const next = this.nextSaid(at + 1);
    for (const state of states) {
      if (line.kind === "close") this.readClose(reached, state, line, at, next);
      else for (const place of this.places(state, line, at)) this.readAt(reached, place, line, at, next);
    }
    return reached;
  }

  private nextSaid(from: number): number {
    let at = from;
    while (at < this.lines.length && !isSaid(this.lines[at] as Line)) at++;
    return at;
  }

  private readClose(reached: State[], state: State, line: Line, at: number, next: number): void {
    const { frame, moves } = state;
    const role = (role: Role, pops = 0): Move => ({
      before: moves,
      at,
      pops,
      headless: false,
      role,
      block: null,
    });
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
    const move = (role: Role): Move => ({ before: state.moves, at, pops, headless, role, block: null });
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
      if (block === "may" && this.hasChild(line, frame, next))
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
