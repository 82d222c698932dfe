/**
 * What the figures of a belt or chain come to: its path and length, spans, wrap and teeth of each pulley, which way all of it
 * turns, what the tensioner takes up, how fast shafts turn, when printed marks meet again. Nothing is said that what is
 * written does not decide; of a path that is begun, what is missing.
 */
import type { BeltFacts } from "../facts";
import { fitOf, lengthRange } from "../mechanics/belts";
import { absolute, equal, type Fraction, ONE, textOf } from "../mechanics/fractions";
import { roundAgain } from "../mechanics/shafts";
import type { Machine, Thing } from "../model";
import { beltPhrase as say } from "../phrases/belts";
import { beltIn, type Find, incompleteIn, type KnownBelt, runningOf } from "../walk/belts";
import { boundIn, linksOfBelt } from "../walk/trains";
import { angleText, lengthsText, lengthText } from "./figure-text";

const titleOf = (thing: Thing | undefined, name: string): string => thing?.title || name;

/** Sentences on a belt or chain; `machine` is the one its pulleys and shafts belong to. */
export function aboutBeltRun(belt: Thing, machine: Machine | null): readonly string[] {
  const things = machine?.things ?? [];
  const find: Find = (name) => things.find((thing) => thing.name === name);
  const known = beltIn(belt);
  return [
    ...(known ? aboutPath(known, find) : missingOf(belt, find)),
    ...ratiosOf(belt, things),
    ...meetingOf(incompleteIn(belt).facts, find),
  ];
}

const namesOf = (facts: BeltFacts, find: Find): readonly string[] =>
  facts.pulleys.map(({ part }) => titleOf(find(part.name), part.name));

/** Where the places of some pulleys are said, and not all figures. */
function missingOf(belt: Thing, find: Find): readonly string[] {
  const { facts, unplaced } = incompleteIn(belt);
  const names = namesOf(facts, find).filter((_, i) => unplaced.includes(i));
  return unplaced.length < facts.pulleys.length ? [say("missing", { things: names.join(", ") })] : [];
}

function aboutPath(known: KnownBelt, find: Find): readonly string[] {
  const { facts, path } = known;
  if (!path) return [say("impossible")];
  if (!path.sound) return [say("unsound")];
  const names = namesOf(facts, find);
  const spans = path.spans.map(({ from, to, length }) =>
    say("span", { from: names[from] ?? "", to: names[to] ?? "", length: lengthText(length, unitIn(facts)) }),
  );
  return [
    ...lengthsOf(known, names),
    say("spans", { spans: spans.join(", ") }),
    ...pulleysOf(known, names, find),
  ];
}

/** The unit in which the writer gives places. */
const unitIn = ({ pulleys, length }: BeltFacts) => pulleys[0]?.centre?.[0]?.unit ?? length?.unit ?? null;

/** How long the path is, and how the belt's own length stands to it. */
function lengthsOf(
  { facts, layout, path, length, allowance }: KnownBelt,
  names: readonly string[],
): string[] {
  if (!path) return [];
  const told = (millimetres: number): string => lengthText(millimetres, unitIn(facts));
  const moving = layout.pulleys.flatMap(({ travel }, i) => (travel > 0 ? [names[i] ?? ""] : []));
  const things = moving.join(", ");
  const own = length === null ? "" : told(length);
  const way = told(path.length);
  const { shortest, longest, stopped } = lengthRange(layout, path);
  const said =
    moving.length > 0
      ? say("path-range", { lengths: lengthsText([shortest, longest], unitIn(facts)), way, things })
      : say(length === null ? "path" : "path-length", { way, length: own });
  const fit = length === null ? null : fitOf(layout, path, length, allowance);
  return [
    said,
    ...(moving.length > 0 && stopped ? [say("stopped", { things })] : []),
    ...(fit === null ? [] : fit.kind === "fits" ? [] : [say(fit.kind, { by: told(fit.by) })]),
    ...(fit?.kind === "fits" && moving.length > 0
      ? [say("fits-at", { length: own, things, share: `${Math.round(50 * (fit.position + 1))} %` })]
      : []),
  ];
}

/** Each pulley: which way it turns, how far the belt goes round it, its teeth in mesh. */
function pulleysOf(known: KnownBelt, names: readonly string[], find: Find): string[] {
  const { path, facts, layout } = known;
  const running = runningOf(known, find);
  const told = (path?.wraps ?? []).map((wrap, i) => {
    const turns = running?.turns[i];
    const gap = path?.untouched.find(({ pulley }) => pulley === i)?.gap ?? 0;
    const isBack = layout.pulleys[i]?.side === "back";
    const all = wrap.touched
      ? [
          ...(turns ? [say("turns", { direction: turns })] : []),
          say(isBack ? "wrap-back" : "wrap", { angle: angleText(wrap.angle) }),
          ...(wrap.teethInMesh === null ? [] : [say("mesh", { teeth: wholeTeeth(wrap.teethInMesh) })]),
        ]
      : [say("untouched", { gap: lengthText(gap, unitIn(facts)) })];
    return say("pulley", { pulley: names[i] ?? "", facts: all.join(", ") });
  });
  return running ? told : [...told, say("runs-unsaid")];
}

/** Only whole teeth hold; one that is whole but for rounding counts. */
const wholeTeeth = (teeth: number): string => String(Math.floor(teeth + 1e-9));

/** How fast the shafts turn that the belt couples by its teeth. */
function ratiosOf(belt: Thing, things: readonly Thing[]): string[] {
  const title = (name: string): string =>
    titleOf(
      things.find((t) => t.name === name),
      name,
    );
  return linksOfBelt(belt, boundIn(things)).map(({ from, to, ratio }) =>
    say(ratio.over < 0n ? "ratio-against" : "ratio-same", {
      from: title(from),
      to: title(to),
      turns: turnsText(absolute(ratio)),
    }),
  );
}

function turnsText(turns: Fraction): string {
  if (equal(turns, ONE)) return say("turns-one");
  return say(turns.over < turns.under ? "turns-part" : "turns-many", { count: textOf(turns) });
}

/** After how many turns the belt and the sprockets on its inside stand as they did. */
function meetingOf(facts: BeltFacts, find: Find): string[] {
  const sprockets = facts.pulleys.flatMap(({ teeth, shaft, part, backOfBelt }) =>
    teeth !== null && !backOfBelt
      ? [{ teeth, title: titleOf(find(shaft?.name ?? part.name), shaft?.name ?? part.name) }]
      : [],
  );
  const again = facts.teeth
    ? roundAgain(
        facts.teeth,
        sprockets.map(({ teeth }) => teeth),
      )
    : null;
  if (!again || sprockets.length === 0) return [];
  const turns = sprockets.map(({ title }, i) =>
    say("turns-of", { turns: countText("turns", again.sprocketTurns[i] ?? 0n), shaft: title }),
  );
  return [say("again", { turns: turns.join(", "), rounds: countText("rounds", again.beltTurns) })];
}

const countText = (what: "turns" | "rounds", count: bigint): string =>
  say(count === 1n ? `${what}-one` : `${what}-many`, { count: String(count) });
