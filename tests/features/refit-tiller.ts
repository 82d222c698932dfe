/** A machine to try refits on, and what is expected of a refit of work on it. */
import { expect } from "vitest";
import { type Refitted, refitted } from "./refit-support";

export const MACHINE = `torquil 1

machine tiller "Two-wheel tiller" {
  fluid coolant "Coolant"  1.2 L  hot
  consumable grease "Grease"
  cable battery-lead "Battery lead"  battery
  connector plug "Sensor plug"  behind cowl
  tap drain-tap "Drain tap"
  circuit starter "Starter circuit"
  hose oil-hose "Oil hose" {
    behind  cowl
    through clip-a, clip-b
  }
  clip clip-a "Rear clip"
  clip clip-b "Front clip"
  part filler-cap "Filler cap"
  part cowl "Fan cowl"
  part left-wheel "Left wheel"
  part pipe "Coolant pipe" {
    behind   cowl
    contains coolant
  }
  part seal "Pipe seal" {
    behind pipe
    renew  every time
  }
  part drive-pulley "Drive pulley"  behind drive-belt
  part engine-pulley "Engine pulley"  behind drive-belt
  part idler "Idler" {
    behind cowl
    spring-loaded
  }
  fastener cowl-screws "Cowl screws" {
    secures cowl
    count   4
    tighten 9 N·m
  }
  fastener pipe-bolts "Pipe bolts" {
    secures pipe
    oiled   grease  on thread
    count   2
    stage   first 10 N·m
    stage   final 22 N·m
  }
  fastener wheel-nuts "Wheel nuts" {
    secures left-wheel
    count   4
    stage   snug 12 N·m  crosswise
    stage   full 45 N·m  crosswise  on its wheels
  }
  fastener union "Union nut of the oil hose" {
    secures oil-hose
    tighten 30 N·m
  }
  shaft crank "Crankshaft"
  shaft input "Gearbox input"
  belt drive-belt "Drive belt" {
    behind cowl
    pulley engine-pulley  diameter 80 mm  on crank
    pulley drive-pulley  diameter 120 mm  on input
    pulley idler  diameter 50 mm  back of belt
  }
}
`;

export const HEAD = `torquil 1

use "tiller.torquil"

procedure job "Work on the tiller" {
  on tiller
  kit "K" {
    item seal 1
  }
  tool small-wrench "Small torque wrench"  2 to 25 N·m
  tool wrench "Torque wrench"  10 to 50 N·m
  tool jack "Jack"  rating 500 kg
  tool stand "Stand"  rating 500 kg
  tool lever "Lever"
  tool tray "Tray"  2 L
  temporary pin "Idler pin"  into idler
  temporary crank-pin "Crank pin"  into crank
  symptom squeal "It squeals"
  option heated "Heated grips"

`;

/** The refit of a job with this work in it. */
export function after(work: string): Refitted {
  const text = `${HEAD}${work.replace(/^ {4}/gm, "").replace(/^\n/, "")}}\n`;
  return refitted({ "job.torquil": text, "tiller.torquil": MACHINE }, "job.torquil");
}

export const flat = (text: string): string => text.replace(/\s+/g, " ").trim();

/** That all is written and right, as these lines in this order, whatever stands between. */
export function expectWritten(
  { added, problems, wrong, usual }: Refitted,
  ...lines: readonly string[]
): void {
  expect(problems).toEqual([]);
  expect(wrong).toEqual([]);
  expect(usual).toBe(true);
  let from = 0;
  const text = flat(added);
  for (const line of lines) {
    const at = text.indexOf(flat(line), from);
    expect(at, `“${line}” in order in\n${added}`).toBeGreaterThanOrEqual(0);
    from = at + 1;
  }
}
