/** A fastener is turned through its angle a second time. */
import { placeOf } from "../walk";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf } from "./walked";

export const angleTwice: ProcedureRule = {
  code: "angle-twice",
  severity: "error",
  group: "fasteners",
  grain: "procedure",
  messages: {
    main: "“{title}” has been turned through its angle already.",
    hint: "Take this line out, or slacken the fastener, or fit a new one, before it is turned again.",
    first: "It is turned here.",
  },
  docs: {
    what: "A tightening by angle is done on a fastener that has had its angle and has not been slackened since.",
    why: "A second turn takes the bolt past what it can bear.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts" {
    secures cover
    dry
    stage snug 10 N·m
    stage final 90°
    reuse at most 2 times
  }
}

procedure look "Look at the winch" {
  on winch
  tool wrench "Torque wrench"  5 to 50 N·m
  tool gauge "Angle gauge"
  step "Off and on" {
    remove cover-bolts, cover
    fit cover
    fit cover-bolts  by hand
    tighten cover-bolts {
      stage snug  with wrench
      stage final  with gauge
    }
    tighten cover-bolts  with wrench, gauge
  }
}
`,
      "    tighten cover-bolts  with wrench, gauge\n",
      "    loosen cover-bolts\n    tighten cover-bolts  with wrench, gauge\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place, since } of faultsOf("angle-twice", procedure, sight)) {
      const args = { title: titleOf(fault.thing), name: fault.thing.name };
      const related = since ? [{ place: placeOf(since), message: "first" }] : [];
      report({ place, args, way: fault.way, related });
    }
  },
};
