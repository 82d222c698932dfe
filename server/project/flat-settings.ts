/**
 * The settings of a project, flat: each value under a key of its own, so that two revisions can be compared one by one.
 */
import type { Settings } from "./settings";

/** Every setting by its key, with dots between the levels; lists by what is in them. */
export function flatSettings(settings: Settings): Readonly<Record<string, string>> {
  const { rules, paper, language, units, skip, baseline } = settings;
  return Object.fromEntries([
    ...Object.entries(rules.severities).map(([code, severity]) => [`severities.${code}`, String(severity)]),
    ...rules.hazards.map((hazard) => [`hazards.${hazard.name}`, JSON.stringify(hazard)]),
    ["paper", paper],
    ["language", language],
    ["units", units],
    ...skip.map((pattern) => [`skip.${pattern}`, pattern]),
    ...(baseline === null ? [] : [["baseline", baseline]]),
  ]);
}
