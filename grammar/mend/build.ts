/**
 * The moves of a mended reading → its tree and what is wrong with its shape.
 */
import type { Line } from "../statement";
import { type Block, blockOf, DEEPEST, mustOpen, type Node, type ShapeProblem, type Tree } from "../tree";

/** What a line does to the blocks: nothing, opens one, closes one, or is a `}` that closes none. */
export type Role = "leaf" | "open" | "close" | "stray";

/** What was supposed of one line; the last line first. */
export interface Move {
  readonly before: Move | null;
  readonly at: number;
  /** Blocks that end before the line without a `}`. */
  readonly pops: number;
  /** A block without a head begins before the line. */
  readonly headless: boolean;
  readonly role: Role;
  /** A sound block that is left whole and begins on the line. */
  readonly block: Block | null;
}

interface Open {
  readonly head: Line | null;
  /** The line of the head, or the first line of a block that lost it. */
  readonly at: number;
  readonly children: Node[];
  lines: number;
}

/** Replays the moves over the lines. */
export function buildTree(lines: readonly Line[], last: Move | null): Tree {
  const building = new Building();
  let at = 0;
  for (const move of inOrder(last)) {
    // Lines that say nothing belong to the block that goes on behind them.
    const silent = lines.slice(at, move.at);
    for (let i = 0; i < move.pops; i++) building.close(false);
    for (const line of silent) building.add(line);
    building.move(move, lines[move.at] as Line);
    at = move.at + (move.block?.lineCount ?? 1);
  }
  for (let i = at; i < lines.length; i++) {
    const line = lines[i] as Line;
    // The empty line behind a file's last line end stands in no block.
    if (i === lines.length - 1 && line.text === "") building.closeAll();
    building.add(line);
  }
  return building.finish();
}

function inOrder(last: Move | null): Move[] {
  const moves: Move[] = [];
  for (let move = last; move; move = move.before) moves.push(move);
  return moves.reverse();
}

class Building {
  private readonly stack: Open[] = [{ head: null, at: 0, children: [], lines: 0 }];
  private readonly problems: ShapeProblem[] = [];
  private skipped = 0;

  private top(): Open {
    return this.stack[this.stack.length - 1] as Open;
  }

  add(line: Line): void {
    this.top().children.push(line);
    this.top().lines++;
  }

  private addBlock(block: Block): void {
    this.top().children.push(block);
    this.top().lines += block.lineCount;
  }

  private open(head: Line | null, at: number): void {
    this.stack.push({ head, at, children: [], lines: head ? 1 : 0 });
  }

  close(closed: boolean): void {
    const { head, at, children, lines } = this.stack.pop() as Open;
    this.addBlock({ type: "block", head, children, lineCount: lines, closed });
    this.skipped = 0;
    if (!closed) this.problems.push({ line: at, message: "block-not-closed" });
  }

  move({ at, headless, role, block }: Move, line: Line): void {
    if (headless) this.open(null, at);
    if (block) {
      this.addBlock(block);
      return;
    }
    if (role === "open") this.open(line, at);
    else this.add(line);
    const message = this.problemOf(line, role);
    if (message) this.problems.push({ line: at, message });
    if (role === "close") this.close(true);
  }

  private problemOf(line: Line, role: Role): ShapeProblem["message"] | undefined {
    if (role === "stray") return "brace-stray";
    if (role === "close") return line.kind === "close" && !this.top().head ? "brace-stray" : undefined;
    const deep = role === "leaf" && this.tooDeep(line);
    if (line.opens && line.kind === "statement" && blockOf(line) === "never") return "block-not-here";
    const lacks = !line.opens && (role === "open" ? line.kind === "statement" : mustOpen(line));
    if (lacks) return "brace-missing";
    return deep ? "too-deep" : undefined;
  }

  /** Of heads that stand too deep, only the outermost is reported. */
  private tooDeep(line: Line): boolean {
    if (line.kind === "close") this.skipped--;
    return line.opens && this.stack.length > DEEPEST && this.skipped++ === 0;
  }

  closeAll(): void {
    while (this.stack.length > 1) this.close(false);
  }

  finish(): Tree {
    this.closeAll();
    const problems = this.problems.sort((a, b) => a.line - b.line);
    return { children: this.top().children, problems, balanced: false };
  }
}
