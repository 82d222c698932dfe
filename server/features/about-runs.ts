/**
 * What the figures of a hose, cable or wire come to: the way through its clips, what slack its length leaves, where it bends most
 * tightly. Nothing is said that what is written does not decide; of a way that is begun, what is missing.
 */
import { centreOf, type RunFacts, runFacts } from "../facts";
import { type Run, runThrough, slackOf } from "../mechanics/runs";
import type { Machine, Thing } from "../model";
import { beltPhrase as say } from "../phrases/belts";
import { type Find, millimetres, placeOf } from "../walk/belts";
import { type KnownRun, runIn } from "../walk/lines";
import { inBothUnits, lengthText } from "./figure-text";

/** Sentences on a hose, cable or wire; `machine` is the one its clips belong to. */
export function aboutRun(line: Thing, machine: Machine | null): readonly string[] {
  const find: Find = (name) => machine?.things.find((thing) => thing.name === name);
  const facts = runFacts(line.entry);
  const known = runIn(line, find);
  return [...saidOf(facts, find), ...(known ? aboutWay(known) : missingOf(facts, find))];
}

const titleOf = (name: string, find: Find): string => find(name)?.title || name;

/** What its block says of the run. */
function saidOf({ from, to, through, bendRadius }: RunFacts, find: Find): string[] {
  return [
    ...(from && to ? [say("from-to", { from: titleOf(from.name, find), to: titleOf(to.name, find) })] : []),
    ...(through.length > 0
      ? [say("through", { things: through.map((clip) => titleOf(clip.name, find)).join(", ") })]
      : []),
    ...(bendRadius ? [say("bend-radius", { value: inBothUnits(bendRadius) })] : []),
  ];
}

/** Where the places of some clips are said, and not of all. */
function missingOf({ through }: RunFacts, find: Find): string[] {
  const unplaced = through.filter(({ name }) => {
    const thing = find(name);
    return !thing || placeOf(centreOf(thing.entry)) === null;
  });
  return unplaced.length > 0 && unplaced.length < through.length
    ? [say("run-missing", { things: unplaced.map(({ name }) => titleOf(name, find)).join(", ") })]
    : [];
}

function aboutWay({ facts, places, whole }: KnownRun): string[] {
  const { run } = runThrough(places.map(({ at }) => at));
  if (!run) return [];
  const unit = unitOf(places);
  const way = lengthText(run.length, unit);
  return [
    say(whole ? "run" : "run-part", { way }),
    ...(whole ? slackIn(facts, run, unit) : facts.length ? [say("run-ends")] : []),
    ...bendIn(run, places, unit),
  ];
}

/** The unit in which the writer gives places. */
const unitOf = (places: KnownRun["places"]) =>
  places.map(({ thing }) => centreOf(thing.entry)?.[0]?.unit).find((unit) => unit) ?? null;

function slackIn({ length, slack }: RunFacts, run: Run, unit: ReturnType<typeof unitOf>): string[] {
  const own = millimetres(length);
  const needed = millimetres(slack);
  const left = own === null ? null : slackOf(run, own, needed ?? 0);
  if (!length || !left) return [];
  const args = { length: inBothUnits(length), left: lengthText(left.left, unit) };
  if (left.left < 0) return [say("short", { ...args, by: lengthText(-left.left, unit) })];
  return [
    slack && needed ? say("slack-needed", { ...args, needed: inBothUnits(slack) }) : say("slack", args),
  ];
}

function bendIn({ bends }: Run, places: KnownRun["places"], unit: ReturnType<typeof unitOf>): string[] {
  const [first, ...others] = bends;
  if (!first) return [];
  const tightest = others.reduce((least, bend) => (bend.gentlest < least.gentlest ? bend : least), first);
  if (!Number.isFinite(tightest.gentlest)) return [say("straight")];
  const { thing } = places[tightest.place] ?? {};
  return [
    say("bend", { clip: thing?.title || thing?.name || "", radius: lengthText(tightest.gentlest, unit) }),
  ];
}
