/** A path to a file that cannot be read. */
import { linkFaults } from "./links";
import { twins } from "./say";
import type { FileRule } from "./types";

export const unreadableFile: FileRule = {
  code: "unreadable-file",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "“{path}” cannot be read.",
    hint: "It must be a text in UTF-8, of at most 16 MB, that this user may read.",
  },
  docs: {
    what: "A used file is there and cannot be read: it is no text, too large, or closed to this user.",
    why: "Its names stay unknown, so nothing that rests on them can be checked.",
    ...twins(
      `torquil 1

use "unreadable.torquil"

machine winch "Hand winch" {
  part drum "Drum"
}
`,
      `use "unreadable.torquil"`,
      `// no other file is used`,
    ),
  },
  check(file, report) {
    for (const fault of linkFaults(file, "unreadable")) report(fault);
  },
};
