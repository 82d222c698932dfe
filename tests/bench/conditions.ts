/**
 * Made-up jobs for following: any number of steps under forty conditions, of which eight are alive at once; and one
 * fastener about which all forty are.
 */

const CONDITIONS = 40;
const ALIVE = 8;
const STEPS_A_STATION = 4;

/** The texts of a job by path. */
export type Texts = Readonly<Record<string, string>>;

const numbers = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/**
 * So many steps. A condition begins with a lid that is taken off and frame bolts that are slackened under it, and ends
 * eight conditions later with both put right under it; between, steps are done under those that are alive. Where nothing is
 * shared, the bolts are left alone.
 */
export function writeConditions(steps: number, shared: boolean): Texts {
  const stations = Math.ceil(steps / STEPS_A_STATION);
  const each = Math.max(1, Math.floor(stations / CONDITIONS));
  const open: number[] = [];
  const body: string[] = [];
  for (const station of numbers(stations)) {
    const begun = Math.floor(station / each);
    if (station % each === 0 && begun < CONDITIONS) {
      if (open.length === ALIVE) body.push(ending(open.shift() as number, shared));
      open.push(begun);
      body.push(beginning(begun, shared));
    }
    body.push(stationOf(station, open[station % open.length] as number));
  }
  const parts = numbers(stations).map(
    (n) => `  part cover-${n} "Cover ${n}"\n  part pump-${n} "Pump ${n}"  behind cover-${n}`,
  );
  return texts(
    [...numbers(CONDITIONS).map(declared), ...parts],
    [...body, ...open.map((k) => ending(k, shared))],
  );
}

/** Every condition slackens the same bolts before any has them tightened again. */
export function writeOneThing(): Texts {
  const under = (act: string): string[] =>
    numbers(CONDITIONS).map(
      (k) => `    step "${act} ${k}" {\n      when c${k} {\n        ${act}\n      }\n    }`,
    );
  const options = numbers(CONDITIONS).map((k) => `  option c${k} "Option ${k}"`);
  return texts(options, [...under("loosen frame-bolts"), ...under("tighten frame-bolts  with wrench")]);
}

const declared = (k: number): string => `  option c${k} "Option ${k}"\n  part lid-${k} "Lid ${k}"`;

const beginning = (k: number, shared: boolean): string =>
  `    step "Open ${k}" {\n      when c${k} {\n        remove lid-${k}\n${shared ? "        loosen frame-bolts\n" : ""}      }\n    }`;

const ending = (k: number, shared: boolean): string =>
  `    step "Close ${k}" {\n      when c${k} {\n${shared ? "        tighten frame-bolts  with wrench\n" : ""}        fit lid-${k}\n      }\n    }`;

const stationOf = (n: number, condition: number): string => `    step "Off ${n}" {
      remove cover-${n}
    }
    step "Clean ${n}" {
      when c${condition} {
        clean pump-${n}
      }
      otherwise {
        lubricate pump-${n}  with oil
      }
    }
    step "Wait ${n}" {
      wait 5 min
    }
    step "On ${n}" {
      fit cover-${n}
    }`;

const FRAME = `  consumable oil "Oil"
  fastener frame-bolts "Frame bolts"  tighten 22 N·m`;

function texts(things: readonly string[], steps: readonly string[]): Texts {
  const sections: string[] = [];
  for (let i = 0; i < steps.length; i += 10)
    sections.push(`  section "Part ${i / 10}" {\n${steps.slice(i, i + 10).join("\n")}\n  }`);
  return {
    "row.torquil": `torquil 1\n\nmachine row "Row" {\n${FRAME}\n${things.join("\n")}\n}\n`,
    "job.torquil": `torquil 1\n\nuse "row.torquil"\n\nprocedure job "Job" {\n  on row\n  tool wrench "Torque wrench"  5 to 50 N·m\n${sections.join("\n")}\n}\n`,
  };
}
