/** A part heavier than the lifting gear said for it may carry. */
import { partFacts, toolFacts } from "../facts";
import type { Place, Procedure, Thing } from "../model";
import { slack } from "../units/amount";
import { formatQuantity } from "../units/format";
import type { Quantity } from "../units/quantity";
import { actsOf, thingsNamed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

/** Standard gravity in m/s² (exact, 3rd CGPM, 1901): a rating in newtons carries so much mass. */
const GRAVITY = 9.80665;
const LOADING: ReadonlySet<string> = new Set(["support", "raise", "lower", "remove", "fit"]);

export const loadOverRating: ProcedureRule = {
  code: "load-over-rating",
  severity: "error",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” weighs {weight}, more than “{tool}” is rated for: {rating}.",
    hint: "Say lifting gear that is rated for it.",
    together:
      "“{title}” weighs {weight} with what comes off with it, more than “{tool}” is rated for: {rating}.",
    several: "“{title}” weighs {weight}, more than all the tools said for it together are rated for.",
    weight: "The weight stands here.",
    rating: "The rating stands here.",
  },
  docs: {
    what: "A part is supported, lifted, taken off or fitted with a tool whose rating is less than the part’s weight, with what it carries.",
    why: "Gear loaded over its rating lets go without a warning.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"  weight 80 kg
}

procedure lift "Lift the drum" {
  on winch
  tool hoist "Chain hoist"  rating 50 kg
  warning crushing {
    "The parts are heavy."
    can "Crush hands and feet."
    so "Lift with the hoist, and keep out from under it."
  }
  step "Lift" {
    support drum  with hoist
    release drum
  }
}
`,
      "rating 50 kg",
      "rating 250 kg",
    ),
  },
  check(procedure, report) {
    for (const { act, place } of actsOf(procedure)) {
      if (!LOADING.has(act.verb) || act.tools.length === 0) continue;
      const gear = thingsNamed(procedure, act.tools, ["tool"]).flatMap(({ thing, at }) => {
        const rating = ratingOf(thing);
        return rating ? [{ thing, at, rating }] : [];
      });
      const first = gear[0];
      if (!first) continue;
      const load = heaviest(
        procedure,
        thingsNamed(procedure, act.what, ["part", "belt", "line"]).map((w) => w.thing),
      );
      // Several may share the load, or hang one from the other: only what all together cannot carry is certain.
      if (!load || load.mass <= sum(gear.map((g) => g.rating.mass)) + slack(load.mass)) continue;
      const args = {
        title: titleOf(load.thing),
        weight: load.text,
        tool: titleOf(first.thing),
        rating: first.rating.text,
      };
      const related: { place: Place; message: string }[] = [
        { place: load.thing.place, message: "weight" },
        { place: first.thing.place, message: "rating" },
      ];
      report({
        place: place(first.at),
        message: gear.length > 1 ? "several" : load.carried ? "together" : "main",
        hint: "hint",
        args,
        related,
      });
    }
  },
};

const sum = (figures: readonly number[]): number => figures.reduce((a, b) => a + b, 0);

interface Mass {
  /** In kilograms. */
  readonly mass: number;
  readonly text: string;
}

/** What a tool may carry: its rating, else its size where that is a mass or a force. */
function ratingOf(tool: Thing): Mass | null {
  const { rating, range } = toolFacts(tool.entry);
  return massOf(rating ?? range, "high");
}

function massOf(quantity: Quantity | null, end: "high" | "low"): Mass | null {
  if (!quantity || (quantity.kind !== "mass" && quantity.kind !== "force")) return null;
  const amount = quantity[end] ?? quantity.nominal ?? quantity.high ?? quantity.low;
  return (
    amount && {
      mass: quantity.kind === "force" ? amount.si / GRAVITY : amount.si,
      text: formatQuantity(quantity, { plain: true }),
    }
  );
}

type Load = Mass & { readonly thing: Thing; readonly carried: boolean };

/** The heaviest of some things, each with what it carries, as far as weights are given. */
function heaviest(procedure: Procedure, things: readonly Thing[]): Load | null {
  const loads = things.flatMap((thing): Load[] => {
    const own = massOf(weightOf(thing), "low");
    if (!own) return [];
    const carried = thingsNamed(procedure, partFacts(thing.entry).carries, ["part", "belt", "line"]).flatMap(
      (c) => massOf(weightOf(c.thing), "low") ?? [],
    );
    const mass = own.mass + sum(carried.map((c) => c.mass));
    return [
      {
        thing,
        mass,
        text: carried.length > 0 ? totalText(weightOf(thing), mass) : own.text,
        carried: carried.length > 0,
      },
    ];
  });
  return loads.sort((a, b) => b.mass - a.mass)[0] ?? null;
}

const weightOf = (thing: Thing): Quantity | null => partFacts(thing.entry).weight;

/** A total in the unit of the first weight, rounded to whole ones. */
function totalText(like: Quantity | null, mass: number): string {
  const unit = like?.unit;
  return unit ? `${Math.round(mass / unit.factor)} ${unit.print}` : `${Math.round(mass)} kg`;
}
