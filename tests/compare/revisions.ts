/** Revisions of the flagship: one for each kind of change. */
import { FLAGSHIP, MACHINE, PROCEDURE, revised } from "./flagship";

const machine = (from: string, to: string) => revised(MACHINE, from, to);
const procedure = (from: string, to: string) => revised(PROCEDURE, from, to);

const BURN = `      warning burn {
        "Hot coolant sprays out of a system that is opened under pressure."
        can "Scald face and hands."
        so  "Open nothing until the thermometer shows less than 40 °C at the header tank."
      }
      open filler-cap
`;
const LAY_ON = `    step "Lay the belt on" {
      "Start at the crank sprocket and keep the strand over the guide roller tight; the slack goes to the"
      "tensioner. The arrow on the belt points the way the crankshaft turns."
      fit new timing-belt  way-round anticlockwise  // after a return: the one that was kept
      lay-on timing-belt clockwise crank-sprocket, guide-roller, pump-sprocket, tensioner
    }

`;
const AIR = `    step "Let the air out" {
      "Knead the long hose by the header tank."
      bleed coolant until "no more bubbles rise in the filler neck"  at most 15 min
      close filler-cap
    }

`;
const LEAKS = / {4}check belt-oil[\s\S]*?\n {4}}\n/.exec(FLAGSHIP[PROCEDURE] ?? "")?.[0] ?? "";

