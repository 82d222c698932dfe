/** A fastener that is stretched for good when it is tightened, and nothing says whether it may be used again. */
import { type FastenerFacts, fastenerFacts, type Stage } from "../facts";
import { type Machine, placeAt, type Thing } from "../model";
import { angleIn, boltIn } from "../walk/bolts";
import { titleOf, twins } from "./say";
import type { ThingRule } from "./types";

/**
 * Stages that take a fastener past its yield point when they follow a torque. Common practice, no source: a bolt that
 * is turned through an angle from a snug torque is meant to stretch; one that is set by torque alone is not.
 */
const YIELDS: ReadonlySet<Stage["kind"]> = new Set(["angle"]);

/** What a thread goes into where the bolt gives way after the thread: nothing is stretched. */
const SOFT: ReadonlySet<string> = new Set(["plastic", "insert", "wood"]);

export const yieldWithoutRenewal: ThingRule = {
  code: "yield-without-renewal",
  severity: "warning",
  group: "fasteners",
  grain: "thing",
  messages: {
    main: "This turn stretches “{title}” for good, and nothing says whether it may be used again.",
    hint: "Say it below: “renew every time”, “renew when …” or “reuse by length at most …”.",
    fix: "Add “renew every time”",
  },
  docs: {
    what: "A fastener is tightened by torque and then by angle, and has neither “renew” nor “reuse”.",
    why: "A bolt that was stretched once may break when it is stretched again, weeks after the job.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
  fastener drum-bolt "Drum bolt" {
    secures drum
    dry
    stage snug  40 N·m
    stage final 90°
  }
}
`,
      "    stage final 90°\n",
      "    stage final 90°\n    renew every time\n",
    ),
  },
  check(thing, report, sight, machine) {
    if (thing.kind !== "fastener") return;
    const stage = stretching(fastenerFacts(thing.entry));
    if (!stage || staysElastic(thing, machine)) return;
    const place = placeAt(thing.file, thing.line, stage.at);
    const text = sight.file.document.lines[place.line]?.text ?? "";
    const indent = text.slice(0, text.length - text.trimStart().length);
    const below = { file: place.file, line: place.line + 1, start: 0, end: 0 };
    const changes = [{ place: below, text: `${indent}renew every time\n` }];
    const fixes = stage.at.row > 0 ? [{ title: { id: "fix", args: {} }, safe: false, changes }] : [];
    report({ place, args: { title: titleOf(thing) }, fixes });
  },
};

/** Whether thread, class and length decide that the angle leaves the bolt short of its yield, whatever the friction. */
function staysElastic(thing: Thing, machine: Machine | null): boolean {
  const known = boltIn(thing, (name) => machine?.things.find((t) => t.name === name));
  return known !== null && angleIn(known)?.yields === "no";
}

/** The last stage that stretches a fastener of which nothing is said. */
function stretching(facts: FastenerFacts): Stage | null {
  const said = facts.renewEveryTime || facts.renewWhen !== "" || facts.reuse !== null;
  return said ? null : stretchingStage(facts);
}

/** The last stage that stretches a fastener: the turn that follows a torque, in metal. */
export function stretchingStage(facts: FastenerFacts): Stage | null {
  if (facts.setting || SOFT.has(facts.material)) return null;
  const torque = facts.stages.findIndex((s) => s.kind === "torque");
  return (torque < 0 ? [] : facts.stages.slice(torque)).findLast((s) => YIELDS.has(s.kind)) ?? null;
}
