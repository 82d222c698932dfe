/**
 * A made-up job of any length in the language: a row of like stations, each opened, measured, fitted and closed again
 * in ten steps, and the machine it is done on.
 */

/** The files of the job. */
export interface Job {
  readonly machine: string;
  readonly procedure: string;
  /** The line in the middle that is edited, and the column of the figure that makes or unmakes a finding. */
  readonly line: number;
  readonly character: number;
}

export const STEPS_A_STATION = 10;

/** Writes a job of so many steps, to the next ten. */
export function writeJob(steps: number): Job {
  const stations = Math.ceil(steps / STEPS_A_STATION);
  const numbers = Array.from({ length: stations }, (_, i) => i + 1);
  const machine = `torquil 1\n\nmachine row "Row of pumps" {\n${FLUIDS}${numbers.map(partsOf).join("\n")}}\n`;
  const head = `torquil 1\n\nuse "row.torquil"\n\nprocedure renew "Renew the seals of all pumps" {\n`;
  const procedure = `${head}${HEADER}${kitOf(numbers)}${TOOLS}\n${numbers.map(sectionOf).join("\n")}}\n`;
  const lines = procedure.split("\n");
  const middle = `check end-float-${Math.ceil(stations / 2)} `;
  const line = lines.findIndex((l) => l.includes(middle)) + 2;
  return { machine, procedure, line, character: (lines[line] as string).indexOf("0.05") + 2 };
}

const FLUIDS = `  view front "Looking at the row from the drive end"
  consumable engine-oil "Engine oil"  grade "15W-40"
`;

const HEADER = `  on row
  document "ROW-1"
  revision A 2026-11-20 "First issue."
  working-time 8 h
  wear "Safety glasses"
`;

const TOOLS = `  tool torque-wrench "Torque wrench"  10 to 100 N·m
  tool angle-gauge "Angle gauge"
  tool dial-gauge "Dial gauge"
`;

function kitOf(numbers: readonly number[]): string {
  return `  kit "K-1" {\n${numbers.map((n) => `    item seal-${n} 1 "S-${n}"\n    item pump-bolts-${n} 4 "B-${n}"`).join("\n")}\n  }\n`;
}

function partsOf(n: number): string {
  return `  part cover-${n} "Cover of pump ${n}"  weight 4 kg
  part pump-${n} "Pump ${n}" {
    behind cover-${n}
    weight 9 kg
  }
  part seal-${n} "Seal of pump ${n}" {
    behind pump-${n}
    renew every time
  }
  fastener cover-bolts-${n} "Cover bolts of pump ${n}" {
    secures cover-${n}
    thread M8
    class 8.8
    dry
    count 6
    tighten 22 N·m
  }
  fastener pump-bolts-${n} "Bolts of pump ${n}" {
    secures pump-${n}
    behind cover-${n}
    thread M10
    class 10.9
    oiled engine-oil on thread and under head
    count 4
    stage snug 20 N·m  crosswise
    stage final 90°
    renew every time
  }
`;
}

function sectionOf(n: number): string {
  return `  section "Pump ${n}" {
    step open-${n} "Open the cover of pump ${n}" {
      "The cover is light, but its edge is sharp: put gloves on before you take hold of it."
      "Lay it down with the inside up, so that nothing scratches the face on which the seal lies."
      remove cover-bolts-${n}
      remove cover-${n}
    }

    step unbolt-${n} "Unbolt pump ${n}" {
      "Turn the bolts out a little at a time, crosswise, so that the housing comes away evenly."
      loosen pump-bolts-${n}  crosswise
      remove pump-bolts-${n}  discard
    }

    step lift-${n} "Lift pump ${n} out" {
      "Hold the pump with both hands. There are two dowels; rock it, do not lever it off."
      remove pump-${n}
      remove seal-${n}  discard
    }

    step clean-${n} "Clean the faces of pump ${n}" {
      "Wipe both faces with a clean cloth. No fluff may stay in the groove of the seal."
      clean pump-${n}
      clean cover-${n}
    }

    check end-float-${n} "End float of pump ${n}" {
      "Push the shaft fully in before you set the gauge, and pull it out with the same force."
      limit 0.05 to 0.15 mm  with dial-gauge
      record
      if over {
        end job "The pump is worn: renew it."
      }
      if under {
        end job "The bearing is seized: renew the pump."
      }
    }

    step seat-${n} "Fit the new seal of pump ${n}" {
      "The lip points to the fluid. Press it in by hand until it lies in its groove all round."
      fit new seal-${n}
    }

    step place-${n} "Put pump ${n} back" {
      "Turn the shaft a little while you push, so that the coupling finds its place by itself."
      fit pump-${n}
      lubricate pump-bolts-${n}  with engine-oil
      fit new pump-bolts-${n}  by hand
    }

    step tighten-${n} "Tighten pump ${n}" {
      "Snug all four crosswise before you turn the first of them by its angle."
      tighten pump-bolts-${n} {
        stage snug  with torque-wrench
        stage final  with angle-gauge
      }
    }

    step close-${n} "Close the cover of pump ${n}" {
      "The arrow on the cover points to the drive end. The cover must lie flat before a bolt is turned."
      fit cover-${n}
      fit cover-bolts-${n}  by hand
    }

    step finish-${n} "Tighten the cover of pump ${n}" {
      "Go round twice: the first bolt has come loose a little when the last one is tight."
      tighten cover-bolts-${n}  with torque-wrench
    }
  }
`;
}
