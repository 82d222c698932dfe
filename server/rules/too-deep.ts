/** Blocks in blocks, deeper than is read. */
import { DEEPEST } from "../../grammar";
import { shapeFaults } from "./shape";
import type { FileRule } from "./types";

const nested = (blocks: number): string =>
  `torquil 1\n\nprocedure wash "Wash the drum" {\nstep "Wash" {\n${"when muddy {\n".repeat(blocks - 2)}"Wash."\n`;

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
    example: nested(DEEPEST + 1),
    instead: nested(DEEPEST),
  },
  check(file, report) {
    const first = shapeFaults(file, "too-deep")[0];
    if (first) report({ place: first.place });
  },
};
