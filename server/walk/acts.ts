/**
 * The act table: for every kind of thing how it can differ from its normal state, and for every act what it needs,
 * what it makes, whether it bears repeating and which hazards it raises. Common practice, no source. It is data, so
 * that a mechanic can read and correct it; a new act is added here alone. Hazards and facts are told in `hazards.ts`.
 */
import type { Fact, Hazard } from "./hazards";

/** How a thing can differ from normal. */
interface DepartureRow {
  readonly of: readonly string[];
  /** The word for it under `starts with` and `ends with`. */
  readonly said: string;
  /** The code that says it was left so when the job is done. */
  readonly left: string;
  /** The codes that say an act brings it about once more, or ends it where it is not. */
  readonly twice: string;
  readonly ended: string;
  /** Whether the machine must not be started while something is so. */
  readonly stopsStart: boolean;
}

const departure = (
  of: readonly string[],
  said: string,
  left: string,
  more: Partial<DepartureRow> = {},
): DepartureRow => ({
  of,
  said,
  left,
  twice: "done-already",
  ended: "done-already",
  stopsStart: false,
  ...more,
});

export const DEPARTURES = {
  off: departure(["part", "clip", "belt", "line"], "off", "part-left-off", {
    twice: "removed-twice",
    ended: "part-fitted-twice",
    stopsStart: true,
  }),
  disconnected: departure(["line"], "disconnected", "connection-left-open", { stopsStart: true }),
  open: departure(["line", "part"], "opened", "connection-left-open"),
  isolated: departure(["line", "part"], "isolated", "connection-left-open"),
  drained: departure(["fluid"], "drained", "not-refilled", { stopsStart: true }),
  supported: departure(["part", "machine"], "supported", "support-left"),
  raised: departure(["part", "machine"], "raised", "support-left"),
  running: departure(["part", "machine"], "running", "left-running"),
  in: departure(["temporary"], "inserted", "temporary-left-in"),
};

export type Departure = keyof typeof DEPARTURES;
export const DEPARTURE_NAMES = Object.keys(DEPARTURES) as readonly Departure[];

/** The states of a fastener: tight at the start and at the end. `at a stage` is one of the stages it declares. */
export const FASTENER_STATES = ["tight", "out", "by hand", "placed", "loose", "at a stage"] as const;

export interface ActRow {
  /** The departure it brings about, and the one it ends. */
  readonly makes?: Departure;
  readonly ends?: Departure;
  /** What it does to a fastener. */
  readonly fastener?: "out" | "placed" | "loose" | "tightened" | "set";
  /** What stands in front must be off, for everything the act can be done on or for the kinds named. */
  readonly reach?: boolean;
  /** What secures the thing must be out. */
  readonly released?: boolean;
  /** What a fastener secures must be on, where it secures one thing alone. */
  readonly clamps?: boolean;
  /** The fastener that locks it must be slackened. */
  readonly unlocked?: boolean;
  /** What is in the thing runs out: it must be drained before, or caught. */
  readonly emptied?: boolean;
  /** What the thing bears, and the thing itself where it is too heavy for one person, must be held. */
  readonly held?: boolean;
  /** The machine must be whole. */
  readonly whole?: boolean;
  /** What the supply is put on is a joint, open until the thing is fitted. */
  readonly opensJoint?: boolean;
  /** Whether doing it once more does no harm and no good. */
  readonly repeatable: boolean;
  /** Hazards, each with the fact that raises it. */
  readonly raises: readonly (readonly [Hazard, Fact])[];
}

const OPENED: ActRow["raises"] = [
  ["burn", "hot"],
  ["injection", "pressurised"],
  ["fire", "fuel"],
  ["chemical", "harmful contents"],
  ["electric-shock", "high-voltage"],
];
const SUPPLY: ActRow["raises"] = [["chemical", "harmful supply"]];
const LIFTED: ActRow["raises"] = [["crushing", "load"]];
const CHIPS: ActRow["raises"] = [["eye-injury", "work"]];
const once = (row: Omit<ActRow, "repeatable">): ActRow => ({ ...row, repeatable: false });
const again = (row: Omit<ActRow, "repeatable">): ActRow => ({ ...row, repeatable: true });

export const ACTS: Readonly<Record<string, ActRow>> = {
  remove: once({
    makes: "off",
    fastener: "out",
    reach: true,
    released: true,
    unlocked: true,
    emptied: true,
    held: true,
    raises: [
      ...OPENED,
      ...SUPPLY,
      ["crushing", "heavy"],
      ["crushing", "bearing"],
      ["stored-energy", "spring-loaded"],
    ],
  }),
  fit: once({ ends: "off", fastener: "placed", reach: true, raises: SUPPLY }),
  loosen: once({ fastener: "loose", reach: true, unlocked: true, raises: SUPPLY }),
  tighten: again({ fastener: "tightened", reach: true, clamps: true, unlocked: true, raises: SUPPLY }),
  support: once({ makes: "supported", raises: LIFTED }),
  release: once({ ends: "supported", raises: LIFTED }),
  raise: once({ makes: "raised", raises: LIFTED }),
  lower: once({ ends: "raised", raises: LIFTED }),
  connect: once({ ends: "disconnected", reach: true, raises: [["fire", "battery"]] }),
  disconnect: once({ makes: "disconnected", reach: true, emptied: true, raises: OPENED }),
  open: once({ makes: "open", reach: true, raises: OPENED }),
  close: once({ ends: "open", reach: true, raises: [] }),
  isolate: once({ makes: "isolated", raises: [] }),
  restore: once({ ends: "isolated", raises: [] }),
  drain: once({ makes: "drained", reach: true, raises: [...OPENED, ["chemical", "to dispose of"]] }),
  // Filling up what is short is no second filling.
  fill: again({ ends: "drained", raises: [["chemical", "harmful contents"]] }),
  bleed: again({ raises: OPENED }),
  clean: again({ raises: SUPPLY }),
  lubricate: again({ opensJoint: true, raises: SUPPLY }),
  seal: again({ opensJoint: true, raises: SUPPLY }),
  "lay-on": again({ raises: [] }),
  run: again({ raises: [] }),
  align: again({ reach: true, raises: [] }),
  turn: again({ raises: [["damage", "belt off"]] }),
  insert: once({ makes: "in", raises: [] }),
  pull: once({ ends: "in", raises: [["stored-energy", "held spring"]] }),
  label: again({ raises: [] }),
  wait: again({ raises: [] }),
  start: once({ makes: "running", whole: true, raises: [["entanglement", "guard off"]] }),
  stop: once({ ends: "running", raises: [] }),
  "run-in": again({ whole: true, raises: [["entanglement", "guard off"]] }),
  adjust: again({ fastener: "set", unlocked: true, raises: SUPPLY }),
  prove: again({ raises: [] }),
  press: once({ raises: [] }),
  grind: again({ raises: CHIPS }),
  drill: once({ raises: CHIPS }),
  chisel: again({ raises: CHIPS }),
  scrape: again({ raises: [["damage", "sealing face"]] }),
  "blow-out": again({ raises: CHIPS }),
  charge: again({ raises: [["fire", "battery"]] }),
  "throw-away": once({ raises: [["chemical", "to dispose of"]] }),
  "put-by": again({ raises: [] }),
  "hand-back": again({ raises: [] }),
};

/** The row of an act; an act without one does nothing. */
export function actRow(verb: string): ActRow {
  return ACTS[verb] ?? NOTHING;
}
const NOTHING: ActRow = { repeatable: true, raises: [] };
