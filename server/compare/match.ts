/**
 * Which node of one side is which of the other: first by name, earlier by content, earlier by likeness. What has a name or a
 * title is found wherever it has gone; lines are matched where they stand, and then, if they say the same, elsewhere.
 */
import { constructs } from "../../grammar";
import { commonRun, shared, wordsIn } from "./alike";
import { FILE, isClause, PROJECT, PROSE, SETTING, SETTINGS, textOf } from "./form";
import { type Node, nearest, type Side, within } from "./node";

/** The matches of two sides, both ways. */
export interface Matching {
  readonly before: Side;
  readonly after: Side;
  /** The node of the new side that an old one is, and the other way round. */
  readonly now: ReadonlyMap<Node, Node>;
  readonly earlier: ReadonlyMap<Node, Node>;
  /** What a node says by itself, names taken as what they mean: the same text on both sides where the same is meant. */
  readonly saidBy: (node: Node) => string;
}

interface Maker {
  readonly before: Side;
  readonly after: Side;
  readonly now: Map<Node, Node>;
  readonly earlier: Map<Node, Node>;
  readonly said: Map<Node, string>;
  readonly whole: Map<Node, string>;
}

/** From here on two things of which neither the name nor the title is the same count as one, changed. */
const ALIKE = 0.5;
/** Lines at the same place need less. */
const LINE_ALIKE = 0.34;

/** Matches two sides. `samePairs` are files that are the same by the caller's word. */
export function matchSides(
  before: Side,
  after: Side,
  samePairs: readonly (readonly [string, string])[] = [],
): Matching {
  const maker: Maker = {
    before,
    after,
    now: new Map(),
    earlier: new Map(),
    said: new Map(),
    whole: new Map(),
  };
  pair(maker, before.root, after.root);
  matchFiles(maker, samePairs);
  matchThings(maker);
  // Until here hashes were made without knowing which thing is which.
  maker.said.clear();
  maker.whole.clear();
  settle(maker, [equalChildren, sameKeys]);
  equalAnywhere(maker);
  settle(maker, [equalChildren, sameKeys, likeLines]);
  return { before, after, now: maker.now, earlier: maker.earlier, saidBy: (node) => saidBy(maker, node) };
}

function pair(maker: Maker, old: Node, fresh: Node): void {
  maker.now.set(old, fresh);
  maker.earlier.set(fresh, old);
}

const isFree = (maker: Maker, node: Node): boolean => !maker.now.has(node) && !maker.earlier.has(node);

/** Pairs the k-th of each key on one side with the k-th of the same key on the other. */
function byKey(
  maker: Maker,
  old: readonly Node[],
  fresh: readonly Node[],
  keyOf: (node: Node) => string | null,
): void {
  const waiting = new Map<string, Node[]>();
  for (const node of old) {
    const key = isFree(maker, node) ? keyOf(node) : null;
    if (key !== null) waiting.set(key, [...(waiting.get(key) ?? []), node]);
  }
  for (const node of fresh) {
    const key = isFree(maker, node) ? keyOf(node) : null;
    const other = key === null ? undefined : waiting.get(key)?.shift();
    if (other) pair(maker, other, node);
  }
}

function matchFiles(maker: Maker, samePairs: readonly (readonly [string, string])[]): void {
  const [old, fresh] = [maker.before.root.children, maker.after.root.children];
  const isFile = (node: Node): boolean => node.kind === FILE;
  for (const [one, other] of samePairs) {
    const a = old.find((node) => isFile(node) && node.place.file === one);
    const b = fresh.find((node) => isFile(node) && node.place.file === other);
    if (a && b) pair(maker, a, b);
  }
  byKey(maker, old, fresh, (node) => (node.kind === SETTINGS ? SETTINGS : null));
  byKey(maker, old, fresh, (node) => (isFile(node) ? textOf(node, "path") : null));
  byKey(maker, old, fresh, (node) => (node.size > 1 ? insideOf(maker, node) : null));
  greedily(maker, old.filter(isFile), fresh.filter(isFile), likeness, ALIKE);
}

/** The machine or procedure a thing stands in, as a key that is the same on both sides. */
function ownerKey(maker: Maker, node: Node): string {
  const owner = nearest(node.parent, (at) => at.thing?.owns != null);
  if (!owner) return "";
  const old = maker.earlier.get(owner) ?? owner;
  return maker.now.has(old) ? `#${old.number}` : `${owner.kind} ${owner.thing?.name}`;
}

const isNamed = (node: Node): boolean => node.thing?.named ?? false;
const levelOf = (node: Node): string =>
  isClause(node) ? "face" : (constructs.get(node.kind)?.declares ?? node.kind);

