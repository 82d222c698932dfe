/** A block without its closing brace; said once, at its head. */
import { twins } from "./say";
import { endOf, shapeFaults } from "./shape";
import type { FileRule } from "./types";

export const blockNotClosed: FileRule = {
  code: "block-not-closed",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: "This block is not closed: “{text}” has no “}” of its own.",
    hint: "Write “}” alone on a line below the block’s last line.",
    fix: "Add “}” at the end of the block",
  },
  docs: {
    what: "A block has no closing brace.",
    why: "What follows would be read as part of it. The checker goes by the indentation and by the heads that follow, and may be wrong.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  part drum "Drum" {
    weight 4 kg
  …
}
`.replace("…", "//"),
      "  //",
      "  }",
    ),
  },
  check(file, report) {
    for (const { place, text, block } of shapeFaults(file, "block-not-closed")) {
      const last = lastLine(file.document.lines, block ? block.end - 1 : place.line);
      const at = endOf({ ...place, line: last, end: file.document.lines[last]?.text.length ?? 0 });
      const brace = `\n${" ".repeat(place.start)}}`;
      report({
        place,
        args: { text },
        fixes: [{ title: { id: "fix", args: {} }, safe: false, changes: [{ place: at, text: brace }] }],
      });
    }
  },
};

/** The last line up to here that says something. */
function lastLine(lines: readonly { readonly kind: string }[], from: number): number {
  let line = from;
  while (line > 0 && (lines[line]?.kind === "blank" || lines[line]?.kind === "comment")) line--;
  return line;
}
