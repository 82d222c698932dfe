/**
 * How everything stands at a place of a procedure, in the writer's titles: what is off, out, loose, open, held, where
 * shafts stand, what differs between the ways, and what is still owed before the end. It is asked of the walk.
 */
import { type Place, type Procedure, placeAt, type Thing } from "../model";
import { type StatePhrase, statePhrase as say } from "../phrases/state";
import { walkOf } from "../rules";
import {
  type Difference,
  isInLine,
  placeOf,
  type Stand,
  type StateAt,
  stateAt,
  type TurningStand,
} from "../walk";

/** One state of a thing, in words. */
export interface StandTold {
  readonly state: string;
  /** The decisions that lead to it; none where every way does. */
  readonly way: readonly string[];
  /** Whether something of it must be put right before the end. */
  readonly owed: boolean;
  /** The line that brought it about; null where it was so from the start. */
  readonly since: Place | null;
}

/** A thing that is not as it should be, on every way or on some. */
export interface ThingTold {
  readonly name: string;
  readonly title: string;
  readonly kind: string;
  readonly place: Place;
  /** One where all ways agree. */
  readonly stands: readonly StandTold[];
}

/** Things under a heading. */
export interface GroupTold {
  readonly id: string;
  readonly heading: string;
  readonly things: readonly ThingTold[];
}

/** Where shafts and marks stand on some ways; angles are exact parts of a turn, as `1/2`. */
export interface TurningTold {
  readonly shafts: readonly { readonly name: string; readonly title: string; readonly angle: string }[];
  readonly marks: readonly { readonly name: string; readonly title: string; readonly off: string }[];
  /** Titles of shafts that turn together. */
  readonly together: readonly (readonly string[])[];
  readonly way: readonly string[];
  /** The line that last moved something of it; null where nothing did. */
  readonly since: Place | null;
  /** All of it in words. */
  readonly sentences: readonly string[];
}

/** How everything stands. */
export interface StateTold {
  readonly procedure: string;
  readonly title: string;
  /** Where it is asked for, in words. */
  readonly at: string;
  /** Whether any way comes there. */
  readonly reached: boolean;
  readonly groups: readonly GroupTold[];
  readonly turning: readonly TurningTold[];
  readonly owed: readonly { readonly act: string; readonly name: string; readonly onSomeWays: boolean }[];
  /** Titles of what was touched and is as it should be. */
  readonly settled: readonly string[];
  /** What else is to be known, as sentences. */
  readonly notes: readonly string[];
}

const titleOf = (thing: Thing): string => thing.title || thing.name;

/** How everything stands before a point of the procedure's graph. The procedure must not be doubtful. */
export function tellState(procedure: Procedure, point: number, at: string): StateTold {
  const { graph, relations } = walkOf(procedure);
  const state = stateAt({ graph, relations }, point);
  const since = (index: number): Place | null => {
    const brought = graph.points[index];
    return brought ? placeOf(brought) : null;
  };
  // What must be put right is what is asked for; what is as it should be comes last.
  const rank = (stand: Stand): number => (isOwed(stand) ? 0 : stand.differences.length > 0 ? 1 : 2);
  const differingFirst = (stands: readonly Stand[]): readonly Stand[] =>
    [...stands].sort((a, b) => rank(a) - rank(b));
  const things = state.things.map(({ thing, stands }) => ({
    group: groupOf(stands),
    told: {
      name: thing.name,
      title: titleOf(thing),
      kind: thing.entry.construct,
      place: placeAt(thing.file, thing.line, thing.entry.form.at),
      stands: differingFirst(stands).map((stand) => ({
        state: inWords(stand.differences),
        way: stand.way,
        owed: isOwed(stand),
        since: stand.differences.length > 0 ? since(stand.since) : null,
      })),
    },
  }));
  return {
    procedure: procedure.thing.name,
    title: titleOf(procedure.thing),
    at,
    reached: state.reached,
    groups: GROUPS.map(([id]) => ({
      id,
      heading: say(`group.${id}` as StatePhrase),
      things: things.filter(({ group }) => group === id).map(({ told }) => told),
    })).filter((group) => group.things.length > 0),
    turning: state.turning
      .map((stand) => turningTold(stand, since(stand.since)))
      .filter((told) => told.sentences.length > 0),
    owed: state.things.flatMap(({ thing, stands }) => owedOf(thing, stands)),
    settled: state.settled.map(titleOf),
    notes: notesOf(state),
  };
}

