/**
 * What the entries of a procedure say, typed: header, kit, tools, temporaries, conditions, checks, acts, cautions.
 * Pure functions of the entry, kept by entry; names are not yet bound.
 */
import type { Quantity } from "../units/quantity";
import {
  type At,
  type Child,
  clauseOf,
  clausesOf,
  countIn,
  type Detail,
  type Entry,
  hasClause,
  type NameAt,
  namesIn,
  namesOfClause,
  quantityIn,
  slotIn,
  textIn,
} from "./entry";
import { keptByEntry } from "./kept";

export interface Serials {
  readonly from: number;
  readonly to: number;
}

export interface Header {
  readonly machine: NameAt | null;
  readonly serials: readonly Serials[];
  readonly variants: readonly NameAt[];
  readonly documentNumber: string;
  readonly revisions: readonly {
    readonly mark: string;
    readonly date: string;
    readonly reason: string;
    readonly at: At;
  }[];
  readonly status: "draft" | "released" | null;
  readonly workingTime: Quantity | null;
  readonly qualification: string;
  readonly wear: readonly string[];
}

/** Reads the header lines of a procedure. */
export const headerOf = keptByEntry((entry: Entry): Header => {
  const first = (construct: string): Entry | undefined =>
    entry.children.find((c) => c.entry.construct === construct)?.entry;
  const on = first("on");
  return {
    machine: namesIn(on?.form, "machine")[0] ?? null,
    serials: on ? serialsOf(on) : [],
    variants: on ? namesOfClause(on, "only-on", "variants") : [],
    documentNumber: textIn(first("document")?.form, "number"),
    revisions: entry.children
      .filter((c) => c.entry.construct === "revision")
      .map(({ row, entry: { form } }) => ({
        mark: namesIn(form, "mark")[0]?.name ?? "",
        date: textIn(form, "date"),
        reason: textIn(form, "reason"),
        at: { row, span: form.at.span },
      })),
    status: (textIn(first("status")?.form, "status") || null) as Header["status"],
    workingTime: quantityIn(first("working-time")?.form, "time"),
    qualification: textIn(first("qualification")?.form, "who"),
    wear: entry.children.filter((c) => c.entry.construct === "wear").map((c) => textIn(c.entry.form, "what")),
  };
});

/** The serial ranges an entry states. */
export function serialsOf(entry: Entry): readonly Serials[] {
  return clausesOf(entry, "serial").map((d) => ({
    from: countIn(d, "from") ?? 0,
    to: countIn(d, "to") ?? Number.MAX_SAFE_INTEGER,
  }));
}

export interface KitItem {
  readonly thing: NameAt;
  readonly count: number;
  readonly number: string;
  /** `only if CHECK OUTCOME` or a condition. */
  readonly onlyIf: { readonly name: NameAt; readonly outcome: string } | null;
  readonly onlyOn: readonly NameAt[];
  readonly row: number;
  readonly entry: Entry;
}

export interface Kit {
  readonly number: string;
  readonly row: number;
  readonly items: readonly KitItem[];
}

/** Reads the kits of a procedure; rows are from the procedure's head. */
export const kitsOf = keptByEntry((entry: Entry): readonly Kit[] =>
  entry.children
    .filter((c) => c.entry.construct === "kit")
    .map((kit) => ({
      number: textIn(kit.entry.form, "number"),
      row: kit.row,
      items: kit.entry.children.flatMap((c) => itemOf(c, kit.row)),
    })),
);

function itemOf({ row, entry }: Child, kitRow: number): KitItem[] {
  const thing = namesIn(entry.form, "thing")[0];
  if (entry.construct !== "item" || !thing) return [];
  const onlyIf = clauseOf(entry, "only-if");
  const name = namesIn(onlyIf, "check")[0];
  return [
    {
      thing,
      count: countIn(entry.form, "count") ?? 1,
      number: textIn(entry.form, "number"),
      onlyIf: name ? { name, outcome: textIn(onlyIf, "outcome") } : null,
      onlyOn: namesOfClause(entry, "only-on", "variants"),
      row: kitRow + row,
      entry,
    },
  ];
}

/** How far an adapter reaches, at which angle, and the lever of its wrench; null is what could not be read. */
export interface AdapterFacts {
  readonly extension: Quantity | null;
  readonly lever: Quantity | null;
  /** Between adapter and wrench; `in-line` where it carries on straight from the wrench. */
  readonly angle: Quantity | "in-line" | null;
}

export interface ToolFacts {
  readonly range: Quantity | null;
  readonly rating: Quantity | null;
  readonly alternative: readonly NameAt[];
  /** An adapter that changes the setting: in line with the wrench or at an angle to it. */
  readonly adapter: AdapterFacts | null;
  readonly rightAngle: boolean;
  readonly impact: boolean;
  readonly provesDead: boolean;
}

