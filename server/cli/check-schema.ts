/**
 * The shape of what `check --report json` prints, as one zod schema: the report is typed by it, and other programs get
 * its JSON schema. The shape is stable: `version` counts up when something in it changes its meaning or goes; new
 * members may come without that. Lines and characters count from 0, characters in UTF-16.
 */
import * as z from "zod";

const point = z.object({ line: z.int().min(0), character: z.int().min(0) });

const range = z
  .object({ start: point, end: point.meta({ description: "Not included." }) })
  .meta({ description: "Lines and characters count from 0, characters in UTF-16." });

const file = z.string().meta({
  description:
    "As seen from the folder the command was run in, with forward slashes; whole where it lies elsewhere.",
});

const fix = z.object({
  title: z.string(),
  safe: z.boolean().meta({ description: "It changes nothing that was meant." }),
  edits: z.array(z.object({ file, range, newText: z.string() })),
});

const finding = z.object({
  code: z.string().meta({ description: "`torquil explain CODE` tells what it means." }),
  severity: z.enum(["error", "warning", "hint"]),
  message: z.string(),
  hint: z.string().nullable().meta({ description: "What to write instead." }),
  file,
  range,
  related: z
    .array(z.object({ message: z.string(), file, range }))
    .meta({ description: "The other places that make it wrong." }),
  way: z
    .array(z.string())
    .meta({ description: "The decisions on the way there, where only some ways are wrong." }),
  fixes: z.array(fix),
  fingerprint: z
    .string()
    .meta({ description: "The same for the same fault, wherever its line has moved to." }),
});

const problem = z.object({
  file,
  message: z.string(),
  range: range.nullable().meta({ description: "null where it is about the file as a whole." }),
});

const counts = {
  errors: z.int().min(0),
  warnings: z.int().min(0),
  hints: z.int().min(0),
};

const baseline = z.object({
  hidden: z
    .object(counts)
    .meta({ description: "Findings that a baseline file records; they are in no other member." }),
  stale: z
    .array(z.object({ file, code: z.string(), message: z.string() }))
    .meta({ description: "What a baseline file records and is no longer found." }),
});

/** The whole report. */
export const checkSchema = z
  .object({
    version: z.literal(1),
    findings: z.array(finding).meta({ description: "In the order of files, then of places." }),
    problems: z
      .array(problem)
      .meta({ description: "Files, folders and settings that cannot be read, and links that lead astray." }),
    summary: z.object({ files: z.int().min(0), ...counts }).meta({
      description: "All findings but those that a baseline file hides; --quiet changes nothing here.",
    }),
    baseline: baseline.nullable().meta({ description: "null where there is no baseline file." }),
  })
  .meta({ title: "Report of torquil check, version 1" });

export type JsonReport = z.infer<typeof checkSchema>;
export type JsonFinding = JsonReport["findings"][number];
export type JsonRange = z.infer<typeof range>;
/** How many findings there are of each severity. */
export type Counts = NonNullable<JsonReport["baseline"]>["hidden"];

/** The JSON schema of the report, as a text to be written to a file. Members it does not name are allowed. */
export function checkJsonSchema(): string {
  return `${JSON.stringify(z.toJSONSchema(checkSchema, { io: "input" }), null, 2)}\n`;
}
