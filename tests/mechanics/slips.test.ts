/** Slipped decimal points: found where no bolt explains the torque, and nowhere else. */
import { describe, expect, it, test } from "vitest";
import type { BoltClass } from "../../server/mechanics/classes";
import type { Thread } from "../../server/mechanics/threads";
import { slippedDecimal as slipOf } from "../../server/mechanics/tightening-slips";
import { boltClass, thread } from "./bolts";
import {
  dubbelTightening,
  fineTightening,
  manualTightening,
  stainlessTightening,
  steelColumns,
} from "./published";

const slippedDecimal = (one: Thread, torque: number, boltClass: BoltClass | null = null) =>
  slipOf({ thread: one, boltClass }, torque);

const published = [
  ...[...dubbelTightening, ...manualTightening].flatMap(([size, torques]) =>
    torques.map((torque, index) => [size, steelColumns[index] ?? "", torque] as const),
  ),
  ...fineTightening.flatMap(([size, , , torques]) =>
    torques.map((torque, index) => [size, steelColumns[index] ?? "", torque] as const),
  ),
  ...stainlessTightening.flatMap(([size, torques]) =>
    torques.map((torque, index) => [size, ["A2-50", "A2-70", "A2-80"][index] ?? "", torque] as const),
  ),
];

test("no published torque counts as slipped, with its class or without", () => {
  for (const [size, name, torque] of published) {
    expect(slippedDecimal(thread(size), torque, boltClass(name)), `${size} ${name}`).toBeNull();
    expect(slippedDecimal(thread(size), torque), size).toBeNull();
  }
});

test("nor a half of it, as for soft parts, nor half as much again", () => {
  for (const [size, name, torque] of published) {
    expect(slippedDecimal(thread(size), torque / 2, boltClass(name))).toBeNull();
    expect(slippedDecimal(thread(size), torque * 1.5, boltClass(name))).toBeNull();
  }
});

test("every published torque of a steel bolt, ten times too much or too little, is found and the right one given", () => {
  for (const [size, name, torque] of published.filter(([, one]) => !one.startsWith("A"))) {
    const found = [torque * 10, torque / 10].map((one) => slippedDecimal(thread(size), one, boltClass(name)));
    expect(
      found.map((one) => one?.slip),
      `${size} ${name} ${torque}`,
    ).toEqual(["ten-times-too-much", "ten-times-too-little"]);
    for (const one of found) expect(one?.meant).toBeCloseTo(torque, 9);
  }
});

test("what is said of friction and head finds more", () => {
  const bolt = { thread: thread("M27"), boltClass: boltClass("8.8") };
  expect(slipOf(bolt, 130)).toBeNull();
  expect(slipOf({ ...bolt, state: "dry", head: "hexagon" }, 110)).toEqual({
    slip: "ten-times-too-little",
    meant: 1100,
  });
});

describe("without a class", () => {
  it.each([
    ["M10", 460, "ten-times-too-much", 46],
    ["M8", 220, "ten-times-too-much", 22],
    ["1/2-13", 1020, "ten-times-too-much", 102],
    ["M10", 1.5, "ten-times-too-little", 15],
  ])("%s with %d N·m: %s", (size, torque, slip, meant) => {
    expect(slippedDecimal(thread(size), torque)).toEqual({ slip, meant });
  });

  // 4.6 N·m may be right for a soft bolt or soft parts; 90 N·m in M10 is much, but a 12.9 bolt bears it.
  it.each([
    ["M10", 4.6],
    ["M10", 90],
    ["M6", 3],
  ])("%s with %d N·m may be right", (size, torque) => {
    expect(slippedDecimal(thread(size), torque)).toBeNull();
  });
});

it.each([0, -46, Number.NaN, Number.POSITIVE_INFINITY, 1e308, 5e-324])("%d N·m says nothing", (torque) => {
  expect(slippedDecimal(thread("M10"), torque, boltClass("8.8"))).toBeNull();
});