/** Reads a tool. */
export const toolFacts = keptByEntry((entry: Entry): ToolFacts => {
  return {
    range: quantityIn(entry.form, "range"),
    rating: quantityIn(clauseOf(entry, "rating"), "rating"),
    alternative: namesOfClause(entry, "or-tool", "tool"),
    adapter: adapterIn(entry),
    rightAngle: hasClause(entry, "right-angle"),
    impact: hasClause(entry, "impact"),
    provesDead: hasClause(entry, "proves-dead"),
  };
});

function adapterIn(entry: Entry): AdapterFacts | null {
  const [inLine, angled] = [clauseOf(entry, "in-line"), clauseOf(entry, "angled")];
  const clause = angled ?? inLine;
  if (!clause) return null;
  const [extension, lever] = [quantityIn(clause, "extension"), quantityIn(clause, "lever")];
  return { extension, lever, angle: angled ? quantityIn(angled, "angle") : "in-line" };
}

/**
 * An adapter's figures for the balance of moments, in metres and radians: lever, reach, and the angle from the line of the wrench. Null
 * where one of them is not a value.
 */
export function leverageOf({
  extension,
  lever,
  angle,
}: AdapterFacts): readonly [number, number, number] | null {
  const turned = angle === "in-line" ? 0 : angle?.nominal?.si;
  if (!extension?.nominal || !lever?.nominal || turned === undefined) return null;
  return [lever.nominal.si, extension.nominal.si, turned];
}

export interface TemporaryFacts {
  readonly into: NameAt | null;
  readonly over: NameAt | null;
  readonly on: NameAt | null;
  readonly diameter: Quantity | null;
  readonly count: number;
}

/** Reads a temporary. */
export const temporaryFacts = keptByEntry(
  (entry: Entry): TemporaryFacts => ({
    into: namesOfClause(entry, "into", "thing")[0] ?? null,
    over: namesOfClause(entry, "over", "thing")[0] ?? null,
    on: namesOfClause(entry, "on-shaft", "shaft")[0] ?? null,
    diameter: quantityIn(clauseOf(entry, "diameter"), "diameter"),
    count: countIn(clauseOf(entry, "count"), "count") ?? 1,
  }),
);

export interface Act {
  /** The construct's id: `remove`, `fit`, `tighten` … */
  readonly verb: string;
  /** What it acts on, in the order said. */
  readonly what: readonly NameAt[];
  readonly words: readonly string[];
  /** Amount, angle, time or level, where the form has one. */
  readonly quantity: Quantity | null;
  readonly text: string;
  readonly tools: readonly NameAt[];
  readonly holding: NameAt | null;
  readonly holdingWith: readonly NameAt[];
  readonly never: readonly NameAt[];
  readonly people: number;
  readonly within: { readonly time: Quantity | null; readonly event: NameAt; readonly at: At } | null;
  readonly keep: boolean;
  readonly discard: boolean;
  readonly byHand: boolean;
  readonly loosely: boolean;
  readonly ownPlace: boolean;
  readonly wayRound: NameAt | null;
  /** `fit new`, `fit old`. */
  readonly age: "new" | "old" | null;
  readonly direction: "clockwise" | "anticlockwise" | null;
  /** `tighten … to STAGE`. */
  readonly toStage: NameAt | null;
  /** The stage lines of a tightening's block, each with its own tools. */
  readonly stages: readonly {
    readonly name: NameAt;
    readonly at: At;
    readonly tools: readonly NameAt[];
    readonly detail: Detail;
  }[];
  /** `wait … after STEP`. */
  readonly after: NameAt | null;
  /** `run … through`, `lay-on …`: the clips or pulleys in order. */
  readonly course: readonly NameAt[];
  readonly atMost: Quantity | null;
  /** `start … without PARTS`: left off on purpose. */
  readonly without: readonly NameAt[];
  readonly watchedBy: NameAt | null;
}

const WHAT_ROLES = ["what", "marks", "shaft", "belt", "tester", "thing"];

/** Reads an act. */
export const actOf = keptByEntry((entry: Entry): Act => {
  const { form } = entry;
  const holding = clauseOf(entry, "holding");
  const within = clauseOf(entry, "within-time");
  const event = namesIn(within, "event")[0];
  return {
    verb: entry.construct,
    what: WHAT_ROLES.flatMap((role) => namesIn(form, role)),
    words: form.words,
    quantity: form.slots.find((s) => s.quantity)?.quantity ?? null,
    text: form.slots.find((s) => s.role === "sign" || s.role === "text" || s.role === "source")?.text ?? "",
    tools: namesOfClause(entry, "with", "tools"),
    holding: namesIn(holding, "part")[0] ?? null,
    holdingWith: namesIn(holding, "tools"),
    never: namesOfClause(entry, "never", "tools"),
    people: countIn(clauseOf(entry, "by-people"), "people") ?? 1,
    within: within && event ? { time: quantityIn(within, "time"), event, at: within.at } : null,
    keep: hasClause(entry, "keep"),
    discard: hasClause(entry, "discard"),
    byHand: hasClause(entry, "by-hand"),
    loosely: hasClause(entry, "loosely"),
    ownPlace: hasClause(entry, "own-place"),
    wayRound: namesOfClause(entry, "way-round", "direction")[0] ?? null,
    age: form.words.includes("new") ? "new" : form.words.includes("old") ? "old" : null,
    direction: (textIn(form, "direction") || null) as Act["direction"],
    toStage: namesOfClause(entry, "to-stage", "stage")[0] ?? null,
    stages: clausesOf(entry, "stage").flatMap((detail) => {
      const name = namesIn(detail, "stage")[0];
      return name ? [{ name, at: detail.at, tools: namesIn(clauseOf(detail, "with"), "tools"), detail }] : [];
    }),
    after: namesIn(form, "event")[0] ?? null,
    course: [...namesIn(form, "clips"), ...namesIn(form, "parts")],
    atMost: quantityIn(clauseOf(entry, "at-most-time"), "time"),
    without: namesOfClause(entry, "without", "things"),
    watchedBy: namesOfClause(entry, "watched-by", "person")[0] ?? null,
  };
});

