/** What a finding says to do, where a fixture shows only what is wrong. */
import { expect, test } from "vitest";
import { checkProject, wordsOf } from "../../server/rules";
import { projectOf } from "../support/project";

/** The hint of the only finding in a machine of these lines. */
function hintOf(lines: string): string {
  const text = `torquil 1\n\nmachine winch "Hand winch" {\n  consumable oil "Oil"\n${lines}\n}\n`;
  const found = [...checkProject(projectOf({ "winch.torquil": text })).values()].flat();
  const told = found.filter(({ code }) => code !== "unused-declaration");
  expect(told).toHaveLength(1);
  const [finding] = told;
  return finding?.hint ? wordsOf(finding, finding.hint) : "";
}

const bolt = (lines: string): string =>
  `  fastener bolts "Bolts" {\n${lines
    .split("; ")
    .map((line) => `    ${line}\n`)
    .join("")}  }`;

test.each([
  ["thread M12; class 10.9; dry; tighten 9.5 N·m", "If the decimal point has slipped: “tighten 95 N·m”."],
  [
    "thread M12; class 10.9; dry; tighten 9.5 ± 0.5 N·m",
    "If the decimal point has slipped, write 95 N·m, with a tolerance to match.",
  ],
  [
    "thread M8; class 8.8; dry; tighten 240 N·m (177 lb·ft)",
    "If the decimal point has slipped, write 24 N·m, and mend the figure in the other unit too.",
  ],
  [
    "thread 3/4-10; class grade 8; oiled oil on thread and under head; tighten 265 lb·in ± 5 %",
    "Has the decimal point slipped (2650 lb·in), or is the unit wrong? 265 lb·ft would fit too.",
  ],
  [
    "thread M10; dry; stage snug 20 N·m; stage final 900°; renew every time",
    "If the decimal point has slipped: “stage final 90°”.",
  ],
  [
    "thread M10; dry; stage snug 20 N·m; stage final 6 turns; renew every time",
    "Correct the angle; if the bolt is so long that it bears it, say how long it is clamped: “grip 600 mm”.",
  ],
])("%s", (lines, hint) => expect(hintOf(bolt(lines))).toBe(hint));
