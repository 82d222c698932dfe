/** A part comes off while something still secures it, or what is locked is turned. */
import type { Thing } from "../model";
import { titleOf, twins } from "./say";
import type { ProcedureRule } from "./types";
import { faultsOf, namedIn } from "./walked";

export const fastenerStillHolds: ProcedureRule = {
  code: "fastener-still-holds",
  severity: "error",
  group: "the walk-through: states",
  grain: "procedure",
  messages: {
    main: "“{fastener}” still holds “{thing}” when it comes off.",
    hint: "Take it out first, or in the same line: “remove {fastenerName}, {name}”.",
    lock: "“{fastener}” is tight here, and it locks “{thing}”.",
    "lock-hint": "Slacken it first: “loosen {fastenerName}”.",
    locks: "That it locks it is said here.",
    secures: "That it secures it is said here.",
  },
  docs: {
    what: "A part or line is removed while a fastener that secures it is still in, or something is turned that a tight lock nut holds. A clip without a thread need only be slackened for a line to come off.",
    why: "Whoever pulls at a part that is still bolted bends it.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part cover "Gear cover"
  fastener cover-bolts "Cover bolts"  secures cover
}

procedure look "Look at the gears" {
  on winch
  step "Take off" {
    remove cover
  }
  step "Put back" {
    fit cover
    fit cover-bolts
  }
}
`,
      "    remove cover\n",
      "    remove cover-bolts, cover\n",
    ),
  },
  check(procedure, report, sight) {
    for (const { fault, place } of faultsOf("fastener-still-holds", procedure, sight)) {
      const { thing: fastener, way } = fault;
      const part = fault.other as Thing;
      const isLock = fault.state === "lock";
      const said = isLock
        ? (namedIn(part, "locked-by", fastener.name) ?? part.place)
        : (namedIn(fastener, "secures", part.name) ?? fastener.place);
      const args = {
        fastener: titleOf(fastener),
        fastenerName: fastener.name,
        thing: titleOf(part),
        name: part.name,
      };
      const words = isLock ? { message: "lock", hint: "lock-hint" } : {};
      const related = [{ place: said, message: isLock ? "locks" : "secures" }];
      report({ place, ...words, args, way, related });
    }
  },
};
