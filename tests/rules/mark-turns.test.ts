/** What is said of marks that cannot stand in line: where the mark stands, and the fewest turns more that would do. */
import { expect, test } from "vitest";
import { findingText } from "../../server/rules";
import { findingsIn } from "../support/fixtures";

const job = (teeth: string, turns: string): string => `torquil 1

machine press "Belt press" {
  part motor-pulley "Motor pulley"  behind belt
  part screw-pulley "Screw pulley"  behind belt
  shaft motor "Motor shaft"  turns anticlockwise only
  shaft screw "Screw"
  belt belt "Toothed belt" {
    toothed
    pulley motor-pulley  teeth ${teeth.split(" ")[0]}  on motor
    pulley screw-pulley  teeth ${teeth.split(" ")[1]}  on screw
  }
  mark motor-mark "Dot on the motor pulley"  on motor  at 0°
  mark screw-mark "Dot on the screw pulley"  on screw  at 0°
}

procedure look "Look at the press" {
  on press
  step "Turn" {
    align motor-mark, screw-mark
  }
  check marks "Marks" {
    turn motor ${turns} anticlockwise
    marks motor-mark, screw-mark
    record
  }
}
`;

const said = (teeth: string, turns: string): readonly string[] =>
  findingsIn({ "a.torquil": job(teeth, turns) })
    .filter(({ code }) => code === "mark-cannot-align")
    .map(findingText);

// Counted by hand: 20 teeth drive 40, so the screw makes half of what the motor makes; 24 drive 36, two thirds of it.
test.each([
  ["20 40", "2 turns", []],
  ["20 40", "1 turn", ["stands 1/2 turn", "1 turn more of “Motor shaft”"]],
  ["24 36", "1 turn", ["stands 2/3 turn", "2 turns more of “Motor shaft”"]],
  ["24 36", "4 turns", ["stands 2/3 turn", "2 turns more of “Motor shaft”"]],
  ["24 36", "2 turns", ["stands 1/3 turn", "1 turn more of “Motor shaft”"]],
  ["24 36", "3 turns", []],
] as const)("teeth %s, turned by %s", (teeth, turns, parts) => {
  const found = said(teeth, turns);
  expect(found).toHaveLength(parts.length > 0 ? 1 : 0);
  for (const part of parts) expect(found[0]).toContain(part);
});
