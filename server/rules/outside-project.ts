/** A path that leads out of the project. */
import { linkFaults } from "./links";
import { twins } from "./say";
import type { FileRule } from "./types";

export const outsideProject: FileRule = {
  code: "outside-project",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "“{path}” leads out of the project’s folder.",
    hint: "Keep every file the procedure needs inside the project’s folder.",
  },
  docs: {
    what: "A path leads to a file outside the project’s folder, by `..` or by a link.",
    why: "Whoever gets the project gets no such file; and a text from elsewhere must not be able to reach the files of the reader.",
    ...twins(
      `torquil 1

use "../../winch.torquil"

machine winch "Hand winch" {
  part drum "Drum"
}
`,
      `use "../../winch.torquil"`,
      `// no other file is used`,
    ),
  },
  check(file, report) {
    for (const fault of linkFaults(file, "outside")) report(fault);
  },
};
