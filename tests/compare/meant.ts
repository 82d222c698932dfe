/** What is said of each revision of the flagship: rank, headline, where it lies, what it does, whom it touches. Nothing else. */
export const MEANT: Readonly<Record<string, readonly string[]>> = {
  torque: [
    "safety: Tightening of “Pump sprocket bolt”: “40 N·m then 90°” → “45 N·m then 90°” | higher by 12.5 % | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  "tolerance given": [
    "safety: Tightening of “Pump sprocket bolt”: “40 N·m then 90°” → “40 +3/-1 N·m then 90°” | wider than before | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  angle: [
    "safety: Tightening of “Pump sprocket bolt”: “40 N·m then 90°” → “40 N·m then 60°” | lower by 33.3 % | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  "stage added": [
    "safety: Tightening of “Pump sprocket bolt”: “snug 40 N·m then final 90°” → “snug 40 N·m then final 90° then last 30°” | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  order: [
    "safety: Tightening of “Coolant pipe bolts”: “22 N·m crosswise” → “22 N·m from the middle out” | touches “Renew the injection-pump belt”: step 6, “Coolant pipe”; step 26, “Coolant pipe”; step 27, “Tighten the coolant pipe”",
  ],
  renewal: [
    "safety: “Pump sprocket bolt”: “renew every time” → “reuse at most 3 times” | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  "thread state": [
    "safety: “Pump sprocket bolt”: “oiled Engine oil, clean on thread and under head” → “dry” | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  limit: [
    "safety: “limit 0.05 to 0.15 mm with Dial gauge with stand, reading 0.01 mm at 15 to 25 °C” → “limit 0.05 to 0.20 mm with Dial gauge with stand, reading 0.01 mm at 15 to 25 °C” | step 17, “Pump shaft end float” | wider than before",
  ],
  "caution removed": [
    'safety: Removed: warning, “burn”: “Hot coolant sprays out of a system that is opened under pressure. can "Scald face and hands." so "Open nothing until the thermometer shows less than 40 °C at the header tank."” | step 4, “Drain the coolant” | it stood before “open Filler cap on the header tank”',
  ],
  "caution moved": [
    'safety: Moved: warning, “burn”: “Hot coolant sprays out of a system that is opened under pressure. can "Scald face and hands." so "Open nothing until the thermometer shows less than 40 °C at the header tank."” | step 4, “Drain the coolant” | it now comes after “open Filler cap on the header tank” | it stands before “open Drain tap on the block”',
  ],
  "caution weaker": [
    "safety: Warning, “exhaust-gas”: “danger exhaust-gas” → “warning exhaust-gas” | step 33, “Start”",
  ],
  "caution worded": ['safety: Danger, “exhaust-gas”: “can "Kill."” → “can "Harm."” | step 33, “Start”'],
  tool: [
    "safety: “pull Tensioner locking pin with Tensioner lever” → “pull Tensioner locking pin with Turning bar on the crankshaft bolt” | step 12, “Let the tensioner down”",
  ],
  "tool range": [
    'safety: “tool torque-wrench "Torque wrench" 10 to 100 N·m” → “tool torque-wrench "Torque wrench" 10 to 80 N·m” | narrower than before',
  ],
  run: [
    "safety: “Injection-pump belt”: “pulley Belt tensioner diameter 55 mm centre 100 mm, 140 mm back of belt travel 10 mm” → “pulley Belt tensioner diameter 55 mm centre 90 mm, 140 mm back of belt travel 10 mm” | touches “Renew the injection-pump belt”: step 11, “Belt off”; step 21, “Lay the belt on”; step 24, “Timing marks”; step 36, “Values under load”",
  ],
  "lay-on order": [
    "safety: “lay-on Injection-pump belt clockwise Crank sprocket, Guide roller, Pump sprocket, Belt tensioner” → “lay-on Injection-pump belt clockwise Crank sprocket, Pump sprocket, Guide roller, Belt tensioner” | step 21, “Lay the belt on”",
  ],
  "way round": [
    "safety: “fit new Injection-pump belt way-round anticlockwise” → “fit new Injection-pump belt way-round clockwise” | step 21, “Lay the belt on”",
  ],
  wait: ["safety: “wait 5 min” → “wait 2 min” | step 18, “Clean where the belt runs” | lower by 60 %"],
  people: [
    "safety: “remove Hood panel screws, Front panel of the sound hood” → “remove Hood panel screws, Front panel of the sound hood by two people” | step 3, “Open the hood”",
  ],
  serial: [
    "safety: “on Skua 27 marine generator serial 1200 to 4899” → “on Skua 27 marine generator serial 1200 to 4500”",
  ],
  repeats: [
    "safety: “repeat from Pin the pump at most 2 times” → “repeat from Pin the pump at most 3 times” | step 24, “Timing marks”",
  ],
  "check removed": [
    'safety: Removed: check “Oil on the old belt” | was step 7 | in it: “observe "Is the belt wet with oil or fuel?"” and “end job "A new belt would not last: first find the leak and stop it."”',
  ],
  allow: ['safety: Added: “allow tool-unused "Spare."”'],
  "act removed": ["safety: Removed: “insert Crankshaft locking pin” | step 9, “Pin the crankshaft”"],
  "act added": [
    "content: Added: “clean Coolant pipe across the belt with Parts cleaner, quick-drying” | step 4, “Drain the coolant”",
  ],
  "kit item": ['content: “item Pipe seal 1 "PS-2"” → “item Pipe seal 2 "PS-2"”'],
  "working time": ["content: “working-time 4 h 30 min” → “working-time 5 h” | higher by 11.1 %"],
  "pins swapped": [
    "safety: Moved: “pull Crankshaft locking pin” | step 23, “Take the pins out” | it now comes before “pull Pump locking pin”",
  ],
  "act moved to another step": [
    "wording: In another place, done in the same order: “disconnect Battery negative lead” | step 3, “Open the hood” (was step 2)",
  ],
  "pin before tensioner": [
    "safety: Moved: “pull Pump locking pin” | step 22, “Let the tensioner onto the belt” (was step 23) | it now comes before “pull Tensioner locking pin with Tensioner lever”",
  ],
  "step moved": [
    'safety: Moved: step “Fill with coolant” | step 30, was step 29 | it now comes after “bleed Coolant until "no more bubbles rise in the filler neck" at most 15 min” and “close Filler cap on the header tank”',
  ],
  "step after pins": [
    "safety: Moved: step “Lay the belt on” | step 23, was step 21 | it now comes after “pull Tensioner locking pin with Tensioner lever”, “pull Pump locking pin” and “pull Crankshaft locking pin”",
  ],
  "step retitled": ["wording: Step retitled: “Pin the crankshaft” → “Lock the crankshaft” | step 9"],
  "part renamed": ["wording: “Belt guard”: renamed, “belt-guard” → “drive-guard”"],
  "section split": ["wording: New section “Lay it on”, split off from “Fit the new belt”"],
  "section joined": ["wording: Removed: section “Check what stays”, joined to “Take the belt off”"],
  prose: [
    "wording: Text: “Knead the long hose by …” → “Press the long hose by …” | step 30, “Let the air out”",
  ],
  title: [
    "wording: Part retitled: “Belt guard” → “Guard over the belt” | touches “Renew the injection-pump belt”: step 5, “Belt guard”; step 28, “Belt guard”",
  ],
  unit: [
    "wording: “Pump sprocket bolt”: the same, written otherwise: “stage snug 40 N·m” → “stage snug 29.5 lb·ft” | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  decimals: [
    "wording: “Pump sprocket bolt”: the same, written otherwise: “stage snug 40 N·m” → “stage snug 40.0 N·m” | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
  ],
  spelling: ["layout: “skua-27.torquil”: laid out otherwise (spaces, lines, comments)"],
  comment: ["layout: “skua-27.torquil”: laid out otherwise (spaces, lines, comments)"],
  spaces: ["layout: “skua-27.torquil”: laid out otherwise (spaces, lines, comments)"],
  "declarations ordered": ["layout: “belt-service.torquil”: declarations in another order"],
  "one line": ["layout: “skua-27.torquil”: laid out otherwise (spaces, lines, comments)"],
  wrapped: [
    "safety: Added: “when Serial 2600 to 4899, with a guard switch” | step 2, “Keep it from starting” | in it: “disconnect Battery negative lead”",
  ],
  "fit old": ["safety: “fit new Pipe seal” → “fit old Pipe seal” | step 26, “Coolant pipe”"],
  "hole length": [
    "safety: “Coolant pipe bolts”: “holes 3 length 40 mm” → “holes 3 length 45 mm” | higher by 12.5 % | touches “Renew the injection-pump belt”: step 6, “Coolant pipe”; step 26, “Coolant pipe”; step 27, “Tighten the coolant pipe”",
  ],
  "part added": ["content: New part “Hood lamp”"],
  "caution and act moved together": [
    "safety: Moved: “open Drain tap on the block” | step 4, “Drain the coolant” | it now comes before “open Filler cap on the header tank”",
  ],
  "temporary retargeted": ["safety: “Pump locking pin”: “into Pump sprocket” → “into Crankshaft”"],
  "revision added": ['content: Added: “revision D 2026-12-01 "Torque put right."”'],
  "step renamed": ["wording: “Pin the pump”: renamed, “fit-belt” → “lay-belt” | step 20"],
  "broken line": [
    "safety: Removed: “wait 5 min” | step 18, “Clean where the belt runs”",
    "content: Added: “wait 5 5 min (” | step 18, “Clean where the belt runs”",
  ],
  "hazard of the house": [
    "safety: “Exhaust gas in a closed space”: “least danger” → “least warning” | touches “Renew the injection-pump belt”: step 33, “Start”",
  ],
  behind: [
    "safety: “Belt guard”: no longer “behind Front panel of the sound hood” | touches “Renew the injection-pump belt”: step 5, “Belt guard”; step 28, “Belt guard”",
  ],
  indentation: ["layout: “belt-service.torquil”: laid out otherwise (spaces, lines, comments)"],
  "file renamed": [
    'layout: “use "skua-27.torquil"” → “use "skua.torquil"”',
    "layout: File moved: “skua-27.torquil” → “skua.torquil”",
  ],
  "use taken out": [
    'safety: Removed: “use "skua-27.torquil"” | these names are not known any more: “skua-27, timing-belt, pipe-seal, guide-roller, tensioner” and 26 more',
  ],
  three: [
    "safety: “wait 5 min” → “wait 2 min” | step 18, “Clean where the belt runs” | lower by 60 %",
    "safety: Tightening of “Pump sprocket bolt”: “40 N·m then 90°” → “45 N·m then 90°” | higher by 12.5 % | touches “Renew the injection-pump belt”: step 17, “Pump shaft end float”",
    "wording: Text: “Knead the long hose by …” → “Squeeze the long hose by …” | step 30, “Let the air out”",
  ],
};
