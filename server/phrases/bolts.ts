/**
 * What is said of a bolt's thread, class, friction and force, in English: shared by findings and hover.
 */
export const BOLT_PHRASES = {
  "state.dry": "dry",
  "state.oiled": "oiled",
  "state.paste": "with a lubricant that may hold solids",
  "state.locked": "with thread lock",
  "state.as-supplied": "as supplied",
  "state.unsaid": "dry or oiled not said",
  assumed: "{bolt}, {state}, taken as µ {low} to {high}",
  range: "{low} to {high}",
  newtons: "{figure} N",
  kilonewtons: "{figure} kN",
  percent: "{figure} %",
} as const;

export type BoltPhrase = keyof typeof BOLT_PHRASES;

/** A phrase with its arguments filled in. */
export function boltPhrase(id: BoltPhrase, args: Readonly<Record<string, string>> = {}): string {
  return BOLT_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
