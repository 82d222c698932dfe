/**
 * Two revisions of a project compared by meaning, its settings included; and what a change is in words.
 */
import { type CompareOptions, type Comparison, compareProjects, type Given } from "../compare";
import { PAGES } from "../rules";

export type { Given } from "../compare";
export {
  type Bars,
  barsOf,
  CHANGE_KINDS,
  type Change,
  type Comparison,
  type Edit,
  graver,
  type Lines,
  lineKey,
  RANKS,
  type Rank,
} from "../compare";
export { goneText, type Told, told, type Word, type Words } from "../compare/words";

/** The usual severity of every code. */
const SEVERITIES: Readonly<Record<string, string>> = Object.fromEntries(
  PAGES.flatMap(({ code, alsoCodes = [], severity }) => [code, ...alsoCodes].map((one) => [one, severity])),
);

/** Compares two revisions; a severity that is not set is the usual one. */
export function compareRevisions(
  before: Given,
  after: Given,
  options: Omit<CompareOptions, "severities"> = {},
): Comparison {
  return compareProjects(before, after, { ...options, severities: SEVERITIES });
}
