/**
 * A machine and a procedure for the tests of the server, with `N·m` and `°` before what is looked at.
 */
export const MACHINE = `torquil 1

machine wren-4 "Wren 4 water pump" {
  part cover "Belt cover"  weight 4 kg
  fastener cover-bolts "Cover bolts" {
    secures cover
    thread  M8
    class   8.8
    dry
    count   4
    stage   snug  12 N·m  crosswise
    stage   final 60°
  }
}
`;

export const PROCEDURE = `torquil 1

use "wren-4.torquil"

procedure cover-off "Take the cover off and put it back" {
  on wren-4
  document "W4-1"
  revision A 2026-11-20 "First issue."
  tool wrench "Torque wrench, 5 to 25 N·m"  5 to 25 N·m
  tool gauge "Angle gauge"

  section "All of it" {
    step "Off" {
      remove cover-bolts, cover
    }
    step "On" {
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts {
        stage snug   with wrench
        stage final  with gauge
      }
    }
  }
}
`;

/** The line of a text on which something stands, and the columns it takes, in UTF-16. */
export function find(
  text: string,
  what: string,
): { readonly line: number; readonly from: number; readonly to: number } {
  const lines = text.split("\n");
  const line = lines.findIndex((l) => l.includes(what));
  const from = lines[line]?.indexOf(what) ?? -1;
  return { line, from, to: from + what.length };
}
