/**
 * Every rule, in the order of the catalogue. `npm run new-rule CODE` adds a line here.
 */
import type { Rule } from "./types";

export const RULES: readonly Rule[] = [];
