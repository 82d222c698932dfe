/** A head that needs a block, without its opening brace. */
import { twins } from "./say";
import { endOf, shapeFaults } from "./shape";
import type { FileRule } from "./types";

export const braceMissing: FileRule = {
  code: "brace-missing",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "A block must follow here: “{text}” has no “{” behind it.",
    hint: "Write “{text} {”.",
    fix: "Add “{”",
  },
  docs: {
    what: "The head of a block stands without its opening brace.",
    why: "Without the brace nobody can tell which of the lines below belong to it.",
    ...twins(
      `torquil 1

machine winch "Hand winch"
  part drum "Drum"
}
`,
      `"Hand winch"`,
      `"Hand winch" {`,
    ),
  },
  check(file, report) {
    for (const { place, text, block } of shapeFaults(file, "brace-missing")) {
      const safe = block?.node.closed ?? false;
      report({
        place,
        args: { text },
        fixes: [{ title: { id: "fix", args: {} }, safe, changes: [{ place: endOf(place), text: " {" }] }],
      });
    }
  },
};
