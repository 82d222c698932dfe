/**
 * The hazards of the trade: the weakest signal word that will do, what a caution says about it, and for every fact
 * that raises one what takes the fact away and what brings it back. Common practice, no source; the three parts of a
 * caution follow ANSI Z535.6 and ISO 3864-2. Data, to be read and corrected beside the act table.
 */

export type Hazard =
  | "burn"
  | "injection"
  | "crushing"
  | "stored-energy"
  | "electric-shock"
  | "fire"
  | "entanglement"
  | "eye-injury"
  | "chemical"
  | "damage";

export interface HazardRow {
  /** Other names a caution may use. */
  readonly alias: readonly string[];
  readonly least: "danger" | "warning" | "caution" | "notice";
  /** When it arises, for people. */
  readonly arises: string;
  /** The three parts of a caution, to start from. */
  readonly says: readonly [hazard: string, can: string, so: string];
}

export const HAZARDS: Readonly<Record<Hazard, HazardRow>> = {
  burn: {
    alias: ["scald"],
    least: "warning",
    arises: "the system of a hot fluid is opened",
    says: ["Hot fluid sprays out of an open system.", "Scald.", "Open nothing until it is cool."],
  },
  injection: {
    alias: [],
    least: "warning",
    arises: "the system of a fluid under pressure is opened",
    says: [
      "Fluid under pressure goes through the skin.",
      "Poison, and cost a hand.",
      "Relieve the pressure first and keep hands away from the joint.",
    ],
  },
  crushing: {
    alias: [],
    least: "warning",
    arises: "a part over 15 kg or one that bears a load comes off, or a load is lifted or supported",
    says: [
      "The part is heavy.",
      "Crush hands or feet.",
      "Lift with suitable gear and keep out from under it.",
    ],
  },
  "stored-energy": {
    alias: [],
    least: "warning",
    arises: "a spring-loaded part is let go",
    says: ["The part is spring-loaded.", "Crush a finger.", "Hold it and let it move slowly."],
  },
  "electric-shock": {
    alias: ["shock"],
    least: "danger",
    arises: "a part under high voltage is opened or disconnected",
    says: ["The part is under high voltage.", "Kill.", "Isolate it, secure it and prove that it is dead."],
  },
  fire: {
    alias: ["explosion"],
    least: "warning",
    arises: "a fuel system is opened, or a battery is connected or charged",
    says: [
      "A spark can light vapour or gas.",
      "Burn, and explode.",
      "Keep flames and sparks away and air the room.",
    ],
  },
  entanglement: {
    alias: [],
    least: "warning",
    arises: "a machine is started with a guard off",
    says: [
      "The machine runs without its guard.",
      "Catch hair, hands and clothes.",
      "Keep away from moving parts.",
    ],
  },
  "eye-injury": {
    alias: [],
    least: "warning",
    arises: "grinding, drilling, chiselling, or compressed air is used",
    says: ["Chips fly.", "Cost an eye.", "Wear goggles."],
  },
  chemical: {
    alias: [],
    least: "caution",
    arises: "a harmful supply is used, or a harmful fluid is let out",
    says: [
      "The substance is harmful.",
      "Hurt skin, eyes or lungs.",
      "Wear gloves and goggles and air the room.",
    ],
  },
  damage: {
    alias: [],
    least: "notice",
    arises:
      "an impact wrench is ruled out, a shaft is turned with its belt off, or a sealing face is scraped",
    says: ["The part is easily damaged.", "Ruin the part.", "Work with care."],
  },
};

/** A part heavier than this is heavy, in kilograms. */
export const HEAVY = 15;

export type Fact =
  | "hot"
  | "pressurised"
  | "fuel"
  | "harmful contents"
  | "to dispose of"
  | "harmful supply"
  | "high-voltage"
  | "battery"
  | "heavy"
  | "load"
  | "bearing"
  | "spring-loaded"
  | "held spring"
  | "guard off"
  | "belt off"
  | "work"
  | "sealing face"
  | "impact barred";

export interface FactRow {
  /** Acts on the thing after which the hazard is gone, and those that bring it back or make it arise afresh. */
  readonly quiet: readonly string[];
  readonly wakes: readonly string[];
  /** Acts on a machine that bring it back, or make it arise afresh. */
  readonly wakesAll: readonly string[];
  /** Whether the hazard is there at the start. */
  readonly atStart: boolean;
  /** It is raised although the hazard was gone: letting go is what brings it back. */
  readonly evenIfGone?: true;
  /** It is the same hazard as another fact's. */
  readonly as?: Fact;
}

const always: FactRow = { quiet: [], wakes: [], wakesAll: [], atStart: true };
/** What is filled in is cold and without pressure until the machine has run. */
const warm: FactRow = { ...always, quiet: ["drain"], wakesAll: ["start", "run-in"] };
const live: FactRow = {
  ...always,
  quiet: ["isolate", "disconnect", "remove"],
  wakes: ["restore", "connect", "fit"],
};
const spring: FactRow = { ...always, quiet: ["remove", "insert"], wakes: ["fit", "pull"] };
const missing: FactRow = { ...always, quiet: ["fit"], wakes: ["remove"], atStart: false };

export const FACTS: Readonly<Record<Fact, FactRow>> = {
  hot: warm,
  pressurised: warm,
  fuel: { ...always, quiet: ["drain"], wakes: ["fill"] },
  "harmful contents": always,
  "to dispose of": always,
  "harmful supply": always,
  "high-voltage": live,
  battery: { ...always, wakes: ["disconnect"] },
  heavy: { ...always, wakes: ["fit"] },
  load: always,
  bearing: { ...always, wakes: ["fit"] },
  "spring-loaded": spring,
  "held spring": { ...spring, evenIfGone: true, as: "spring-loaded" },
  "guard off": missing,
  "belt off": missing,
  work: always,
  "sealing face": always,
  "impact barred": always,
};

/** The hazard a caution's name means; its own name where it is not one of the trade. */
export function hazardNamed(name: string): string {
  for (const [hazard, row] of Object.entries(HAZARDS)) if (row.alias.includes(name)) return hazard;
  return name;
}
