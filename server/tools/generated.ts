/**
 * The files that are made from others: where each stands, and how it is made. A test compares them with what stands there.
 */
import { checkJsonSchema } from "../cli/check-schema";
import { compareJsonSchema } from "../cli/compare-schema";
import { settingsJsonSchema } from "../project/settings-schema";
import { PAGES } from "../rules";
import { catalogue } from "./catalogue";
import { textMateGrammar } from "./textmate";

/** A generated file. */
export interface Generated {
  /** From the root of the checkout, with `/` between folders. */
  readonly path: string;
  readonly make: () => string;
}

export const GENERATED: readonly Generated[] = [
  { path: "server/rules/CATALOGUE.md", make: () => catalogue(PAGES) },
  { path: "server/project/torquil.schema.json", make: settingsJsonSchema },
  { path: "server/cli/check.schema.json", make: checkJsonSchema },
  { path: "server/cli/compare.schema.json", make: compareJsonSchema },
  { path: "grammar/torquil.tmLanguage.json", make: textMateGrammar },
];
