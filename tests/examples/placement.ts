/**
 * Reads a text and lists what is wrong with it as far as the grammar alone can tell: lines that cannot be read, blocks
 * that do not close, words that stand where their block does not take them.
 */
import {
  type Context,
  clausesWithin,
  constructs,
  contextOf,
  isBlock,
  type Line,
  type Node,
  readDocument,
} from "../../grammar";

/** One line a fault, with its line number from 1; empty where all is well. `within` is what the text stands in, if anything. */
export function faultsIn(text: string, within?: Context): string[] {
  const document = readDocument(text);
  const faults = document.lines.flatMap((line, i) =>
    line.problems.map((p) => `${i + 1}: ${p.message} ${JSON.stringify(p.args)}: ${line.text.trim()}`),
  );
  for (const problem of document.tree.problems) faults.push(`${problem.line + 1}: ${problem.message}`);
  for (const line of misplaced(document.tree.children, within)) faults.push(`not here: ${line.text.trim()}`);
  return faults;
}

function misplaced(nodes: readonly Node[], within: Context | undefined): Line[] {
  return nodes.flatMap((node) => {
    const line = isBlock(node) ? node.head : node;
    const own = line && within && !fits(line, within) ? [line] : [];
    if (!isBlock(node)) return own;
    const inside = contextOf(node.head);
    return [...own, ...misplaced(node.children, inside === "same" ? within : inside)];
  });
}

function fits(line: Line, within: Context): boolean {
  if (line.kind !== "statement") return true;
  if (line.head.startsWith("+")) return clausesWithin.get(within)?.has(line.head.slice(1)) ?? false;
  const allowed = constructs.get(line.head)?.within ?? [];
  return allowed.length === 0 || allowed.includes(within);
}