export interface Caution {
  readonly word: "danger" | "warning" | "caution" | "notice";
  readonly hazard: NameAt | null;
  readonly text: string;
  readonly can: string;
  readonly so: string;
}

/** Reads a caution. */
export const cautionOf = keptByEntry(
  (entry: Entry): Caution => ({
    word: entry.construct as Caution["word"],
    hazard: namesIn(entry.form, "hazard")[0] ?? null,
    text: entry.paragraphs.map((p) => p.text).join("\n\n"),
    can: textIn(clauseOf(entry, "can"), "harm"),
    so: textIn(clauseOf(entry, "so"), "avoid"),
  }),
);

export const CAUTION_WORDS: readonly string[] = ["danger", "warning", "caution", "notice"];

export interface Limit {
  readonly what: string;
  readonly value: Quantity | null;
  readonly temperature: Quantity | null;
  readonly held: Quantity | null;
  readonly tools: readonly NameAt[];
  readonly row: number;
  readonly entry: Entry;
}

export interface Choice {
  readonly name: NameAt;
  readonly value: Quantity | null;
  readonly title: string;
  readonly tools: readonly NameAt[];
  readonly row: number;
}

export interface Outcome {
  /** `over`, `under`, `met`, `not met`, `yes`, `no`, or a choice's name. */
  readonly outcome: string;
  /** Only when the returns are used up. */
  readonly still: boolean;
  readonly row: number;
  readonly entry: Entry;
}

export interface Check {
  readonly limits: readonly Limit[];
  readonly places: readonly string[];
  readonly marks: readonly NameAt[];
  readonly questions: readonly string[];
  readonly choices: readonly Choice[];
  readonly record: { readonly what: string } | null;
  readonly proves: readonly NameAt[];
  readonly outcomes: readonly Outcome[];
}

/** Reads a check; rows are from the check's head. */
export const checkOf = keptByEntry((entry: Entry): Check => {
  const all = (construct: string): readonly Child[] =>
    entry.children.filter((c) => c.entry.construct === construct);
  const record = all("record")[0];
  return {
    limits: all("limit").map(({ row, entry: e }) => ({
      what: textIn(e.form, "what"),
      value: quantityIn(e.form, "value"),
      temperature: quantityIn(clauseOf(e, "at-temperature"), "temperature"),
      held: quantityIn(clauseOf(e, "held"), "time"),
      tools: namesOfClause(e, "with", "tools"),
      row,
      entry: e,
    })),
    places: all("place").map((c) => textIn(c.entry.form, "where")),
    marks: all("marks").flatMap((c) => namesIn(c.entry.form, "marks")),
    questions: all("observe").map((c) => textIn(c.entry.form, "question")),
    choices: all("choose").flatMap(({ row, entry: e }) => {
      const name = namesIn(e.form, "choice")[0];
      return name
        ? [
            {
              name,
              value: quantityIn(e.form, "value"),
              title: textIn(e.form, "title"),
              tools: namesOfClause(e, "with", "tools"),
              row,
            },
          ]
        : [];
    }),
    record: record ? { what: textIn(record.entry.form, "what") } : null,
    proves: all("proves").flatMap((c) => namesIn(c.entry.form, "things")),
    outcomes: all("if").map(({ row, entry: e }) => ({
      outcome: textIn(e.form, "outcome"),
      still: e.form.words.includes("still"),
      row,
      entry: e,
    })),
  };
});

/** The outcomes a check can have by what it measures, sees or asks. */
export function possibleOutcomes(check: Check): readonly string[] {
  const outcomes: string[] = [];
  if (check.limits.length > 0) {
    outcomes.push("met", "not met");
    if (check.limits.some((l) => l.value === null || l.value.high !== null)) outcomes.push("over");
    if (check.limits.some((l) => l.value === null || l.value.low !== null)) outcomes.push("under");
  }
  if (check.marks.length > 0 && !outcomes.includes("met")) outcomes.push("met", "not met");
  if (check.questions.length > 0) outcomes.push("yes", "no");
  return [...outcomes, ...check.choices.map((c) => c.name.name)];
}

/** How often a return may be taken; null where nothing bounds it. */
export function timesOf(entry: Entry): number | null {
  return slotIn(entry.form, "times")?.count ?? null;
}