export const REVISIONS: Readonly<Record<string, Record<string, string>>> = {
  torque: machine("stage   snug 40 N·m", "stage   snug 45 N·m"),
  "tolerance given": machine("stage   snug 40 N·m", "stage   snug 40 +3/-1 N·m"),
  angle: machine("stage   final 90°", "stage   final 60°"),
  "stage added": machine("    stage   final 90°\n", "    stage   final 90°\n    stage   last 30°\n"),
  order: machine("tighten 22 N·m  crosswise", "tighten 22 N·m  from the middle out"),
  renewal: machine(
    "    stage   final 90°\n    renew   every time\n",
    "    stage   final 90°\n    reuse   at most 3 times\n",
  ),
  "thread state": machine("    oiled   engine-oil  on thread and under head\n", "    dry\n"),
  limit: procedure("limit 0.05 to 0.15 mm", "limit 0.05 to 0.20 mm"),
  "caution removed": procedure(BURN, "      open filler-cap\n"),
  "caution moved": procedure(BURN, BURN.replace(/^(\s*warning[\s\S]*?\n {6}\}\n)(.*\n)$/, "$2$1")),
  "caution weaker": procedure("danger exhaust-gas", "warning exhaust-gas"),
  "caution worded": procedure('can "Kill."', 'can "Harm."'),
  tool: procedure(
    'pull tensioner-pin  with tensioner-lever\n    }\n  }\n\n  section "Check',
    'pull tensioner-pin  with crank-bar\n    }\n  }\n\n  section "Check',
  ),
  "tool range": procedure("10 to 100 N·m", "10 to 80 N·m"),
  run: machine(
    "pulley    tensioner  diameter 55 mm  centre 100 mm, 140 mm",
    "pulley    tensioner  diameter 55 mm  centre 90 mm, 140 mm",
  ),
  "lay-on order": procedure(
    "crank-sprocket, guide-roller, pump-sprocket, tensioner\n    }",
    "crank-sprocket, pump-sprocket, guide-roller, tensioner\n    }",
  ),
  "way round": procedure(
    "fit new timing-belt  way-round anticlockwise",
    "fit new timing-belt  way-round clockwise",
  ),
  wait: procedure("wait 5 min", "wait 2 min"),
  people: procedure("remove hood-screws, hood-panel", "remove hood-screws, hood-panel  by two people"),
  serial: procedure("serial 1200 to 4899\n", "serial 1200 to 4500\n"),
  repeats: procedure("repeat from fit-belt  at most 2 times", "repeat from fit-belt  at most 3 times"),
  "check removed": procedure(LEAKS, ""),
  allow: procedure("  tool angle-gauge", '  allow tool-unused "Spare."\n  tool angle-gauge'),
  "act removed": procedure("      insert crank-pin\n    }", "    }"),
  "act added": procedure(
    "      open drain-tap\n",
    "      open drain-tap\n      clean coolant-pipe  with cleaner\n",
  ),
  "kit item": procedure('item pipe-seal 1 "PS-2"', 'item pipe-seal 2 "PS-2"'),
  "working time": procedure("working-time 4 h 30 min", "working-time 5 h"),
  "pins swapped": procedure(
    "      pull pump-pin\n      pull crank-pin\n",
    "      pull crank-pin\n      pull pump-pin\n",
  ),
  "act moved to another step": procedure(
    '      isolate remote-start\n      disconnect battery-lead\n    }\n\n    step "Open the hood" {\n',
    '      isolate remote-start\n    }\n\n    step "Open the hood" {\n      disconnect battery-lead\n',
  ),
  "pin before tensioner": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "")
      .replace("      pull pump-pin\n      pull crank-pin\n", "      pull crank-pin\n")
      .replace(
        '    step "Let the tensioner onto the belt" {\n',
        '    step "Let the tensioner onto the belt" {\n      pull pump-pin\n',
      ),
  },
  "step moved": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "")
      .replace(AIR, "")
      .replace('    step "Fill with coolant" {', `${AIR}    step "Fill with coolant" {`),
  },
  "step after pins": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "")
      .replace(LAY_ON, "")
      .replace('    check timing "', `${LAY_ON}    check timing "`),
  },
  "step retitled": procedure('step "Pin the crankshaft"', 'step "Lock the crankshaft"'),
  "part renamed": {
    [MACHINE]: (FLAGSHIP[MACHINE] ?? "").replaceAll("belt-guard", "drive-guard"),
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "").replaceAll("belt-guard", "drive-guard"),
  },
  "section split": procedure(
    '    step "Hold the tensioner back again" {',
    '  }\n\n  section "Lay it on" {\n    step "Hold the tensioner back again" {',
  ),
  "section joined": procedure('  }\n\n  section "Check what stays" {\n', ""),
  prose: procedure("Knead the long hose by the header tank.", "Press the long hose by the header tank."),
  title: machine('part belt-guard "Belt guard"', 'part belt-guard "Guard over the belt"'),
  unit: machine("stage   snug 40 N·m", "stage   snug 29.5 lb·ft"),
  decimals: machine("stage   snug 40 N·m", "stage   snug 40.0 N·m"),
  spelling: machine("stage   snug 40 N·m", "stage   snug 40 Nm"),
  comment: machine("// half of crank: worked out from the teeth", "// half of the crank"),
  spaces: machine("  // What turns\n", "\n\n  // What turns\n"),
  "declarations ordered": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "")
      .replace('  tool angle-gauge "Angle gauge"\n', "")
      .replace("  tool drain-tray", '  tool angle-gauge "Angle gauge"\n  tool drain-tray'),
  },
  "one line": machine(
    '  part pipe-seal "Pipe seal" {\n    behind   coolant-pipe\n    renew    every time\n  }\n',
    '  part pipe-seal "Pipe seal"  behind coolant-pipe  renew every time\n',
  ),
  wrapped: procedure(
    "      disconnect battery-lead\n    }",
    "      when late {\n        disconnect battery-lead\n      }\n    }",
  ),
  "fit old": procedure(
    "fit new pipe-seal\n      fit coolant-pipe",
    "fit old pipe-seal\n      fit coolant-pipe",
  ),
  "hole length": machine("holes   3  length 40 mm", "holes   3  length 45 mm"),
  "part added": machine("  part hood-panel", '  part hood-lamp "Hood lamp"  weight 1 kg\n  part hood-panel'),
  "caution and act moved together": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "")
      .replace(BURN, "")
      .replace("      open drain-tap\n", `      open drain-tap\n${BURN}`),
  },
  "temporary retargeted": procedure("into pump-sprocket  diameter 6 mm", "into crank  diameter 6 mm"),
  "revision added": procedure(
    "  revision C 2026",
    '  revision D 2026-12-01 "Torque put right."\n  revision C 2026',
  ),
  "step renamed": {
    ...FLAGSHIP,
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "").replaceAll("fit-belt", "lay-belt"),
  },
  "broken line": procedure("      wait 5 min\n", "      wait 5 5 min (\n"),
  "hazard of the house": machine("    least     danger\n", "    least     warning\n"),
  behind: machine(
    '  part belt-guard "Belt guard" {\n    behind   hood-panel\n',
    '  part belt-guard "Belt guard" {\n',
  ),
  indentation: { ...FLAGSHIP, [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "").replaceAll("\n    ", "\n      ") },
  "file renamed": {
    [PROCEDURE]: (FLAGSHIP[PROCEDURE] ?? "").replace("skua-27.torquil", "skua.torquil"),
    "skua.torquil": FLAGSHIP[MACHINE] ?? "",
  },
  "use taken out": procedure('use "skua-27.torquil"\n', ""),
  three: revised(
    PROCEDURE,
    "wait 5 min",
    "wait 2 min",
    revised(PROCEDURE, "Knead the", "Squeeze the", machine("stage   snug 40 N·m", "stage   snug 45 N·m")),
  ),
};
