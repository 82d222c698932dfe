/**
 * Fresh equals incremental: a project that is kept open through thousands of random happenings finds and tells what a
 * fresh start from the same texts finds and tells. Caches that are not renewed are planted to show that this is noticed.
 */
import { expect, test } from "vitest";
import { runSeries, type Series } from "./both-ways";
import { loadProgram, type Program } from "./program";
import { SETTINGS, type State } from "./random-edits";
import { MACHINE, PROCEDURE } from "./support";

/** A second procedure that uses the same machine, and hands a part of the work to a third. */
const SERVICE = `torquil 1

use "wren-4.torquil"

procedure service "Yearly service" {
  on wren-4
  tool torque-wrench "Torque wrench"  10 to 100 N·m
  consumable cleaner "Cleaner"
  symptom noise "It is noisy"

  section "All" {
    follow make-safe from "safe.torquil"
    step open "Open it" {
      remove cover-bolts, cover
    }
    when noise {
      step "Look at the belt" {
        clean pump  with cleaner
      }
    }
    check wear "Wear of the belt" {
      observe "Is the belt cracked?"
      if yes {
        end job "Renew the pump with its belt."
      }
    }
    step "Close it" {
      fit cover
      fit cover-bolts  by hand
      tighten cover-bolts  with torque-wrench
    }
  }
}
`;

const SAFE = `torquil 1

use "wren-4.torquil"

procedure make-safe "Make it safe" {
  on wren-4
  section "Safe" {
    step "Disconnect" {
      disconnect lead
    }
    step "Connect" {
      warning fire {
        "A spark can light the gas above a battery."
        can "Burn."
        so  "Air the room."
      }
      connect lead
    }
  }
}
`;

const FILES: Readonly<Record<string, string>> = {
  "wren-4.torquil": MACHINE,
  "renew.torquil": PROCEDURE,
  "service.torquil": SERVICE,
  "safe.torquil": SAFE,
  [SETTINGS]: "{}",
};

const START: State = {
  disk: new Map(Object.entries(FILES)),
  open: new Map(["renew.torquil", "wren-4.torquil"].map((file) => [file, FILES[file] ?? ""])),
};

const SETTINGS_TEXTS = [
  "{}",
  '{ "severities": { "tool-unused": "error", "unknown-name": "hint" } }',
  '{ "severities": { "unused-declaration": "off", "unknown-name": "off" } }',
  '{ "severities": { "no-such-code": "off" } }',
  '{ "hazards": [{ "name": "noise", "title": "Noise", "least": "notice", "verbs": ["remove"], "things": ["belt"] }] }',
  "{ broken",
];

const series = (seed: number, count: number): Series => ({
  start: START,
  settings: SETTINGS_TEXTS,
  seed,
  count,
  featuresEvery: 5,
});

const SEEDS = [20261125, 20261126, 20261127, 20261128, 20261129];

/** So many happenings a seed; `TORQUIL_HAPPENINGS=1000` for the long run. */
const HAPPENINGS = Number(process.env.TORQUIL_HAPPENINGS ?? 250);

test.each(SEEDS)(`${HAPPENINGS} happenings, seed %i`, async (seed) => {
  const kept = await loadProgram();
  // A fresh start shares the lines that were read with everything in its program, so now and then it is in a program of
  // its own, with nothing remembered.
  let other: Program = kept;
  const again = async (after: number): Promise<Program> => {
    if (after % 200 === 50) other = await loadProgram();
    return other;
  };
  const outcome = await runSeries(kept, again, series(seed, HAPPENINGS));
  expect(outcome.difference).toBeNull();
  expect(outcome.done).toBe(HAPPENINGS);
  expect(outcome.changed / outcome.done).toBeGreaterThan(0.3);
  expect(Object.keys(outcome.kinds).sort()).toEqual([
    "closed",
    "edit",
    "opened",
    "settings",
    "undo",
    "vanished",
    "written outside",
  ]);
});

/** Kept by something that stays the same when the key does not. */
const PLANTED: readonly [string, (key: object) => unknown][] = [
  ["by block", (key) => ("hasBlock" in key && "line" in key && key.hasBlock ? key.line : undefined)],
  ["by file", (key) => ("bindings" in key && "path" in key ? key.path : undefined)],
  ["by document", (key) => ("tree" in key && "lines" in key ? (key.lines as unknown[]).length : undefined)],
];

test.each(PLANTED)("a planted cache that is not renewed is found: %s", async (_, staleKey) => {
  const sound = await loadProgram();
  class Stale extends WeakMap<object, unknown> {
    private readonly old = new Map<unknown, unknown>();
    override get(key: object): unknown {
      const known = super.get(key);
      const by = staleKey(key);
      return known ?? (by === undefined ? undefined : this.old.get(by));
    }
    override set(key: object, value: unknown): this {
      const by = staleKey(key);
      if (by !== undefined && by !== null && !this.old.has(by)) this.old.set(by, value);
      return super.set(key, value);
    }
  }
  const stale = await loadProgram(Stale as unknown as WeakMapConstructor);
  const outcome = await runSeries(stale, () => sound, series(1, 1000));
  expect(outcome.difference).not.toBeNull();
});
