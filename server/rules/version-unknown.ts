/** The line that says the version of the language. */
import { countIn, type Entry } from "../facts";
import { placeAt } from "../model";
import { twins } from "./say";
import type { FileRule } from "./types";

const KNOWN = 1;

export const versionUnknown: FileRule = {
  code: "version-unknown",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "Version {found} of the language is not known here; version 1 is.",
    hint: "Write “torquil 1”, or use a newer version of the program.",
    first: "The version of the language must be said in the file’s first line.",
    "first-hint": "Move “torquil 1” to the top of the file.",
    fix: "Write “torquil 1”",
  },
  docs: {
    what: "The `torquil` line names a version that is not known, or does not stand first.",
    why: "A later version may give the same words another meaning, so a file of an unknown one is not to be trusted.",
    ...twins(`torquil 2\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n`, "torquil 2", "torquil 1"),
  },
  check(file, report) {
    const isVersion = (entry: Entry): boolean => entry.construct === "torquil";
    for (const { row, entry } of file.entries.filter((c) => isVersion(c.entry))) {
      const place = placeAt(file.path, row, entry.form.at);
      const found = countIn(entry.form, "version");
      if (row !== file.document.lines.findIndex((l) => l.kind !== "blank" && l.kind !== "comment"))
        report({ place, message: "first" });
      else if (found !== null && found !== KNOWN) {
        report({
          place,
          args: { found: String(found) },
          fixes: [{ title: { id: "fix", args: {} }, safe: false, changes: [{ place, text: "torquil 1" }] }],
        });
      }
    }
  },
};
