/**
 * How everything stands, as the tree that the editor shows: groups, in them things with their state, and where the ways
 * differ, under a thing its states with the decisions that lead to them. Plain data, without the editor.
 */
import type { StandShown, StateShown, ThingShown, TurningShown } from "../../server/lsp/requests";

/** A line of a text; lines from 0. */
type To = NonNullable<StandShown["since"]>;

/** A row of the tree. */
export interface StateNode {
  /** The same for the same thing at another line, so that what is opened stays open. */
  readonly id: string;
  readonly label: string;
  readonly description: string;
  /** A sign of the editor's, by its name. */
  readonly icon: string;
  /** The line that a click leads to. */
  readonly to: To | null;
  readonly isOpen: boolean;
  readonly children: readonly StateNode[];
}

const ICONS: Readonly<Record<string, string>> = {
  running: "play-circle",
  off: "circle-slash",
  loose: "unlock",
  open: "debug-disconnect",
  drained: "arrow-down",
  held: "arrow-up",
  in: "pin",
  other: "question",
};

const OTHERWISE = "otherwise";

/** The tree's top rows. */
export function nodesOf({ groups, turning, owed, settled }: StateShown): readonly StateNode[] {
  const sinceOf = sinceByName(groups.flatMap((group) => group.things));
  return [
    ...groups.map(({ id, heading, things }) =>
      group(
        id,
        heading,
        ICONS[id] ?? "circle",
        things.map((thing) => thingNode(id, thing)),
      ),
    ),
    ...group0("turning", "Shafts and marks", "sync", turningNodes(turning)),
    ...group0(
      "owed",
      "Still owed before the end",
      "checklist",
      owed.map(({ act, name }, i) => leaf(`owed/${i}/${name}`, act, "", sinceOf.get(name) ?? null)),
    ),
    ...group0(
      "settled",
      "As they should be again",
      "pass",
      settled.map((title, i) => leaf(`settled/${i}/${title}`, title, "", null)),
    ).map((node) => ({ ...node, isOpen: false })),
  ];
}

function group(id: string, label: string, icon: string, children: readonly StateNode[]): StateNode {
  return { id, label, description: String(children.length), icon, to: null, isOpen: true, children };
}

/** A group, or nothing where it would be empty. */
const group0 = (...args: Parameters<typeof group>): StateNode[] =>
  args[3].length > 0 ? [group(...args)] : [];

const leaf = (id: string, label: string, description: string, to: To | null): StateNode => ({
  id,
  label,
  description,
  icon: "",
  to,
  isOpen: false,
  children: [],
});

function thingNode(group: string, { name, title, place, stands }: ThingShown): StateNode {
  const id = `${group}/${place.uri}/${place.range.start.line}/${name}`;
  const [only, ...others] = stands;
  // A thing that was so from the start leads to where it is declared.
  const to = stands.find((stand) => stand.since)?.since ?? place;
  if (only && others.length === 0) return leaf(id, title, only.state, to);
  const children = stands.map((stand, i) =>
    leaf(`${id}/${i}`, stand.state, wayOf(stand.way), stand.since ?? place),
  );
  return { ...leaf(id, title, "differs", to), isOpen: true, children };
}

/** Where all ways agree, each sentence by itself; else under each way its own. */
function turningNodes(turning: readonly TurningShown[]): readonly StateNode[] {
  const [only, ...others] = turning;
  if (!only) return [];
  const sentences = ({ sentences, since }: TurningShown, id: string): StateNode[] =>
    sentences.map((sentence, i) => leaf(`${id}/${i}`, sentence, "", since));
  if (others.length === 0) return sentences(only, "turning");
  return turning.map((stand, i) => ({
    ...leaf(`turning/way/${i}`, wayOf(stand.way), "", stand.since),
    isOpen: true,
    children: sentences(stand, `turning/way/${i}`),
  }));
}

const wayOf = (way: readonly string[]): string => (way.length === 0 ? OTHERWISE : way.join(", then "));

function sinceByName(things: readonly ThingShown[]): ReadonlyMap<string, To> {
  return new Map(
    things.map(({ name, stands, place }) => [name, stands.find((s) => s.owed && s.since)?.since ?? place]),
  );
}

/** What stands above the tree: where the cursor is, and what else is to be known. */
export const messageOf = ({ at, notes }: StateShown): string => [`${at}.`, ...notes].join(" ");
