/**
 * What `torquil new` begins a project with: settings, a machine and a procedure, small and whole, each kind of thing that
 * nearly every procedure needs shown once. Machine and figures are invented.
 */

/** What the two files are about. */
export interface Starter {
  readonly machineTitle: string;
  readonly procedureTitle: string;
  readonly paper: "a4" | "letter";
}

/** The titles where none are given. */
export const STARTER: Starter = {
  machineTitle: "Wren 12 rinse pump",
  procedureTitle: "Renew the impeller",
  paper: "a4",
};

/** The files of a new project, by path from its folder. */
export function starterFiles({ machineTitle, procedureTitle, paper }: Starter): Record<string, string> {
  const machine = nameFrom(machineTitle, "machine");
  const procedure = nameFrom(procedureTitle, "procedure");
  const file = procedure === machine ? `${procedure}-job` : procedure;
  return {
    "torquil.json": settings(paper),
    [`${machine}.torquil`]: machineText(machine, machineTitle),
    [`${file}.torquil`]: procedureText(procedure, procedureTitle, machine),
  };
}

/**
 * A name as the language and every file system take it, from a title: its words in small letters, joined by hyphens;
 * `otherwise` where the title has none that a name may begin with.
 */
export function nameFrom(title: string, otherwise: string): string {
  const words =
    title
      .normalize("NFC")
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu) ?? [];
  const first = words.findIndex((word) => /^\p{L}/u.test(word));
  return first < 0 ? otherwise : words.slice(first).join("-").slice(0, 60).replace(/-$/, "");
}

/** A text as the language writes it between quotes. */
function quoted(text: string): string {
  return `"${text.replace(/["\\]/g, (sign) => `\\${sign}`)}"`;
}

function settings(paper: Starter["paper"]): string {
  return `{
  // The paper that sheets are printed on, a4 or letter; the language of their own words, en, de, fr or es; and the units
  // they show, both, metric or imperial.
  "paper": "${paper}",
  "language": "en",
  "units": "both"
}
`;
}

function machineText(name: string, title: string): string {
  return `torquil 1

// What the machine is. Every procedure on it uses this file, so a figure stands here once.

machine ${name} ${quoted(title)} {
  circuit motor-supply "Motor supply"

  part cover "Front cover"
  part cover-seal "Cover seal" {
    behind   cover
    renew    every time
  }
  part impeller "Impeller"  behind cover, cover-seal

  fastener cover-bolts "Cover bolts" {
    secures cover
    thread  M6
    class   8.8
    dry
    count   4
    tighten 9 N·m  crosswise
  }
}
`;
}

function procedureText(name: string, title: string, machine: string): string {
  return `torquil 1

// What is done, in order. "torquil check" follows every way through it; "torquil print" makes the sheet.

use ${quoted(`${machine}.torquil`)}

procedure ${name} ${quoted(title)} {
  on ${machine}
  document "W12-0001"
  revision A 2026-01-15 "First issue."
  working-time 40 min
  wear "Safety glasses"

  kit "K-12" {
    item impeller 1 "IM-12"
    item cover-seal 1 "CS-12"
  }

  consumable grease "Silicone grease, food-safe"
  tool torque-wrench "Torque wrench"  4 to 25 N·m
  tool feeler-gauge "Feeler gauges, 0.05 to 1.00 mm"

  section "Make safe and open" {
    step "Switch off" {
      warning entanglement {
        "The pump starts by itself when the tank runs full."
        can "Draw in and cut fingers."
        so  "Switch the motor off at the wall and lock the switch before you open anything."
      }
      isolate motor-supply
    }
    step "Cover off" {
      "Shut the tap before the pump. A little water runs out."
      remove cover-bolts, cover
      remove cover-seal  discard
    }
    step "Impeller out" {
      remove impeller  discard
    }
  }

  section "Put together" {
    step "Impeller in" {
      fit new impeller
    }
    check end-gap "Gap between impeller and housing" {
      limit 0.10 to 0.30 mm  with feeler-gauge
      record "Gap"
      if over {
        end job "The housing is worn: leave the motor locked off, and renew the pump."
      }
      if under {
        end job "The impeller is the wrong one, or does not sit on its shoulder: ask before you go on."
      }
    }
    step "Cover on" {
      lubricate cover-seal  with grease
      fit new cover-seal
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts  with torque-wrench
    }
  }

  section "Prove the work" {
    step "Switch on" {
      "Open the tap before the pump."
      restore motor-supply
      start ${machine}
    }
    check dry "Is it tight?" {
      observe "Is the joint of the cover dry after five minutes of running?"
      proves cover-seal, cover-bolts
      if no {
        stop ${machine}
        end job "Switch off, and do the job again with a new seal."
      }
    }
    step "Stop" {
      stop ${machine}
    }
  }
}
`;
}
