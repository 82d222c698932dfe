/**
 * How everything stands before a step, in a few sentences: a sentence a group, what shafts do, what is owed. Where the ways
 * differ, each state with the decisions that lead to it.
 */
import type { FileModel, Thing } from "../model";
import { statePhrase as say } from "../phrases/state";
import { type StateTold, type ThingTold, type TurningTold, tellState } from "./state";
import { atLine } from "./step-at";

/** At most so many things are named in a group, and so many acts that are owed. */
const MOST_NAMED = 8;

const NUMBERED: ReadonlySet<string> = new Set(["step", "check"]);

/** Sentences on how things stand before a step or check; none for other things, and where its procedure is not followed. */
export function stateBefore(file: FileModel, thing: Thing): readonly string[] {
  if (!NUMBERED.has(thing.kind)) return [];
  const procedure = file.procedures.find((one) => one.targets.includes(thing));
  if (!procedure || procedure.doubtful) return [];
  const at = atLine(procedure, thing.line);
  return at ? stateInShort(tellState(procedure, at.point, at.at)) : [];
}

/** How things stand, as sentences. */
export function stateInShort({ groups, turning, owed, reached, notes }: StateTold): readonly string[] {
  if (!reached) return notes;
  const known = turning.filter(({ shafts, together }) => shafts.length > 0 || together.length > 0);
  const told = [
    ...groups.map(({ id, heading, things }) =>
      say("short.group", {
        heading,
        things: listed(things.map((thing) => standOf(thing, OBVIOUS[id]))),
      }),
    ),
    ...known.slice(0, MOST_NAMED).map(turningOf),
  ];
  if (told.length === 0) return [say("short.none")];
  const acts = listed(owed.map(({ act }) => act));
  const due =
    acts === "" ? (groups.length > 0 ? [say("short.owed-none")] : []) : [say("short.owed", { acts })];
  return [say("short.before"), ...told, ...due, ...notes.filter((note) => note !== say("nothing"))];
}

/** The state that goes without saying under a group's name. */
const OBVIOUS: Readonly<Record<string, readonly string[]>> = {
  off: [say("is.off"), say("is.out")],
  drained: [say("is.drained")],
  in: [say("is.in")],
  running: [say("is.running")],
};

function standOf({ title, stands }: ThingTold, obvious: readonly string[] = []): string {
  const [only, ...others] = stands;
  if (only && others.length === 0)
    return obvious.includes(only.state) ? title : say("short.state", { title, state: only.state });
  const differing = stands.filter(({ state }) => state !== say("normal"));
  // One state of several that goes without saying needs its way only.
  const states = differing.map(({ state, way }) =>
    differing.length === 1 && obvious.includes(state)
      ? wayOf(way)
      : say("short.way", { way: wayOf(way), state }),
  );
  return say("short.state", { title, state: states.join("; ") });
}

const wayOf = (way: readonly string[]): string => (way.length === 0 ? say("way.else") : way.join(", then "));

function turningOf({ sentences, way }: TurningTold): string {
  const told = { heading: say("turning"), sentences: sentences.join("; ") };
  return way.length === 0
    ? say("short.turning", told)
    : say("short.turning-on", { ...told, way: wayOf(way) });
}

function listed(all: readonly string[]): string {
  const more = all.length - MOST_NAMED;
  return [
    ...all.slice(0, MOST_NAMED),
    ...(more > 0 ? [say("short.more", { count: String(more) })] : []),
  ].join("; ");
}
