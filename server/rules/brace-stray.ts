/** A closing brace that closes nothing. */
import { twins } from "./say";
import { shapeFaults } from "./shape";
import type { FileRule } from "./types";

export const braceStray: FileRule = {
  code: "brace-stray",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "This “}” closes nothing.",
    hint: "Take it out, or look for a block above that lacks its “{”.",
    fix: "Take the brace out",
  },
  docs: {
    what: "A closing brace stands where no block is open.",
    why: "One brace too many often means that a head above has lost its own.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum"
}
}
// end
`,
      "}\n}\n//",
      "}\n//",
    ),
  },
  check(file, report) {
    for (const { place } of shapeFaults(file, "brace-stray")) {
      report({
        place,
        fixes: [{ title: { id: "fix", args: {} }, safe: false, changes: [{ place, text: "" }] }],
      });
    }
  },
};
