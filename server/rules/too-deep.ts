/** Blocks in blocks, deeper than is read. */
import { DEEPEST } from "../../grammar";
import { twins } from "./say";
import { shapeFaults } from "./shape";
import type { FileRule } from "./types";

const DEPTHS = Array.from({ length: DEEPEST - 2 }, (_, i) => "  ".repeat(i + 2));
const NESTED = `torquil 1

procedure wash "Wash the drum" {
  symptom muddy "The drum is muddy"
  step "Wash" {
${DEPTHS.map((indent) => `${indent}when muddy {\n`).join("")}${"  ".repeat(DEEPEST)}when muddy {  // one too many
${[...DEPTHS]
  .reverse()
  .map((indent) => `${indent}}\n`)
  .join("")}  }
}
`;

export const tooDeep: FileRule = {
  code: "too-deep",
  severity: "error",
  group: "names and shape",
  grain: "file",
  messages: {
    main: `This block stands more than ${DEEPEST} blocks deep, and is not read as one.`,
    hint: "Put the inner part into a step, or a procedure, of its own.",
  },
  docs: {
    what: "Blocks stand in blocks, deeper than is read.",
    why: "Nobody can follow so many conditions at a machine, and a file with thousands of braces must not stop the checker.",
    ...twins(NESTED, "when muddy {  // one too many", `"Use plenty of water."`),
  },
  check(file, report) {
    const first = shapeFaults(file, "too-deep")[0];
    if (first) report({ place: first.place });
  },
};
