/**
 * Every code a finding can have.
 */
import { PAGES } from "../rules";

/** All codes in alphabetical order, each once. */
export const ALL_CODES: readonly string[] = [
  ...new Set(PAGES.flatMap((page) => [page.code, ...(page.alsoCodes ?? [])])),
].sort();