function matchThings(maker: Maker): void {
  const things = (side: Side): Node[] => side.nodes.filter((node) => node.thing);
  const all = [things(maker.before), things(maker.after)] as const;
  const owners = all.map((list) => list.filter((node) => node.thing?.owns));
  const others = all.map((list) => list.filter((node) => !node.thing?.owns));
  for (const [old = [], fresh = []] of [owners, others]) {
    const name = (node: Node): string | null =>
      isNamed(node) ? `${levelOf(node)} ${node.thing?.name}` : null;
    const title = (node: Node): string | null =>
      isNamed(node) || !node.thing?.title ? null : `${node.kind} ${node.thing.title}`;
    const inOwner =
      (key: (node: Node) => string | null) =>
      (node: Node): string | null => {
        const own = key(node);
        return own === null ? null : `${fileKey(maker, node)} ${ownerKey(maker, node)} ${own}`;
      };
    byKey(maker, old, fresh, inOwner(name));
    byKey(maker, old, fresh, (node) =>
      title(node) === null ? null : inOwner(title)(node) + parentTitle(node),
    );
    byKey(maker, old, fresh, inOwner(title));
    byKey(maker, old, fresh, name);
    byKey(maker, old, fresh, (node) =>
      isOneOfMany(node) ? `${node.kind} ${node.thing?.title} ${insideOf(maker, node)}` : null,
    );
    byKey(maker, old, fresh, title);
    greedily(maker, old, fresh, thingLikeness, ALIKE);
  }
}

const isOneOfMany = (node: Node): boolean => node.thing?.title !== "";
const parentTitle = (node: Node): string => ` in ${node.parent?.thing?.title ?? ""}`;

/** The file a node stands in, as a key that is the same on both sides. */
function fileKey(maker: Maker, node: Node): string {
  const file = nearest(node, (at) => at.kind === FILE);
  const old = file && (maker.earlier.get(file) ?? file);
  return old ? String(old.number) : "";
}

/** How alike two things are that have not the same name: a title that stays counts most. */
function thingLikeness(old: Node, fresh: Node): number {
  if (old.kind !== fresh.kind) return 0;
  const titles = shared(wordsIn(old.thing?.title ?? ""), wordsIn(fresh.thing?.title ?? ""));
  const body = shared(bodyOf(old), bodyOf(fresh));
  const isTarget = ["section", "step", "check"].includes(old.kind);
  if (titles === 1) return 0.5 + body / 2;
  // A declaration of which name and title are others is another thing, however like it is; a step is its acts.
  return isTarget ? Math.max(body, (titles + body) / 2) : titles >= ALIKE ? (titles + body) / 2 : 0;
}

/** What stands in a node, a text a node. */
function bodyOf(node: Node): readonly string[] {
  return node.children.flatMap(within).map((one) => JSON.stringify([one.kind, one.words, one.slots]));
}

function likeness(old: Node, fresh: Node): number {
  return shared(bodyOf(old), bodyOf(fresh));
}

/** The most pairs that are looked at for likeness; beyond, only what is equal is matched. */
const MOST_PAIRS = 250_000;

function greedily(
  maker: Maker,
  old: readonly Node[],
  fresh: readonly Node[],
  score: (old: Node, fresh: Node) => number,
  least: number,
): void {
  const left = old.filter((node) => isFree(maker, node));
  const right = fresh.filter((node) => isFree(maker, node));
  if (left.length * right.length > MOST_PAIRS) return;
  const found = left.flatMap((a) =>
    right.flatMap((b) => {
      const value = score(a, b);
      return value >= least ? [{ a, b, value }] : [];
    }),
  );
  found.sort((x, y) => y.value - x.value || x.a.number - y.a.number || x.b.number - y.b.number);
  for (const { a, b } of found) if (isFree(maker, a) && isFree(maker, b)) pair(maker, a, b);
}

/** What a node says by itself, with names taken as the things they mean. */
function saidBy(maker: Maker, node: Node): string {
  const known = maker.said.get(node);
  if (known !== undefined) return known;
  const means = (thing: Node["thing"]): string | null => {
    const at = thing && (maker.before.byThing.get(thing) ?? maker.after.byThing.get(thing));
    const old = at && (maker.earlier.get(at) ?? (maker.now.has(at) ? at : undefined));
    return old ? `#${old.number}` : null;
  };
  let next = 0;
  const slots = node.slots.map(({ role, value }) => {
    if (value.kind !== "names") return [role, value];
    const isDeclared = role === "name" || role === "face";
    return [
      role,
      value.names.map((name) => {
        const meant = node.meant[next++];
        return means(isDeclared ? node.thing : (meant?.thing ?? null)) ?? name;
      }),
    ];
  });
  const said = JSON.stringify([node.kind, node.words, slots]);
  maker.said.set(node, said);
  return said;
}

