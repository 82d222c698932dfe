/** A path that leads to no file. */
import { linkFaults } from "./links";
import { twins } from "./say";
import type { FileRule } from "./types";

export const missingFile: FileRule = {
  code: "missing-file",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "There is no file “{path}”.",
    hint: "A path is read from the folder of this file, with “/” between folders.",
  },
  docs: {
    what: "A `use`, `follow … from` or `figure` line names a file that is not there.",
    why: "The names of the file are unknown, or the sheet lacks its picture; nothing that rests on it can be checked.",
    ...twins(
      `torquil 1

use "whinch.torquil"

machine winch "Hand winch" {
  part drum "Drum"
}
`,
      `use "whinch.torquil"`,
      `// no other file is used`,
    ),
  },
  check(file, report) {
    for (const fault of linkFaults(file, "missing")) report(fault);
  },
};
