/**
 * The drawings of a sheet: which there are, where each stands, and which acts refer to it. A drawing stands at the place of the
 * work, behind the act that needs it most; every other act that it shows refers to it by its number.
 */
import type { Thing } from "../model";
import type { Drawing, Ref } from "./blocks";
import { type Build, type DrawingPlan, grouped, itemFor } from "./build-context";
import { drawingOfBelt, laidIn } from "./build-drawing-belt";
import { drawingOfBolts, ordersOf } from "./build-drawing-bolts";
import { clipsOf, drawingOfRun } from "./build-drawing-run";
import type { Use } from "./build-uses";
import { plain } from "./fill";
import type { Made } from "./made";

/** An act that one drawing would serve. */
interface Wish {
  /** Wishes with the same key are served by the same drawing. */
  readonly key: string;
  readonly thing: Thing;
  readonly use: Use;
  /** 0 for the acts that need it most: it stands behind the first of the least rank. */
  readonly rank: number;
  /** Makes the drawing for all acts that it serves; null where it cannot be drawn. */
  readonly make: (uses: readonly Use[]) => Made | null;
}

/** Works out the drawings of a job, numbered in the order in which they stand. */
export function drawingsOf(build: Build): DrawingPlan {
  const wishes = build.uses.all.flatMap((use) => use.what.flatMap((thing) => wishesOf(build, use, thing)));
  const served = [...grouped(wishes, ({ key }) => key).values()].flatMap((group) => serve(group));
  const drawn = served.sort((a, b) => a.at.use.index - b.at.use.index);
  const behind = new Map<string, Drawing[]>();
  const shown = new Map<string, Ref[]>();
  const ids = new Set<string>();
  drawn.forEach(({ at, group, made }, index) => {
    const drawing = itemOf(at.thing, made, `${index + 1}`, ids);
    push(behind, keyOf(at.use, at.thing), drawing);
    for (const key of new Set(group.map(({ use, thing }) => keyOf(use, thing))))
      push(shown, key, { id: drawing.id, number: drawing.number });
  });
  const all = <T>(map: ReadonlyMap<string, readonly T[]>, use: Use, things: readonly Thing[]): readonly T[] =>
    things.flatMap((thing) => map.get(keyOf(use, thing)) ?? []);
  return {
    behind: (use, things) => all(behind, use, things),
    shownIn: (use, things) => [...new Map(all(shown, use, things).map((ref) => [ref.id, ref])).values()],
  };
}

const keyOf = ({ index }: Use, { id }: Thing): string => `${index} ${id}`;

function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

/** A drawing that can be made, with the act it stands behind. */
function serve(group: readonly Wish[]): { at: Wish; group: readonly Wish[]; made: Made }[] {
  const at = [...group].sort((a, b) => a.rank - b.rank)[0];
  const made = at?.make(group.map(({ use }) => use));
  return at && made ? [{ at, group, made }] : [];
}

/** The drawing as an item of the sheet. Its id is the thing's, counted on where a thing has several. */
function itemOf(thing: Thing, { drawing, madeFrom }: Made, number: string, ids: Set<string>): Drawing {
  const named = `drawing:${thing.name}`;
  let id = named;
  for (let count = 2; ids.has(id); count++) id = `${named}.${count}`;
  ids.add(id);
  return {
    kind: "drawing",
    ...itemFor(thing, id),
    number,
    svg: drawing.svg,
    description: drawing.description,
    caption: plain(drawing.title),
    ...(madeFrom.length > 0 ? { madeFrom: madeFrom.map(({ file, line }) => ({ file, line })) } : {}),
  };
}

function wishesOf(build: Build, use: Use, thing: Thing): readonly Wish[] {
  if (thing.doubtful) return [];
  const wish = (key: string, rank: number, make: Wish["make"]): Wish => ({
    key: `${thing.id} ${key}`,
    thing,
    use,
    rank,
    make,
  });
  const { verb } = use.act;
  switch (thing.kind) {
    case "belt": {
      const rank = ["lay-on", "fit", "adjust", "remove"].indexOf(verb);
      const laid = laidIn(build, use, thing);
      return rank < 0 ? [] : [wish(laid.join(), rank, () => drawingOfBelt(build, use, thing, laid))];
    }
    case "fastener":
      return ordersOf(build, use, thing).map((order) =>
        wish(order.join(), verb === "tighten" ? 0 : 1, (uses) => drawingOfBolts(build, uses, thing, order)),
      );
    case "line": {
      const rank = ["run", "fit"].indexOf(verb);
      const clips = clipsOf(use, thing);
      return rank < 0
        ? []
        : [wish(clips.map(({ id }) => id).join(), rank, () => drawingOfRun(build, use, thing, clips))];
    }
    default:
      return [];
  }
}
