/** A little project for the tests in VS Code: an invented machine and a procedure, in their usual form and clean. */

export const MACHINE = `torquil 1

machine wren-4 "Wren 4 water pump" {
  part cover "Belt cover"  weight 4 kg
  part seal "Cover seal"  behind cover
  fastener cover-bolts "Cover bolts" {
    secures cover
    thread  M8
    class   8.8
    dry
    count   4
    stage   snug 12 N·m  crosswise
    stage   final 22 N·m  crosswise
  }
}
`;

export const PROCEDURE = `torquil 1

use "wren-4.torquil"

procedure cover-seal "Renew the cover seal" {
  on wren-4
  document "W4-1"
  revision A 2026-11-20 "First issue."

  kit "K-12" {
    item seal 1 "S-3"
  }

  tool wrench "Torque wrench"  5 to 25 N·m
  tool ruler "Steel ruler"

  section "Open" {
    step "Take the cover off" {
      remove cover-bolts, cover
    }

    step "Take the seal out" {
      "Lift it at the notch."
      remove seal  discard
    }
  }

  section "Close" {
    step "Put the seal in" {
      fit new seal
    }

    check gap "Gap under the cover" {
      limit at most 2 mm  with ruler
      if over {
        end job "The cover is bent: it must be renewed first."
      }
    }

    step "Put the cover on" {
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts  with wrench
    }
  }
}
`;