function wholeOf(maker: Maker, node: Node): string {
  const known = maker.whole.get(node);
  if (known !== undefined) return known;
  const whole = node.size === 1 ? saidBy(maker, node) : `${saidBy(maker, node)}{${insideOf(maker, node)}}`;
  maker.whole.set(node, whole);
  return whole;
}

function insideOf(maker: Maker, node: Node): string {
  return node.children.map((child) => wholeOf(maker, child)).join("\n");
}

type Step = (maker: Maker, old: readonly Node[], fresh: readonly Node[]) => void;

/** Matches what stands in nodes that are matched, from the outside in. */
function settle(maker: Maker, steps: readonly Step[]): void {
  for (const node of maker.before.nodes) {
    const fresh = maker.now.get(node);
    if (!fresh) continue;
    for (const step of steps) {
      const left = node.children.filter((child) => isFree(maker, child) && !child.thing);
      const right = fresh.children.filter((child) => isFree(maker, child) && !child.thing);
      if (left.length > 0 && right.length > 0) step(maker, left, right);
    }
  }
}

function equalChildren(maker: Maker, old: readonly Node[], fresh: readonly Node[]): void {
  const run = commonRun(
    old.map((node) => wholeOf(maker, node)),
    fresh.map((node) => wholeOf(maker, node)),
  );
  for (const [i, j] of run) pair(maker, old[i] as Node, fresh[j] as Node);
  byKey(maker, old, fresh, (node) => wholeOf(maker, node));
}

/** Lines that are about the same: of the same word, with the same names first. */
function sameKeys(maker: Maker, old: readonly Node[], fresh: readonly Node[]): void {
  byKey(maker, old, fresh, (node) => keyOf(maker, node, true));
  byKey(maker, old, fresh, (node) => keyOf(maker, node, false));
}

/** Clauses and lines of which there are several, each known by what it says first. */
const SEVERAL: ReadonlySet<string> = new Set([
  "+stage",
  "+pulley",
  "+holes",
  "+hole",
  "+with",
  "+face",
  "item",
]);
export const CAUTIONS: readonly string[] = ["danger", "warning", "caution", "notice"];

function keyOf(maker: Maker, node: Node, exact: boolean): string | null {
  if (node.kind === PROSE || node.kind === PROJECT) return null;
  if (node.kind === SETTING) return textOf(node, "key");
  const kind = CAUTIONS.includes(node.kind) ? "caution" : node.kind;
  const first = JSON.parse(saidBy(maker, node))[2][0];
  const key = `${kind} ${node.words.includes("still") ? "still " : ""}${JSON.stringify(first ?? "")}`;
  if (exact) return key;
  const isSingle = isClause(node) ? !SEVERAL.has(node.kind) : SINGLE.has(node.kind);
  return isSingle ? kind : null;
}

/** Lines of which a block has one: they are the same line whatever they say. */
const SINGLE: ReadonlySet<string> = new Set([
  "torquil",
  "on",
  "document",
  "status",
  "working-time",
  "qualification",
  "kit",
  "view",
  "marks",
  "observe",
  "proves",
  "record",
  "check-again",
  "repeat",
  "end-job",
  "go-to",
  "go-on",
  "starts",
  "ends",
  "otherwise",
]);

/** Lines that say much the same. */
function likeLines(maker: Maker, old: readonly Node[], fresh: readonly Node[]): void {
  const tokens = (node: Node): readonly string[] =>
    wordsIn(saidBy(maker, node)).concat(node.children.map((c) => wholeOf(maker, c)));
  const known = new Map([...old, ...fresh].map((node) => [node, tokens(node)]));
  const score = (a: Node, b: Node): number => {
    if (a.kind !== b.kind) return 0;
    const like =
      a.kind === PROSE
        ? shared(wordsIn(textOf(a, "text")), wordsIn(textOf(b, "text")))
        : shared(known.get(a) ?? [], known.get(b) ?? []);
    return isClause(a) && a.kind !== "+stage" && a.kind !== "+pulley" ? Math.max(like, LINE_ALIKE) : like;
  };
  greedily(maker, old, fresh, score, LINE_ALIKE);
}

/** What is left and says the same as something that is left elsewhere has moved there. */
function equalAnywhere(maker: Maker): void {
  const isMovable = (node: Node): boolean =>
    isFree(maker, node) && !node.thing && !isClause(node) && node.kind !== SETTING;
  // The largest first: what stands in it goes along.
  const left = maker.before.nodes.filter(isMovable).sort((a, b) => b.size - a.size || a.number - b.number);
  const right = maker.after.nodes.filter(isMovable).sort((a, b) => b.size - a.size || a.number - b.number);
  byKey(maker, left, right, (node) => `${ownerKey(maker, node)} ${wholeOf(maker, node)}`);
}
