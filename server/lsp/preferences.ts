/**
 * What the user of an editor likes to see, as its settings say.
 */
import type { InlayOptions } from "../features";

/** The editor's settings under `torquil`. */
export interface Preferences {
  readonly inlayHints: InlayOptions;
}

export const USUAL_PREFERENCES: Preferences = { inlayHints: { otherUnit: true, stepNumbers: true } };

/** The name that editors have for these settings. */
export const SECTION = "torquil";

type Loose = Readonly<Record<string, unknown>>;
const objectIn = (value: unknown, key: string): Loose => {
  const found = typeof value === "object" && value !== null ? (value as Loose)[key] : undefined;
  return typeof found === "object" && found !== null ? (found as Loose) : {};
};

/**
 * Reads settings as a client sends them: `{ inlayHints: { otherUnit, stepNumbers } }`, or that under `torquil`. What is
 * not said, or is no truth value, is as usual. Never throws.
 */
export function readPreferences(value: unknown): Preferences {
  const under = objectIn(value, SECTION);
  const hints = objectIn(Object.keys(under).length > 0 ? under : value, "inlayHints");
  const usual = USUAL_PREFERENCES.inlayHints;
  const flag = (key: keyof InlayOptions): boolean => {
    const said = hints[key];
    return typeof said === "boolean" ? said : usual[key];
  };
  return { inlayHints: { otherUnit: flag("otherUnit"), stepNumbers: flag("stepNumbers") } };
}
