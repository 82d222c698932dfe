/** An opening brace behind a line that has no block. */
import { headWord, twins } from "./say";
import { shapeFaults } from "./shape";
import type { FileRule } from "./types";

export const blockNotHere: FileRule = {
  code: "block-not-here",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "A “{word}” line has no block.",
    hint: "Write all it says on its own line, and take “{” and its “}” out.",
  },
  docs: {
    what: "An opening brace stands behind a line that never has a block.",
    why: "What stands in such a block belongs to nothing and would not be read.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  view front "Looking at the crank" {
  part drum "Drum"
}
`,
      `crank" {`,
      `crank"`,
    ),
  },
  check(file, report) {
    for (const { place } of shapeFaults(file, "block-not-here")) {
      report({ place, args: { word: headWord(file.document.lines[place.line]?.head ?? "") } });
    }
  },
};
