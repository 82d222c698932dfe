/**
 * What a change is about and where it lies, as a reader of the sheet knows it: titles, and printed step numbers.
 */
import { constructs } from "../../grammar";
import { numbersByLine } from "../model";
import type { Named, StepNamed } from "./change";
import { FILE, namesOf, SETTINGS, textOf } from "./form";
import { CAUTIONS } from "./match";
import { type Node, nearest, type Side } from "./node";

/** The number of each step and check of a side's procedures. */
export type Numbers = ReadonlyMap<Node, number>;

/** Numbers every step and check of a side as its own procedure's sheet does. */
export function numbersOf(side: Side): Numbers {
  const numbers = new Map<Node, number>();
  for (const file of side.files.values())
    for (const procedure of file.procedures) {
      const byLine = numbersByLine(procedure);
      for (const target of procedure.targets) {
        const node = side.byThing.get(target);
        const number = byLine.get(target.line);
        if (node && number !== undefined) numbers.set(node, number);
      }
    }
  return numbers;
}

/** The printed step a node lies in, itself where it is one. */
export function stepOf(node: Node | null, numbers: Numbers): StepNamed | null {
  const step = nearest(node, (at) => numbers.has(at));
  return step && { number: numbers.get(step) as number, title: titleOf(step) };
}

/** What a node is called: its title, or its name with spaces. */
export function titleOf(node: Node): string {
  return node.thing?.title || textOf(node, "title") || (node.thing?.name ?? "").replaceAll("-", " ");
}

/** A node with a name or a title, as data. A caution has the name of its hazard. */
export function namedAs(node: Node): Named {
  if (CAUTIONS.includes(node.kind)) return hazardOf(node);
  const name = node.kind === FILE || node.kind === SETTINGS ? textOf(node, "path") : (node.thing?.name ?? "");
  return {
    kind: node.kind,
    id: node.thing?.id ?? `${node.kind}:${name}`,
    name,
    title: titleOf(node) || name,
  };
}

function hazardOf(node: Node): Named {
  const name = namesOf(node, "hazard")[0] ?? "";
  const around = nearest(node.parent, (at) => at.thing !== null);
  return { kind: node.kind, id: `${around?.thing?.id ?? ""}/${node.kind}:${name}`, name, title: name };
}

/** What a node belongs to that has a name or title: the thing it is or stands in, else its file. */
export function concernOf(node: Node): Node | null {
  return nearest(node, (at) => at.thing !== null || at.kind === FILE || CAUTIONS.includes(at.kind));
}

/** Whether a node declares something beside the work: a part, a tool, a variant. */
export function isDeclaration(node: Node): boolean {
  return constructs.get(node.kind)?.declares !== undefined && !isTarget(node);
}

/** Whether it is a section, step or check. */
export function isTarget({ kind }: Node): boolean {
  return kind === "section" || kind === "step" || kind === "check";
}

/** Whether it is an act. */
export function isAct({ kind }: Node): boolean {
  return constructs.get(kind)?.act ?? false;
}
