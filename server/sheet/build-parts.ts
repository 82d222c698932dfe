/**
 * The parts of the job, worked out from its acts: what comes new out of the kit, what comes off and goes back, what is
 * thrown away.
 */
import { clauseOf, countIn, type KitItem, kitsOf, namesIn } from "../facts";
import type { Spot, Thing } from "../model";
import type { Parts } from "./blocks";
import { cameToBriefly, conditionSaid, outcomeIn } from "./build-conditions";
import { type Build, itemFor, thingAt, titleOf, titles, words } from "./build-context";
import { kitNumbers } from "./build-front";
import { countOf } from "./build-stages";
import type { Use } from "./build-uses";
import { plain, sentences } from "./fill";
import type { Runs } from "./inline";

type Row = Parts["rows"][number];

const PARTS = new Set(["part", "fastener", "belt", "line"]);

/** New, refit, scrap, in this order. */
export function parts(build: Build): Parts {
  const numbers = kitNumbers(build);
  const handled = [
    ...new Set(build.uses.all.flatMap(({ what }) => what.filter(({ kind }) => PARTS.has(kind)))),
  ];
  const rows = [
    ...build.job.procedures.flatMap((at) => newRows(build, at)),
    ...handled.flatMap((thing) => refitRow(build, thing)),
    ...handled.flatMap((thing) => scrapRow(build, thing)),
  ];
  return {
    kind: "parts",
    id: "parts",
    ...(numbers.length > 0 ? { kit: numbers.join(", ") } : {}),
    rows: uniqueIds(rows),
  };
}

function uniqueIds(rows: readonly Row[]): readonly Row[] {
  const seen = new Map<string, number>();
  return rows.map((row) => {
    const count = (seen.get(row.id) ?? 0) + 1;
    seen.set(row.id, count);
    return count === 1 ? row : { ...row, id: `${row.id}#${count}` };
  });
}

function newRows(build: Build, at: Spot): readonly Row[] {
  return kitsOf(at.entry).flatMap(({ items }) =>
    items.map((item) => {
      const thing = thingAt(at, item.thing, ["part", "fastener", "belt", "line", "consumable"]);
      const note = itemNote(build, at, item);
      return {
        id: `new:${item.thing.name}`,
        use: "new" as const,
        name: plain(titleOf(thing ?? { name: item.thing.name, title: "" })),
        ...(item.number ? { number: item.number } : {}),
        quantity: String(item.count),
        ...(note.length > 0 ? { note } : {}),
      };
    }),
  );
}

function itemNote(build: Build, at: Spot, { onlyIf, onlyOn }: KitItem): Runs {
  const variants = onlyOn.flatMap((name) => thingAt(at, name, ["variant", "option", "bulletin"]) ?? []);
  return sentences([
    onlyIf
      ? words(build, "only-when", { condition: conditionSaid(build, at, onlyIf.name, onlyIf.outcome, true) })
      : [],
    variants.length > 0 ? words(build, "only-on", { variants: titles(build, variants) }) : [],
  ]);
}

const TAKEN_OFF = new Set(["remove", "disconnect"]);

const isThrown = ({ act }: Use): boolean =>
  act.verb === "throw-away" || (act.discard && TAKEN_OFF.has(act.verb));
const isFittedAgain = ({ act }: Use): boolean => act.verb === "fit" && act.age !== "new";

/** What is taken off and fitted again. */
function refitRow(build: Build, thing: Thing): readonly Row[] {
  const uses = build.uses.on(thing);
  if (!uses.some(isFittedAgain) || !uses.some(({ act }) => act.verb === "remove")) return [];
  return [rowOf(build, thing, "refit", uses.filter(isFittedAgain))];
}

/** What is thrown away: said so, or taken off and only ever fitted new. */
function scrapRow(build: Build, thing: Thing): readonly Row[] {
  const uses = build.uses.on(thing);
  const thrown = uses.filter(isThrown);
  const replaced =
    thrown.length === 0 && uses.some(({ act }) => act.age === "new") && !uses.some(isFittedAgain);
  const scrapped = replaced ? uses.filter(({ act }) => act.verb === "remove") : thrown;
  return scrapped.length === 0 ? [] : [rowOf(build, thing, "scrap", scrapped)];
}

function rowOf(build: Build, thing: Thing, use: "refit" | "scrap", uses: readonly Use[]): Row {
  const note = guardNote(build, uses);
  return {
    ...itemFor(thing, `${use}:${thing.name}`),
    use,
    name: plain(titleOf(thing)),
    quantity: String(howMany(build, thing)),
    ...(note.length > 0 ? { note } : {}),
  };
}

/** How many of a thing there are on the machine. */
function howMany(build: Build, thing: Thing): number {
  const { root } = build.job;
  if (thing.kind === "fastener") return countOf(root, thing);
  const each = thingAt(root, namesIn(clauseOf(thing.entry, "for-each"), "set")[0], ["set"]);
  return (
    (countIn(clauseOf(thing.entry, "count"), "count") ?? 1) *
    (each ? Math.max(1, namesIn(each.entry.form, "members").length) : 1)
  );
}

/** "Only when …", where every one of the acts stands under a condition or in an outcome. */
function guardNote(build: Build, uses: readonly Use[]): Runs {
  const guards = uses.map(({ spot }) => guardOf(spot));
  const said = guards.map((guard) => (guard ? guardSaid(build, guard) : []));
  if (said.length === 0 || said.some((one) => one.length === 0)) return [];
  const first = said[0] as Runs;
  return said.every((one) => JSON.stringify(one) === JSON.stringify(first))
    ? words(build, "only-when", { condition: first })
    : [];
}

function guardOf(spot: Spot): Spot | null {
  for (let at: Spot | null = spot; at; at = at.parent)
    if (at.entry.construct === "if" || at.entry.construct === "when") return at;
  return null;
}

function guardSaid(build: Build, guard: Spot): Runs {
  if (guard.entry.construct === "when")
    return conditionSaid(build, guard, namesIn(guard.entry.form, "condition")[0], outcomeIn(guard), true);
  const still = guard.entry.form.words.includes("still");
  return guard.parent && !still ? cameToBriefly(build, guard.parent, outcomeIn(guard)) : [];
}
