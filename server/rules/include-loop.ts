/** Files that use each other in a circle. */
import { linkFaults } from "./links";
import { twins } from "./say";
import type { FileRule } from "./types";

export const includeLoop: FileRule = {
  code: "include-loop",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "“{path}” leads back to this file.",
    hint: "Move what both need into a third file that both use.",
  },
  docs: {
    what: "A file uses itself, directly or through other files.",
    why: "In a circle of files no one can be read, changed or sent without all the others.",
    ...twins(
      `torquil 1

use "example.torquil"

machine winch "Hand winch" {
  part drum "Drum"
}
`,
      `use "example.torquil"`,
      `// no other file is used`,
    ),
  },
  check(file, report) {
    for (const fault of linkFaults(file, "loop")) report(fault);
  },
};
