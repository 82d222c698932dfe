/**
 * What has changed in a file and is no change of meaning: spaces, blank lines, comments, facts on one line or several.
 */
import type { Step } from "./edits";
import { FILE, isClause, SETTINGS } from "./form";
import type { Matching } from "./match";
import { type Node, nearest, type Side, within } from "./node";

/** The files whose text is laid out otherwise, beside what has changed in them. */
export function laidOutOtherwise(
  matching: Matching,
  steps: readonly Step[],
  lineEnds: "compare" | "ignore",
): readonly (readonly [Node, Node])[] {
  const { before, now } = matching;
  const touched = { old: linesOf(steps, "old"), fresh: linesOf(steps, "fresh") };
  return before.root.children.flatMap((old): [Node, Node][] => {
    const fresh = now.get(old);
    if (!fresh) return [];
    if (old.kind === SETTINGS) return isOnlyLaidOut(old, fresh, steps) ? [[old, fresh]] : [];
    const hasChanges = steps.some((step) =>
      [step.old, step.fresh].some((node) => isInside(node, old) || isInside(node, fresh)),
    );
    const differs = hasChanges
      ? otherLines(matching, old, fresh, touched) || otherRemarks(matching, old, fresh)
      : otherText(matching, old, fresh, lineEnds === "compare");
    return differs ? [[old, fresh]] : [];
  });
}

/** Whether a settings file sets the same in another way. */
function isOnlyLaidOut(old: Node, fresh: Node, steps: readonly Step[]): boolean {
  if (old.written === "" || fresh.written === "" || old.written === fresh.written) return false;
  return !steps.some((step) => isInside(step.old, old) || isInside(step.fresh, fresh));
}

type Touched = Readonly<Record<"old" | "fresh", ReadonlySet<string>>>;

const key = ({ place }: Node): string => `${place.line} ${place.file}`;

function linesOf(steps: readonly Step[], side: "old" | "fresh"): ReadonlySet<string> {
  return new Set(steps.flatMap((step) => (step[side] ? [key(step[side])] : [])));
}

function isInside(node: Node | null, file: Node): boolean {
  return nearest(node, (at) => at === file) !== null;
}

function textsOf(side: Side, file: Node): readonly string[] {
  return side.files.get(file.place.file)?.document.lines.map((line) => line.text) ?? [];
}

function otherText({ before, after }: Matching, old: Node, fresh: Node, lineEnds: boolean): boolean {
  const isOther = textsOf(before, old).join("\n") !== textsOf(after, fresh).join("\n");
  return isOther || (lineEnds && shapeOf(before, old) !== shapeOf(after, fresh));
}

function shapeOf(side: Side, file: Node): string {
  return JSON.stringify(side.files.get(file.place.file)?.document.shape ?? null);
}

function depthOf(node: Node): number {
  let depth = 0;
  for (let at = node.parent; at; at = at.parent) depth++;
  return depth;
}

/** Whether a line that says the same, and in which nothing else has changed, is written otherwise. */
function otherLines({ before, after, now }: Matching, old: Node, fresh: Node, touched: Touched): boolean {
  const [was, is] = [textsOf(before, old), textsOf(after, fresh)];
  const isUntouched = (a: Node, b: Node): boolean => !touched.old.has(key(a)) && !touched.fresh.has(key(b));
  const differ = (node: Node): boolean => {
    const other = now.get(node);
    if (!other) return false;
    if (other.place.file === fresh.place.file && node.kind !== FILE && isUntouched(node, other)) {
      const [a = "", b = ""] = [was[node.place.line], is[other.place.line]];
      const sameDepth = depthOf(node) === depthOf(other);
      if (sameDepth ? a !== b : a.trim() !== b.trim()) return true;
      // Facts on the head's line on one side, and on lines of their own on the other.
      if (
        isClause(node) &&
        (node.place.line === node.parent?.place.line) !== (other.place.line === other.parent?.place.line)
      )
        return true;
    }
    return node.children.some(differ);
  };
  return differ(old);
}

/** Whether comments that stand on lines of their own, outside of what came or went, are others. */
function otherRemarks({ before, after, now, earlier }: Matching, old: Node, fresh: Node): boolean {
  const remarks = (side: Side, file: Node, other: ReadonlyMap<Node, Node>): string => {
    const lines = side.files.get(file.place.file)?.document.lines ?? [];
    const left = new Set(lines.flatMap((line, i) => (line.kind === "comment" ? [i] : [])));
    if (left.size === 0) return "";
    for (const node of within(file))
      if (!other.has(node)) for (let i = node.place.line; i <= node.place.endLine; i++) left.delete(i);
    return [...left].map((i) => lines[i]?.text.trim()).join("\n");
  };
  return remarks(before, old, now) !== remarks(after, fresh, earlier);
}
