/** Something in the kit that no line fits. */
import { fastenerFacts } from "../facts";
import type { Procedure, Thing } from "../model";
import { hasBadFigure } from "./figures";
import {
  type Fitting,
  fittingsFollowed,
  fittingsOf,
  groupedBy,
  kitThings,
  newFix,
  removalsOf,
  renewedEveryTime,
} from "./kit";
import { actsOf, thingsNamed } from "./look";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";

export const kitItemUnused: ProcedureRule = {
  code: "kit-item-unused",
  severity: "warning",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    main: "“{title}” is in the kit, and no line fits it.",
    hint: "Say where it goes: “fit new {name}”.",
    old: "“{title}” is in the kit, and is fitted without “new”.",
    "old-hint": "Write “fit new {name}”.",
    fitted: "It is fitted here.",
    fix: "Write “fit new”",
    supply: "“{title}” is in the kit, and no line uses it.",
    "supply-hint": "Say what it is for: “with {name}”.",
  },
  docs: {
    what: "A kit item is never fitted as a new part, on any way through the procedure or one it follows.",
    why: "A part left over after the job makes every fitter doubt the whole of it.",
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
  step "Renew" {
    remove seal
    fit seal
  }
}
`,
      "    fit seal\n",
      "    fit new seal\n",
    ),
  },
  check(procedure, report) {
    const kit = kitThings(procedure);
    if (kit.length === 0 || hasBadFigure(procedure.thing.entry)) return;
    const all = groupedBy([...fittingsOf(procedure), ...fittingsFollowed(procedure)], (f) => f.thing);
    for (const { thing, place } of kit) {
      const args = { title: titleOf(thing), name: thing.name };
      if (thing.kind === "consumable") {
        if (!isSupplied(procedure, thing)) report({ place, message: "supply", args });
        continue;
      }
      const fitted = all.get(thing) ?? [];
      if (fitted.some(isNew) || (thing.kind === "line" && isConnected(procedure, thing))) continue;
      const old = fitted.find((f) => f.place.file === place.file);
      // That it must be a new one is told where it is fitted.
      const isGone =
        renewedEveryTime(thing) ||
        removalsOf(procedure, thing).some((a) => a.act.discard) ||
        isThrownAway(procedure, thing);
      // That it must be a new one, or that nothing goes back at all, is told where it comes off or goes on.
      if (old && old.at.act.age === null && isGone) continue;
      if (!old && removalsOf(procedure, thing).length > 0 && !isLeftOff(procedure, thing)) continue;
      if (old)
        report({
          place,
          message: "old",
          args,
          related: [{ place: old.place, message: "fitted" }],
          // “Old” is said on purpose: whoever wrote it decides.
          fixes: old.at.act.age === null ? newFix(old) : [],
        });
      else report({ place, args });
    }
  },
};

function isThrownAway(procedure: Procedure, thing: Thing): boolean {
  return actsOf(procedure).some(
    ({ act }) =>
      act.verb === "throw-away" &&
      thingsNamed(procedure, act.what, [thing.kind]).some((w) => w.thing === thing),
  );
}

/** Whether the job says that it leaves a thing off. */
function isLeftOff(procedure: Procedure, thing: Thing): boolean {
  return procedure.bindings.some((b) => b.thing === thing && b.within === "off");
}

const isNew = ({ at }: Fitting): boolean => at.act.age === "new";

/** A new hose or lead is put on by connecting it. */
function isConnected(procedure: Procedure, thing: Thing): boolean {
  const acts = actsOf(procedure).filter((a) => a.act.verb === "connect" || a.act.verb === "run");
  return acts.some((a) => thingsNamed(procedure, a.act.what, ["line"]).some((w) => w.thing === thing));
}

/** A consumable is used by an act, or by a fastener that the machine says is oiled or locked with it. */
function isSupplied(procedure: Procedure, thing: Thing): boolean {
  if (procedure.bindings.some((b) => b.thing === thing && b.within !== "item")) return true;
  return (
    procedure.machine?.things.some(
      (t) => t.kind === "fastener" && fastenerFacts(t.entry).lubricant?.name === thing.name,
    ) ?? false
  );
}
