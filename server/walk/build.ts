/**
 * The hands of the graph's builder: points are put down one after the other; blocks, regions and tests are opened and
 * closed around them; jumps whose end is not known yet are noted and led there later.
 */
import type { Entry } from "../facts";
import type { Place, Thing } from "../model";
import type { JumpPoint, Point, ReturnPoint, Spot, TestPoint } from "./points";
import type { Scope } from "./scope";
import type { Variables } from "./variables";

/** A stretch of points that a block of the text makes; `end` is the point after it. */
export interface Block {
  readonly construct: string;
  /** Its head. */
  readonly spot: Spot;
  readonly start: number;
  end: number;
  readonly parent: number;
}

/** A condition with its `otherwise`, or a check: from its first point to the one after it. */
export interface Region {
  readonly start: number;
  end: number;
  readonly parent: number;
  /** Its own tests, those of inner regions aside. */
  readonly tests: number[];
}

export interface Draft {
  readonly points: Point[];
  readonly blocks: Block[];
  readonly regions: Region[];
  readonly variables: Variables;
  /** How many returns each counter allows. */
  readonly bounds: number[];
  parent: number;
  region: number;
  block: number;
  /** Points that go on to the end of the step or check they stand in. */
  onward: number[] | null;
  asking: Asking | null;
  /** Which segment it is, of those of the procedure, and how many checks without a name it has so far. */
  readonly segment: number;
  nameless: number;
}

/** What the lines being read stand in. */
export interface Around {
  readonly draft: Draft;
  readonly scope: Scope;
  readonly file: string;
  readonly through: Place | null;
  /** Procedures being followed, outermost first. */
  readonly open: readonly Thing[];
  /** First points of the steps, checks and sections of this procedure, by the line of their head. */
  readonly starts: Map<number, number>;
  /** The same, of those that have a name. */
  readonly named: Map<string, number>;
  /** Jumps and returns to targets of this procedure. */
  readonly pending: { readonly point: number; readonly target: Thing | null }[];
}

/** The check around: where it begins, and its outcomes so far. */
export interface Asking {
  readonly first: number;
  readonly thing: Thing;
  readonly outcomes: OutcomeTest[];
}

export interface OutcomeTest {
  readonly at: number;
  readonly still: boolean;
  readonly mask: bigint;
  /** The counters of the bounded returns in its body. */
  readonly returns: readonly number[];
}

export function spotOf(around: Around, entry: Entry, line: number): Spot {
  return { entry, file: around.file, line, through: around.through };
}

/** Notes where a step, check or section begins; null where it has no name that another line can mean. */
export function startAt(around: Around, target: Thing | null, line: number): void {
  const { length } = around.draft.points;
  around.starts.set(line, length);
  if (target?.named) around.named.set(target.name, length);
}

type Bare<P> = P extends Point ? Omit<P, "parent" | "region" | "block"> : never;

/** Puts a point down, with what it stands in, and returns its index. */
export function put(draft: Draft, bare: Bare<Point>): number {
  const { parent, region, block } = draft;
  return draft.points.push(Object.assign(bare, { parent, region, block }) as Point) - 1;
}

/** Puts down a step or check; what goes on from within it goes on to the point that is next then. */
export function inStep(draft: Draft, asking: Asking | null, work: () => void): void {
  const { onward, asking: before } = draft;
  draft.onward = [];
  draft.asking = asking;
  work();
  leadTo(draft, draft.onward, draft.points.length);
  draft.onward = onward;
  draft.asking = before;
}

/** Puts down what a block holds. */
export function inBlock(draft: Draft, spot: Spot, work: () => void): void {
  const before = draft.block;
  draft.block = draft.blocks.length;
  const { construct } = spot.entry;
  const block: Block = { construct, spot, start: draft.points.length, end: 0, parent: before };
  draft.blocks.push(block);
  work();
  block.end = draft.points.length;
  draft.block = before;
}

/** Puts down a condition or check with its bodies. */
export function inRegion(draft: Draft, work: () => void): void {
  const before = draft.region;
  draft.region = draft.regions.length;
  const region: Region = { start: draft.points.length, end: 0, parent: before, tests: [] };
  draft.regions.push(region);
  work();
  region.end = draft.points.length;
  draft.region = before;
}

/** Puts down a test and its body; returns the test's index. Its `elseAt` is the point after the body. */
export function inTest(draft: Draft, test: Omit<Bare<TestPoint>, "elseAt">, body: () => void): number {
  const at = put(draft, { ...test, elseAt: 0 });
  draft.regions[draft.region]?.tests.push(at);
  const before = draft.parent;
  draft.parent = at;
  body();
  draft.parent = before;
  (draft.points[at] as TestPoint).elseAt = draft.points.length;
  return at;
}

/** Leads jumps to a point. */
export function leadTo(draft: Draft, jumps: readonly number[], to: number): void {
  for (const jump of jumps) (draft.points[jump] as JumpPoint | ReturnPoint).to = to;
}
