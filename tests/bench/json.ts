/**
 * The same job for the peer: as JSON, with a schema that says of each value what may stand there.
 */
import { getLanguageService, type JSONSchema, TextDocument } from "vscode-json-languageservice";
import { STEPS_A_STATION } from "./procedure";

/** The peer with the job open in it. */
export interface Peer {
  readonly size: number;
  /** Makes the edit in the middle, or takes it back, and gives the number of findings. */
  readonly edit: () => Promise<number>;
}

const URI = "file:///row.json";

/** Reads the job of so many steps for the first time. */
export async function openPeer(steps: number): Promise<Peer> {
  const service = getLanguageService({});
  service.configure({
    validate: true,
    schemas: [{ uri: "schema:row", fileMatch: ["*.json"], schema: SCHEMA }],
  });
  let text = printJson(jobOf(steps), 100);
  const lines = text.split("\n");
  const middle = lines.findIndex((line) =>
    line.includes(`"end-float-${Math.ceil(steps / STEPS_A_STATION / 2)}"`),
  );
  const line = lines.findIndex((l, at) => at > middle && l.includes('"low": 0.05'));
  const character = (lines[line] as string).indexOf("0.05") + 2;
  let document = TextDocument.create(URI, "json", 1, text);
  let wrong = false;
  const check = async (): Promise<number> =>
    (await service.doValidation(document, service.parseJSONDocument(document))).length;
  const size = text.length;
  text = "";
  await check();
  return {
    size,
    edit: () => {
      const range = { start: { line, character }, end: { line, character: character + 1 } };
      wrong = !wrong;
      document = TextDocument.update(document, [{ range, text: wrong ? "9" : "0" }], document.version + 1);
      return check();
    },
  };
}

/** JSON as formatters print it: what fits into the width stands on one line. */
export function printJson(value: unknown, width: number, indent = ""): string {
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const isList = Array.isArray(value);
  const parts = Object.entries(value).map(
    ([key, inner]) => (isList ? "" : `${JSON.stringify(key)}: `) + printJson(inner, width, `${indent}  `),
  );
  const [open, close] = isList ? ["[", "]"] : ["{ ", " }"];
  const flat = open + parts.join(", ") + close;
  if (indent.length + flat.length <= width && !flat.includes("\n")) return flat;
  return `${open.trim()}\n${parts.map((part) => `${indent}  ${part}`).join(",\n")}\n${indent}${close.trim()}`;
}

function jobOf(steps: number): unknown {
  const numbers = Array.from({ length: Math.ceil(steps / STEPS_A_STATION) }, (_, i) => i + 1);
  return {
    language: 1,
    machine: { name: "row", title: "Row of pumps", things: numbers.flatMap(thingsOf) },
    procedure: {
      name: "renew",
      title: "Renew the seals of all pumps",
      kit: numbers.flatMap((n) => [
        { thing: `seal-${n}`, count: 1, number: `S-${n}` },
        { thing: `pump-bolts-${n}`, count: 4, number: `B-${n}` },
      ]),
      tools: [{ name: "torque-wrench", title: "Torque wrench", range: { low: 10, high: 100, unit: "N·m" } }],
      sections: numbers.map((n) => ({ title: `Pump ${n}`, steps: stepsOf(n) })),
    },
  };
}

function thingsOf(n: number): unknown[] {
  const bolts = { thread: "M10", class: "10.9", state: "oiled", count: 4 };
  return [
    {
      kind: "part",
      name: `cover-${n}`,
      title: `Cover of pump ${n}`,
      weight: { value: 4, unit: "kg" },
      behind: [],
    },
    {
      kind: "part",
      name: `pump-${n}`,
      title: `Pump ${n}`,
      weight: { value: 9, unit: "kg" },
      behind: [`cover-${n}`],
    },
    {
      kind: "part",
      name: `seal-${n}`,
      title: `Seal of pump ${n}`,
      behind: [`pump-${n}`],
      renew: "every time",
    },
    {
      kind: "fastener",
      name: `cover-bolts-${n}`,
      title: `Cover bolts of pump ${n}`,
      secures: [`cover-${n}`],
      ...bolts,
      stages: [{ value: 22, unit: "N·m" }],
    },
    {
      kind: "fastener",
      name: `pump-bolts-${n}`,
      title: `Bolts of pump ${n}`,
      secures: [`pump-${n}`],
      ...bolts,
      stages: [
        { name: "snug", value: 20, unit: "N·m" },
        { name: "final", value: 90, unit: "°" },
      ],
      renew: "every time",
    },
  ];
}

