/**
 * What `torquil.json` may say, as one zod schema: settings are checked by it, and editors get its JSON schema.
 */
import * as z from "zod";
import { CONSTRUCTS } from "../../grammar";
import { LANGUAGES } from "../phrases/sheet";
import { pageByCode } from "../rules";
import { ALL_CODES } from "./codes";

/** The verbs that can raise a hazard: those of the acts. */
const VERBS = CONSTRUCTS.filter((construct) => construct.act).map((construct) => construct.id);

/** The severity a code may be given; its description is what the catalogue says of the code. */
function severityOf(code: string) {
  const severity = z.enum(["error", "warning", "hint", "off"]).optional();
  return severity.meta({ description: pageByCode(code)?.docs.what });
}

const hazard = z.strictObject({
  name: z
    .string()
    .regex(/^\p{L}[\p{L}\p{N}-]*$/u)
    .meta({ description: "Its name, as cautions use it: letters, digits and hyphens." }),
  title: z.string().min(1).meta({ description: "What it is called in messages." }),
  least: z
    .enum(["danger", "warning", "caution", "notice"])
    .meta({ description: "The least signal word a caution about it may have." }),
  verbs: z.array(z.enum(VERBS)).min(1).meta({ description: "Acts that raise it." }),
  things: z
    .array(z.string().min(1))
    .meta({ description: "Words: it arises at things whose name or title has one of them." }),
});

/** The whole file. Everything may be left out. */
export const settingsSchema = z
  .strictObject({
    $schema: z
      .string()
      .optional()
      .meta({ description: "The schema by which an editor completes this file." }),
    severities: z
      .strictObject(Object.fromEntries(ALL_CODES.map((code) => [code, severityOf(code)])))
      .optional()
      .meta({ description: "How grave each code is in this project; off silences it." }),
    hazards: z
      .array(hazard)
      .optional()
      .meta({ description: "Hazards of the house, beside those of the machine files." }),
    paper: z.enum(["a4", "letter"]).optional().meta({ description: "The paper sheets are printed on: a4." }),
    language: z
      .enum(LANGUAGES)
      .optional()
      .meta({ description: "The language of the words the sheet adds: en." }),
    units: z
      .enum(["both", "metric", "imperial"])
      .optional()
      .meta({ description: "The units that sheets show: both." }),
    skip: z
      .array(z.string().min(1))
      .optional()
      .meta({ description: "Files and folders that are not looked at, as patterns from this folder." }),
    baseline: z
      .string()
      .min(1)
      .optional()
      .meta({ description: "The baseline file, from this folder: findings in it are hidden by `check`." }),
  })
  .meta({ title: "Settings of a Torquil project", description: "torquil.json, in the project's folder" });

export type SettingsFile = z.infer<typeof settingsSchema>;

/** The JSON schema of `torquil.json`, as a text to be written to a file. */
export function settingsJsonSchema(): string {
  return `${JSON.stringify(z.toJSONSchema(settingsSchema), null, 2)}\n`;
}
