/**
 * The shape of what `compare --format json` prints, as one zod schema: the report is typed by it, and other programs get
 * its JSON schema. The shape is stable: `version` counts up when something in it changes its meaning or goes; new
 * members may come without that. Lines count from 0.
 */
import * as z from "zod";
import { CHANGE_KINDS, RANKS } from "../features/compare";

const file = z.string().meta({
  description:
    "As seen from the folder the command was run in, with forward slashes; whole where it lies elsewhere.",
});

const place = z
  .object({ file, line: z.int().min(0), endLine: z.int().min(0).meta({ description: "Included." }) })
  .nullable()
  .meta({ description: "Lines from 0; null where there is nothing on this side." });

const named = z.object({
  kind: z.string().meta({ description: "The word it is declared with: `fastener`, `step`." }),
  id: z.string().meta({ description: "Stays the same from one revision to the next while the name does." }),
  name: z.string().meta({ description: "Empty where it has a title only." }),
  title: z.string(),
});

const step = z
  .object({ number: z.int().min(1), title: z.string() })
  .meta({ description: "A step or check as printed." });

const piece = z
  .union([z.object({ text: z.string() }), z.object({ name: z.string(), title: z.string() })])
  .meta({ description: "Words, or a name with the title of what it means." });

const line = z.array(piece);

const value = z.union([
  z.object({ kind: z.literal("names"), names: z.array(z.string()) }),
  z.object({ kind: z.literal("text"), text: z.string() }),
  z.object({ kind: z.literal("count"), count: z.int().nullable() }),
  z.object({ kind: z.literal("holes"), holes: z.array(z.int()) }),
  z.object({
    kind: z.literal("quantity"),
    text: z.string().meta({ description: "In the usual spelling." }),
    shape: z
      .string()
      .meta({ description: "`exact`, `range`, `at-least` …; `unread` where it could not be read." }),
    low: z.number().nullable().meta({ description: "In SI units; null where that end is open." }),
    high: z.number().nullable(),
    ends: z.array(z.boolean()).length(2).meta({ description: "Whether each end is within." }),
    step: z.number().meta({ description: "One of the last written digit, in SI units; 0 for a fraction." }),
    system: z.string(),
  }),
  z.object({ kind: z.literal("point"), at: z.array(z.unknown()) }),
]);

const fact = z.object({
  line: line.meta({ description: "As the writer wrote it, with titles." }),
  what: z.string().meta({ description: "The word of the line, or of a clause with `+` before it." }),
  words: z.array(z.string()),
  values: z.array(z.object({ role: z.string(), value })),
});

const facts = z.array(fact).nullable().meta({ description: "null where there is nothing on this side." });

const effect = z.object({
  id: z.enum([
    "amount",
    "before",
    "after",
    "holds",
    "warns-of",
    "warned-of",
    "means-another",
    "means-nothing",
  ]),
  course: z.enum(["higher", "lower", "widened", "narrowed", "shifted"]).optional(),
  percent: z.number().nullable().optional(),
  act: line.optional(),
  others: z.array(line).optional(),
  more: z.int().optional().meta({ description: "How many beside `others`." }),
  names: z.array(z.string()).optional(),
});

const change = z.object({
  rank: z.enum(RANKS),
  kind: z.enum(CHANGE_KINDS),
  what: z.string().meta({
    description:
      "What it is about: the word of a line, of a clause with `+` before it, a group of clauses, or a settings key.",
  }),
  text: z.string().meta({ description: "The headline of the text report." }),
  concerns: named.nullable(),
  before: facts,
  after: facts,
  places: z.object({ before: place, after: place }),
  steps: z
    .object({ before: step.nullable(), after: step.nullable() })
    .meta({ description: "The printed step it lies in; null outside of steps." }),
  touches: z
    .array(z.object({ procedure: named, file, steps: z.array(step) }))
    .meta({ description: "Procedures it reaches, with the printed steps that name what has changed." }),
  does: z.array(effect),
});

/** The whole report. */
export const compareSchema = z
  .object({
    version: z.literal(1),
    before: z.string(),
    after: z.string(),
    changes: z.array(change).meta({ description: "By rank, safety first; then by file and line." }),
    problems: z
      .array(z.object({ file, message: z.string() }))
      .meta({ description: "What cannot be read on either side." }),
    summary: z.object({
      safety: z.int().min(0),
      content: z.int().min(0),
      wording: z.int().min(0),
      layout: z.int().min(0),
    }),
  })
  .meta({ title: "Report of torquil compare, version 1" });

export type CompareJson = z.infer<typeof compareSchema>;

/** The JSON schema of the report, as a text to be written to a file. Members it does not name are allowed. */
export function compareJsonSchema(): string {
  return `${JSON.stringify(z.toJSONSchema(compareSchema, { io: "input" }), null, 2)}\n`;
}
