/** The belt kit of the marine generator, walked clean, and the same with one fault planted at a time. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { changed, faultsIn, walkThrough } from "./support";

const read = (name: string): string =>
  readFileSync(new URL(`../grammar/fixtures/${name}`, import.meta.url), "utf8");
const machine = read("skua-27.torquil");
const job = read("belt-service.torquil");

const faults = (text: string, of = machine): string[] =>
  faultsIn({ "belt-service.torquil": text, "skua-27.torquil": of });

test("is clean as it stands", () => {
  expect(faults(job)).toEqual([]);
  const { graph } = walkThrough({ "belt-service.torquil": job, "skua-27.torquil": machine });
  expect(graph.points.filter((p) => p.kind === "return")).toHaveLength(2);
  expect(graph.points.filter((p) => p.kind === "act").length).toBeGreaterThan(35);
});

test.each<[string, string, string, readonly string[]]>([
  [
    "the guard stays off",
    "      fit belt-guard\n",
    "",
    ["part-left-off belt-guard off @ remove guard-bolts, belt-guard"],
  ],
  [
    "the pipe's bolts stay finger-tight",
    "      tighten pipe-bolts  with torque-wrench\n",
    "",
    ["finger-tight-left pipe-bolts by hand @ fit pipe-bolts  by hand"],
  ],
  [
    "the guard goes on before the pipe",
    "      fit coolant-pipe\n",
    "      fit belt-guard\n      fit coolant-pipe\n",
    ["blocked-by belt-guard @ fit coolant-pipe"],
  ],
  [
    "the guard is not taken off first",
    "      remove guard-bolts, belt-guard\n",
    "",
    ["blocked-by belt-guard @ remove pipe-bolts, coolant-pipe"],
  ],
  [
    "the pump pin stays in",
    "      pull pump-pin\n",
    "",
    ["temporary-left-in pump-pin inserted @ insert pump-pin"],
  ],
  [
    "the sprocket is left off after a repair",
    "        fit pump-sprocket\n",
    "",
    ["part-left-off pump-sprocket off @ remove pump-sprocket: “Pump shaft end float” is over"],
  ],
  [
    "the sprocket bolt stays by hand after a repair",
    `        tighten sprocket-bolt {
          stage   snug           with torque-wrench
          stage   final          with angle-gauge
          holding pump-sprocket  with sprocket-holder
        }
`,
    "",
    [
      "finger-tight-left sprocket-bolt by hand @ fit new sprocket-bolt  by hand: “Pump shaft end float” is over",
    ],
  ],
  [
    "the belt stays off when the marks do not meet at first",
    "        repeat from fit-belt  at most 2 times\n",
    "",
    [
      "part-left-off timing-belt off @ remove timing-belt  keep: “Timing marks” is not met",
      "temporary-left-in tensioner-pin inserted @ insert tensioner-pin: “Timing marks” is not met",
    ],
  ],
  [
    "nothing is said of the hot coolant",
    `      warning burn {
        "Hot coolant sprays out of an open system."
        can "Scald."
        so  "Open nothing until it is below 40 °C."
      }
`,
    "",
    ["caution-missing coolant burn @ drain coolant  keep  with drain-tray       // keep: it goes back in"],
  ],
  [
    "the second caution on the spring is dropped",
    `      warning stored-energy {
        "The tensioner arm springs onto the belt."
        can "Crush a finger."
        so  "Hold the arm and let it down slowly."
      }
`,
    "",
    ["caution-missing tensioner stored-energy @ pull tensioner-pin"],
  ],
])("found when %s", (_what, from, to, expected) => {
  expect(faults(changed(job, from, to))).toEqual(expected);
});