function notesOf({ reached, cutShort, things }: StateAt): string[] {
  if (!reached) return [say("unreached")];
  return [...(things.length === 0 ? [say("nothing")] : []), ...(cutShort ? [say("cut-short")] : [])];
}

/** The headings, each with the kinds of difference that stand under it. */
const GROUPS: readonly (readonly [id: string, kinds: readonly Difference["kind"][]])[] = [
  ["running", ["running"]],
  ["off", ["off", "out", "carried"]],
  ["loose", ["by hand", "placed", "loose", "at a stage", "old"]],
  ["open", ["disconnected", "open", "isolated"]],
  ["drained", ["drained"]],
  ["held", ["supported", "raised"]],
  ["in", ["in"]],
  ["other", ["thrown-away", "absent"]],
];

function groupOf(stands: readonly Stand[]): string {
  const kinds = stands.flatMap((stand) => stand.differences.map((d) => d.kind));
  return GROUPS.find(([, own]) => own.some((kind) => kinds.includes(kind)))?.[0] ?? "other";
}

/** What a thing is, in words: `off, thrown away, a new one goes in`. */
export function inWords(differences: readonly Difference[]): string {
  if (differences.length === 0) return say("normal");
  const words = differences.map(({ kind, stage }) => say(`is.${kind}`, { stage }));
  const stays = differences.every((d) => !d.owed && STAYS.has(d.kind));
  return `${words.join(", ")}${stays ? ` (${say("stays-so")})` : ""}`;
}

/** Differences that are owed unless the procedure says to leave them so. */
const STAYS: ReadonlySet<Difference["kind"]> = new Set([
  "off",
  "out",
  "loose",
  "disconnected",
  "open",
  "isolated",
  "drained",
  "supported",
  "raised",
  "running",
  "in",
]);

const isOwed = (stand: Stand): boolean => stand.differences.some((d) => d.owed);

/** What puts each difference right. */
const RIGHTS: Partial<Record<Difference["kind"], string>> = {
  off: "fit",
  disconnected: "connect",
  open: "close",
  isolated: "restore",
  drained: "fill",
  supported: "release",
  raised: "lower",
  running: "stop",
  in: "pull",
  out: "fit-tighten",
  "by hand": "tighten",
  placed: "tighten",
  loose: "tighten",
  "at a stage": "tighten",
  old: "fit-tighten",
};

function owedOf(thing: Thing, stands: readonly Stand[]): StateTold["owed"] {
  const acts = new Map<string, number>();
  for (const stand of stands) {
    const due = stand.differences.filter((d) => d.owed);
    const isNew = due.some((d) => d.kind === "thrown-away" || d.kind === "old");
    for (const { kind } of due) {
      const right = RIGHTS[kind];
      if (!right) continue;
      const id = `do.${right}${isNew && right.startsWith("fit") ? "-new" : ""}` as StatePhrase;
      acts.set(id, (acts.get(id) ?? 0) + 1);
    }
  }
  return [...acts].map(([id, count]) => {
    const act = say(id as StatePhrase, { title: `“${titleOf(thing)}”` });
    const onSomeWays = count < stands.length;
    return { act: onSomeWays ? say("on-some-ways", { act }) : act, name: thing.name, onSomeWays };
  });
}

function turningTold({ shafts, marks, together, way }: TurningStand, since: Place | null): TurningTold {
  const angleText = (angle: string): string => (isInLine(angle) ? say("whole") : say("turns", { angle }));
  const sentences = [
    ...together.map((group) => say("together", { shafts: group.map(titleOf).join(", ") })),
    ...shafts.map(({ shaft, angle }) => say("shaft-at", { shaft: titleOf(shaft), angle: angleText(angle) })),
    ...marks.map(({ mark, off }) =>
      isInLine(off)
        ? say("mark-in-line", { mark: titleOf(mark) })
        : say("mark-off", { mark: titleOf(mark), angle: angleText(off) }),
    ),
    ...(shafts.length === 0 ? [say("unknown")] : []),
  ];
  return {
    shafts: shafts.map(({ shaft, angle }) => ({ name: shaft.name, title: titleOf(shaft), angle })),
    marks: marks.map(({ mark, off }) => ({ name: mark.name, title: titleOf(mark), off })),
    together: together.map((group) => group.map(titleOf)),
    way,
    since,
    sentences,
  };
}