function stepsOf(n: number): unknown[] {
  const step = (name: string, title: string, text: string, ...acts: unknown[]): unknown => ({
    kind: "step",
    name: `${name}-${n}`,
    title,
    text,
    acts,
  });
  const act = (verb: string, what: string, more: object = {}): unknown => ({
    verb,
    what: [`${what}-${n}`],
    ...more,
  });
  return [
    step(
      "open",
      `Open the cover of pump ${n}`,
      "The cover is light, but its edge is sharp: put gloves on before you take hold of it.",
      act("remove", "cover-bolts"),
      act("remove", "cover"),
    ),
    step(
      "unbolt",
      `Unbolt pump ${n}`,
      "Turn the bolts out a little at a time, crosswise.",
      act("loosen", "pump-bolts", { order: "crosswise" }),
      act("remove", "pump-bolts", { fate: "discard" }),
    ),
    step(
      "lift",
      `Lift pump ${n} out`,
      "Hold the pump with both hands.",
      act("remove", "pump"),
      act("remove", "seal", { fate: "discard" }),
    ),
    step(
      "clean",
      `Clean the faces of pump ${n}`,
      "Wipe both faces with a clean cloth.",
      act("clean", "pump"),
      act("clean", "cover"),
    ),
    {
      kind: "check",
      name: `end-float-${n}`,
      title: `End float of pump ${n}`,
      text: "Push the shaft fully in before you set the gauge.",
      limit: { low: 0.05, high: 0.15, unit: "mm", with: ["dial-gauge"] },
      record: true,
      outcomes: [
        { outcome: "over", end: "The pump is worn: renew it." },
        { outcome: "under", end: "The bearing is seized: renew the pump." },
      ],
    },
    step(
      "seat",
      `Fit the new seal of pump ${n}`,
      "The lip points to the fluid.",
      act("fit", "seal", { age: "new" }),
    ),
    step(
      "place",
      `Put pump ${n} back`,
      "Turn the shaft a little while you push.",
      act("fit", "pump"),
      act("lubricate", "pump-bolts", { with: ["engine-oil"] }),
      act("fit", "pump-bolts", { age: "new", how: "by hand" }),
    ),
    step(
      "tighten",
      `Tighten pump ${n}`,
      "Snug all four crosswise.",
      act("tighten", "pump-bolts", {
        stages: [
          { stage: "snug", with: ["torque-wrench"] },
          { stage: "final", with: ["angle-gauge"] },
        ],
      }),
    ),
    step(
      "close",
      `Close the cover of pump ${n}`,
      "The arrow on the cover points to the drive end.",
      act("fit", "cover"),
      act("fit", "cover-bolts", { how: "by hand" }),
    ),
    step(
      "finish",
      `Tighten the cover of pump ${n}`,
      "Go round twice.",
      act("tighten", "cover-bolts", { with: ["torque-wrench"] }),
    ),
  ];
}

const name: JSONSchema = { type: "string", pattern: "^[a-z][a-z0-9-]*$" };
const names: JSONSchema = { type: "array", items: name };
const text: JSONSchema = { type: "string", minLength: 1 };
const unit: JSONSchema = { enum: ["N·m", "lb·ft", "°", "mm", "in", "kg", "lb", "L", "bar", "°C"] };
const figure: JSONSchema = { type: "number", minimum: -273, maximum: 100000 };
const object = (properties: Record<string, JSONSchema>, required: string[]): JSONSchema => ({
  type: "object",
  properties,
  required,
  additionalProperties: false,
});
const list = (items: JSONSchema): JSONSchema => ({ type: "array", items });
const quantity = object({ value: figure, unit }, ["value", "unit"]);
const range = object({ low: { ...figure, maximum: 10 }, high: figure, unit }, ["low", "high", "unit"]);
const limit = object({ low: { ...figure, maximum: 0.5 }, high: figure, unit, with: names }, [
  "low",
  "high",
  "unit",
]);

const thing: JSONSchema = object(
  {
    kind: { enum: ["part", "fastener", "fluid", "shaft", "belt"] },
    name,
    title: text,
    weight: quantity,
    behind: names,
    secures: names,
    thread: { type: "string", pattern: "^M[0-9]+( x [0-9.]+)?$" },
    class: { enum: ["8.8", "10.9", "12.9"] },
    state: { enum: ["dry", "oiled", "locked"] },
    count: { type: "integer", minimum: 1 },
    renew: { enum: ["every time", "when damaged"] },
    stages: list(object({ name, value: figure, unit }, ["value", "unit"])),
  },
  ["kind", "name", "title"],
);
const act: JSONSchema = object(
  {
    verb: { enum: ["remove", "fit", "loosen", "tighten", "clean", "lubricate", "drain", "fill"] },
    what: { ...names, minItems: 1 },
    with: names,
    fate: { enum: ["keep", "discard"] },
    order: { enum: ["crosswise", "from the middle out"] },
    age: { enum: ["new", "old"] },
    how: { enum: ["by hand", "loosely"] },
    stages: list(object({ stage: name, with: names }, ["stage"])),
  },
  ["verb", "what"],
);
const step: JSONSchema = object(
  {
    kind: { enum: ["step", "check"] },
    name,
    title: text,
    text,
    acts: list(act),
    limit,
    record: { type: "boolean" },
    outcomes: list(
      object({ outcome: { enum: ["over", "under", "met", "not met", "yes", "no"] }, end: text }, ["outcome"]),
    ),
  },
  ["kind", "name", "title"],
);

const SCHEMA: JSONSchema = object(
  {
    language: { const: 1 },
    machine: object({ name, title: text, things: list(thing) }, ["name", "title", "things"]),
    procedure: object(
      {
        name,
        title: text,
        kit: list(
          object({ thing: name, count: { type: "integer", minimum: 1 }, number: text }, ["thing", "count"]),
        ),
        tools: list(object({ name, title: text, range }, ["name", "title"])),
        sections: list(object({ title: text, steps: list(step) }, ["title", "steps"])),
      },
      ["name", "title", "sections"],
    ),
  },
  ["language", "machine", "procedure"],
);
