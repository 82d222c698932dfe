/** What a station of a generated job is, and what stations share. */

export interface Station {
  /** Lines of the machine file. */
  readonly machine: string;
  /** Lines of the header that are for this station alone: kit items, temporaries, conditions. */
  readonly items?: string;
  readonly head?: string;
  /** Steps and checks, as text at the margin. */
  readonly open: string;
  readonly close: string;
  /** It may stand under a condition; what it asks there is asked nowhere else. */
  readonly movable: boolean;
  /** While it is open no job may end: something hangs, or is pinned. */
  readonly risky?: boolean;
}

/** Tools and supplies that stations share; the header declares those that are named. */
export const TOOLS: Readonly<Record<string, string>> = {
  "torque-wrench": 'tool torque-wrench "Torque wrench"  10 to 60 N·m',
  "small-wrench": 'tool small-wrench "Small torque wrench"  2 to 12 N·m',
  crowfoot: 'tool crowfoot "Crowfoot spanner"  in-line 40 mm wrench 400 mm',
  "angle-gauge": 'tool angle-gauge "Angle gauge"',
  "dial-gauge": 'tool dial-gauge "Dial gauge"',
  feeler: 'tool feeler "Feeler gauges"',
  thermometer: 'tool thermometer "Thermometer"',
  tester: 'tool tester "Two-pole voltage tester"  proves-dead',
  holder: 'tool holder "Two-pin holder"',
  lever: 'tool lever "Lever"',
  "prop-stand": 'tool prop-stand "Stand"  rating 300 kg',
  degreaser: 'consumable degreaser "Degreaser"  harmful',
};

export const CAUTION = (word: string, hazard: string): string => `${word} ${hazard} {
"What stands here can hurt you."
can "Hurt a hand."
so "Keep your hands away until it is done."
}`;
