/** A new part fitted within what may be repeated, and too few of it in the kit for every return. */
import { namesIn, timesOf } from "../facts";
import { type Place, type Procedure, placeAt } from "../model";
import { type Fitting, fittingsOf, keeps, kitThings, numberOf, removalsOf, renewedEveryTime } from "./kit";
import type { EntryAt } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const retryNeedsMoreParts: ProcedureRule = {
  code: "retry-needs-more-parts",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” may be fitted new {need} times, and the kit has enough for {have}.",
    hint: "Put more into the kit, allow fewer returns, or keep the one that comes off: “remove {name} keep”.",
    back: "From here the work is done again, at most {times} more.",
    item: "The kit has it here.",
  },
  docs: {
    what: "A new part is fitted within work that may be done again, what comes off is not kept, and the kit has too few for every return.",
    why: "On the second try the fitter stands without a part, with the machine open.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part seal "Drum seal"
}

procedure reseal "Renew the drum seal" {
  on winch
  kit "K-1" {
    item seal 1
  }
  step "Take out" {
    remove seal  discard
  }
  step put-in "Put in" {
    fit new seal
  }
  check tight "The seal is tight" {
    observe "Is the seal dry?"
    if no {
      remove seal  discard
      repeat from put-in  at most 1 time
    }
    if still no {
      end job "Ask the maker."
    }
  }
}
`,
      "    item seal 1\n",
      "    item seal 2\n",
    ),
  },
  check(procedure, report) {
    const loops = loopsOf(procedure);
    if (loops.length === 0) return;
    const kit = kitThings(procedure);
    for (const fitting of fittingsOf(procedure)) {
      const { thing, at, place } = fitting;
      const items = kit.filter((k) => k.thing === thing);
      const item = items[0];
      if (at.act.age !== "new" || !item) continue;
      const have = items.map((k) => setsIn(k.item.count, numberOf(thing))).reduce((a, b) => a + b, 0);
      for (const loop of loops) {
        const need = passes(loop, fitting);
        if (need <= have || !losesEachTime(procedure, loop, fitting)) continue;
        const args = {
          title: titleOf(thing),
          name: thing.name,
          need: String(need),
          have: String(have),
          times: loop.times === 1 ? "once" : `${loop.times} times`,
        };
        report({
          place,
          args,
          related: [
            { place: loop.place, message: "back", args },
            { place: item.place, message: "item" },
          ],
        });
        break;
      }
    }
  },
};

/** Work that may be done again. Lines are absolute; `from` to `until` is done once more than `times`. */
interface Loop {
  readonly times: number;
  readonly from: number;
  /** The outcome that leads back. */
  readonly outcome: EntryAt;
  readonly place: Place;
}

function loopsOf({ thing, find }: Procedure): Loop[] {
  const loops: Loop[] = [];
  const visit = (parent: EntryAt, outcome: EntryAt | null, check: EntryAt | null): void => {
    for (const { row, entry } of parent.entry.children) {
      const at = { entry, line: parent.line + row };
      const times = entry.construct === "repeat" || entry.construct === "check-again" ? timesOf(entry) : null;
      const target =
        entry.construct === "repeat"
          ? find(namesIn(entry.form, "target")[0]?.name ?? "", ["step", "check", "section"])?.line
          : check?.line;
      if (times !== null && outcome && target !== undefined)
        loops.push({ times, from: target, outcome, place: placeAt(thing.file, at.line, entry.form.at) });
      visit(at, entry.construct === "if" ? at : outcome, entry.construct === "check" ? at : check);
    }
  };
  visit({ entry: thing.entry, line: thing.line }, null, null);
  return loops;
}

const inside = ({ entry, line }: EntryAt, at: number): boolean => at > line && at < line + entry.lineCount;

/** How often a loop may do an act; 1 where it does not, or only under a condition of its own. */
function passes({ times, from, outcome }: Loop, { at }: Fitting): number {
  const conditional = at.blocks.filter(({ entry }) =>
    ["if", "when", "otherwise", "for"].includes(entry.construct),
  );
  if (inside(outcome, at.line)) return conditional.every((b) => b.line === outcome.line) ? times : 1;
  return conditional.length === 0 && at.line > from && at.line < outcome.line ? times + 1 : 1;
}

/** Whether the thing comes off within the loop and is not kept, so that each return takes one more. */
function losesEachTime(procedure: Procedure, { from, outcome }: Loop, { thing }: Fitting): boolean {
  const off = removalsOf(procedure, thing).filter(
    (a) => (a.line > from && a.line < outcome.line) || inside(outcome, a.line),
  );
  return off.length > 0 && (renewedEveryTime(thing) || !off.some(keeps));
}

/** A kit counts single fasteners or whole sets of them: 14 for 14 bolts is enough for once, and so is 1. */
function setsIn(count: number, number: number): number {
  return count < number ? count : Math.floor(count / number);
}
