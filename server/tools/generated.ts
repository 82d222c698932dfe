/**
 * The files that are made from others: where each stands, and how it is made. A test compares them with what stands there.
 */
import { readFileSync } from "node:fs";
import { checkJsonSchema } from "../cli/check-schema";
import { compareJsonSchema } from "../cli/compare-schema";
import { settingsJsonSchema } from "../project/settings-schema";
import { PAGES } from "../rules";
import { withActTable } from "./act-table";
import { catalogue } from "./catalogue";
import { textMateGrammar } from "./textmate";

/** A generated file. */
export interface Generated {
  /** From the root of the checkout, with `/` between folders. */
  readonly path: string;
  readonly make: () => string;
}

const REFERENCE = "grammar/README.md";

export const GENERATED: readonly Generated[] = [
  { path: "server/rules/CATALOGUE.md", make: () => catalogue(PAGES) },
  { path: "server/project/torquil.schema.json", make: settingsJsonSchema },
  { path: "server/cli/check.schema.json", make: checkJsonSchema },
  { path: "server/cli/compare.schema.json", make: compareJsonSchema },
  // Of the reference only its act table is made; the rest is written by hand.
  {
    path: REFERENCE,
    make: () => withActTable(readFileSync(new URL(`../../${REFERENCE}`, import.meta.url), "utf8")),
  },
  { path: "grammar/torquil.tmLanguage.json", make: textMateGrammar },
];
