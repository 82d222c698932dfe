/** A tightening by torque and angle, and nothing says whether the thread is dry or oiled. */
import { fastenerFacts } from "../facts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";
import { stretchingStage } from "./yield-without-renewal";

export const threadStateUnsaid: ThingRule = {
  code: "thread-state-unsaid",
  severity: "warning",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "“{title}” is tightened by torque and then by angle, and nothing says whether its thread is dry, oiled or locked.",
    hint: "Say it in the fastener: “dry”, “oiled …”, “locked …” or “as supplied”.",
  },
  docs: {
    what: "A fastener is tightened by a torque and then turned by an angle, and the state of its thread is not said.",
    why: "Oil on the thread makes the same torque clamp half as much again, and the angle comes on top.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts" {
    secures cover
    stage   snug 20 N·m
    stage   final 90°
    reuse   at most 2 times
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
  }
}
`,
      "    secures cover\n    stage",
      "    secures cover\n    dry\n    stage",
    ),
  },
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    const facts = fastenerFacts(thing.entry);
    if (facts.state !== null || !stretchingStage(facts)) return;
    report({ place: thing.place, args: { title: titleOf(thing) } });
  },
};
