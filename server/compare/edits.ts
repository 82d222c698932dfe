/**
 * The edits that make the new normal form of the old one, as fine as a line: what a node says, what comes, goes and
 * moves. Plain data; done in their order they give the new form exactly.
 */
import { staying } from "./alike";
import { FILE, type Form, type Own, ownOf, PROJECT, PROSE, SETTINGS, sameData, textOf } from "./form";
import { CAUTIONS, type Matching } from "./match";
import type { Node } from "./node";

/** A node by the number it has in the old form in the order of its text; one that is new by `+` and its number in the new. */
export type NodeId = string;

export type Edit =
  | { readonly op: "set"; readonly node: NodeId; readonly before: Own; readonly after: Own }
  | { readonly op: "remove"; readonly node: NodeId; readonly before: Own }
  | {
      readonly op: "add";
      readonly node: NodeId;
      readonly into: NodeId;
      readonly behind: NodeId | null;
      readonly after: Own;
    }
  | { readonly op: "move"; readonly node: NodeId; readonly into: NodeId; readonly behind: NodeId | null };

/** An edit with the nodes it is about, while changes are made of edits. */
export interface Step {
  readonly edit: Edit;
  readonly old: Node | null;
  readonly fresh: Node | null;
}

/** Every edit between two sides, in the order of the new text, what goes first. */
export function stepsOf(matching: Matching): readonly Step[] {
  const { before, after, now, earlier } = matching;
  const idOf = (fresh: Node): NodeId => {
    const old = earlier.get(fresh);
    return old ? String(old.number) : `+${fresh.number}`;
  };
  const gone = before.nodes
    .filter((old) => !now.has(old))
    .map(
      (old): Step => ({
        edit: { op: "remove", node: String(old.number), before: ownOf(old) },
        old,
        fresh: null,
      }),
    );
  const staysPut = new Set(after.nodes.flatMap((parent) => stayingIn(matching, parent)));
  const rest = after.nodes.flatMap((fresh): Step[] => {
    const old = earlier.get(fresh) ?? null;
    const parent = fresh.parent;
    const place = parent && { into: idOf(parent), behind: behind(fresh, idOf) };
    if (!old)
      return place
        ? [{ edit: { op: "add", node: idOf(fresh), ...place, after: ownOf(fresh) }, old, fresh }]
        : [];
    const moved: Step[] =
      place && !staysPut.has(fresh)
        ? [{ edit: { op: "move", node: idOf(fresh), ...place }, old, fresh }]
        : [];
    const [was, is] = [ownOf(old), ownOf(fresh)];
    const set: Step[] = sameData(was, is)
      ? []
      : [{ edit: { op: "set", node: idOf(fresh), before: was, after: is }, old, fresh }];
    return [...moved, ...set];
  });
  return [...gone, ...rest];
}

function behind(fresh: Node, idOf: (node: Node) => NodeId): NodeId | null {
  const siblings = fresh.parent?.children ?? [];
  const before = siblings[siblings.indexOf(fresh) - 1];
  return before ? idOf(before) : null;
}

/** The children that stand where they stood: under the same parent, and in the same order. Files have no order. */
function stayingIn({ earlier }: Matching, parent: Node): readonly Node[] {
  const old = earlier.get(parent);
  const here = old ? parent.children.filter((child) => earlier.get(child)?.parent === old) : [];
  if (parent.kind === PROJECT) return here;
  const places = new Map(old?.children.map((child, i) => [child, i]));
  const order = here.map((child) => places.get(earlier.get(child) as Node) as number);
  const kept = staying(order, here.map(weightOf));
  return here.filter((_, i) => kept.has(i));
}

/** What rather stays: of an act and a caution or a text that have changed places, the act. */
function weightOf(child: Node): number {
  return CAUTIONS.includes(child.kind) || child.kind === PROSE ? 1 : 8 * child.size;
}

interface Growing {
  own: Own;
  children: NodeId[];
}

/**
 * Does edits to a form: the changes between two forms, done to the old one, give the new one.
 * @throws Error when an edit is about a node that is not there, or not what the edit takes it to be
 */
export function applyEdits(form: Form, edits: readonly Edit[]): Form {
  const nodes = new Map<NodeId, Growing>();
  const parents = new Map<NodeId, NodeId>();
  const number = (one: Form, parent: NodeId | null): NodeId => {
    const id = String(nodes.size);
    const growing: Growing = { own: ownOf(one), children: [] };
    nodes.set(id, growing);
    if (parent !== null) parents.set(id, parent);
    for (const child of one.children) growing.children.push(number(child, id));
    return id;
  };
  const root = number(form, null);
  const at = (id: NodeId): Growing => {
    const found = nodes.get(id);
    if (!found) throw new Error(`there is no node ${id}`);
    return found;
  };
  const takeOut = (id: NodeId): void => {
    const parent = parents.get(id);
    if (parent !== undefined) at(parent).children = at(parent).children.filter((child) => child !== id);
    parents.delete(id);
  };
  const putIn = (id: NodeId, into: NodeId, after: NodeId | null): void => {
    const { children } = at(into);
    children.splice(after === null ? 0 : children.indexOf(after) + 1, 0, id);
    parents.set(id, into);
  };
  const expect = (id: NodeId, own: Own): void => {
    if (!sameData(at(id).own, own)) throw new Error(`node ${id} is not what was to be changed`);
  };
  for (const edit of inOrder(edits)) {
    if (edit.op === "remove") {
      expect(edit.node, edit.before);
      takeOut(edit.node);
    } else if (edit.op === "set") {
      expect(edit.node, edit.before);
      at(edit.node).own = edit.after;
    } else {
      if (edit.op === "add") nodes.set(edit.node, { own: edit.after, children: [] });
      putIn(edit.node, edit.into, edit.behind);
    }
  }
  const finished = (id: NodeId): Form => {
    const { own, children } = at(id);
    const made = children.map(finished);
    return { ...own, children: own.kind === PROJECT ? made.sort(byPath) : made };
  };
  return finished(root);

  /** What moves is taken out before anything goes, and put in where what it stands behind stands already. */
  function inOrder(all: readonly Edit[]): readonly Edit[] {
    const moves = all.filter((edit) => edit.op === "move");
    for (const { node } of moves) takeOut(node);
    const placed = all.filter((edit) => edit.op === "move" || edit.op === "add");
    const done = new Set<NodeId>();
    const waiting = new Set(placed.map((edit) => edit.node));
    const byNode = new Map(placed.map((edit) => [edit.node, edit]));
    const sorted: Edit[] = [];
    const place = (id: NodeId): void => {
      const edit = byNode.get(id);
      if (!edit || done.has(id)) return;
      done.add(id);
      if (waiting.has(edit.into)) place(edit.into);
      if (edit.behind !== null && waiting.has(edit.behind)) place(edit.behind);
      sorted.push(edit);
    };
    for (const { node } of placed) place(node);
    return [
      ...all.filter((edit) => edit.op === "remove"),
      ...sorted,
      ...all.filter((edit) => edit.op === "set"),
    ];
  }
}

const orderOf = (form: Form): string =>
  `${form.kind === FILE ? 0 : 1} ${form.kind === SETTINGS ? "" : textOf(form, "path")}`;
const byPath = (a: Form, b: Form): number => (orderOf(a) < orderOf(b) ? -1 : 1);
