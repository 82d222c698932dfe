/**
 * The rules as the rest of the house sees them.
 */
export { checkProject, DEFAULT_RULE_SETTINGS, type RuleSettings, walkOf } from "./engine";
export { RULES } from "./registry";
export * from "./types";
export { fill, findingText, PAGES, pageByCode, wordsOf } from "./words";
