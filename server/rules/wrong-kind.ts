/** A name of something that does not fit where it stands: a tool removed, a part tightened. */
import type { Binding } from "../model";
import { thingsInWords } from "../phrases/problems";
import { kindOf, titleOf, twins } from "./say";
import type { FileRule } from "./types";

export const wrongKind: FileRule = {
  code: "wrong-kind",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "“{title}” is {is}, and does not fit here.",
    hint: "Here stands {wanted}.",
    declared: "“{title}” is declared here.",
  },
  docs: {
    what: "A name means something of a kind that does not fit where it stands.",
    why: "A tool cannot come off a machine: either the name is the wrong one, or the act.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fluid oil "Gear oil"
  part drum "Drum"
  part cover "Cover"  behind oil
}
`,
      "behind oil",
      "behind drum",
    ),
  },
  check(file, report) {
    if (file.mayDeclareMore) return;
    for (const { misfit, thing, place, accepts } of file.bindings as readonly Binding[]) {
      if (thing || !misfit) continue;
      const args = { title: titleOf(misfit), is: kindOf(misfit), wanted: thingsInWords(accepts) };
      report({ place, args, related: [{ place: misfit.place, message: "declared", args }] });
    }
  },
};
