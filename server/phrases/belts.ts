/**
 * What is worked out of a belt, chain, hose or cable, in English: templates, with `{name}` for what is put in.
 */
export const BELT_PHRASES = {
  missing: "Its path is not worked out: where or how large {things} is, is not said.",
  impossible: "Its path is not worked out: the places and sizes as they are said leave none.",
  unsound: "Round its pulleys as they are said there is no path that crosses nothing and runs into nothing.",
  path: "By the places of its pulleys the path is {way} long.",
  "path-length": "By the places of its pulleys the path is {way} long; its own length is {length}.",
  "path-range": "By the places of its pulleys the path is {way} long, {lengths} over the travel of {things}.",
  stopped: "{things} cannot go the whole travel: another pulley is in the way.",
  "fits-at": "At its {length} {things} stands at {share} of the travel from the slack end.",
  "too-long": "It is {by} too long for that.",
  "too-short": "It is {by} too short for that.",
  spans: "Spans: {spans}.",
  span: "{from} to {to} {length}",
  pulley: "{pulley}: {facts}.",
  turns: "turns {direction}",
  wrap: "{angle} of belt on it",
  "wrap-back": "{angle} of the belt’s back on it",
  mesh: "{teeth} teeth in mesh",
  untouched: "the tight belt stands {gap} clear of it",
  "runs-unsaid": "Which way it runs is not said: no shaft on it says how it turns.",
  "ratio-same": "One turn of {from} turns {to} by {turns}, the same way.",
  "ratio-against": "One turn of {from} turns {to} by {turns}, the other way.",
  "turns-one": "1 turn",
  "turns-part": "{count} turn",
  "turns-many": "{count} turns",
  "rounds-one": "gone round once",
  "rounds-many": "gone round {count} times",
  again: "Its printed marks meet those of its sprockets again when it has {rounds}: {turns}.",
  "turns-of": "{turns} of {shaft}",
  through: "Runs through {things}.",
  "from-to": "Runs from {from} to {to}.",
  "bend-radius": "Bend radius {value}.",
  "run-missing": "Its way is not worked out: where {things} lies is not said.",
  "run-ends": "Its whole way is not worked out: where its ends lie is not said.",
  run: "By the places of its clips and ends the way is {way} long, straight from each to the next.",
  "run-part":
    "By the places of its clips the way from the first to the last is {way} long, straight from each to the next.",
  slack: "Of its {length} that leaves {left} of slack.",
  "slack-needed": "Of its {length} that leaves {left} of slack, and {needed} is needed.",
  short: "Its {length} is {by} too short for that.",
  bend: "It bends most tightly at {clip}: {radius} at best.",
  straight: "It runs straight on at every clip.",
} as const;

export type BeltPhrase = keyof typeof BELT_PHRASES;

/** A phrase with its arguments filled in. */
export function beltPhrase(id: BeltPhrase, args: Readonly<Record<string, string>> = {}): string {
  return BELT_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
