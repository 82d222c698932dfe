/**
 * Lays out the work: sections, steps, checks with their outcomes, and all that stands in them.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import { base, LINE_BREAK, plain, runs, sayWithSteps, stage, strong, text, tick, ticks } from "./atoms";
import type {
  Action,
  Condition,
  Drawing,
  Each,
  Lead,
  Measure,
  Outcome,
  OutcomeName,
  Section,
  Step,
  Wait,
  Work,
} from "./blocks";
import type { Atom, Field, Frame, Line, Node, Panel, Picture, Step as StepNode, Table } from "./nodes";
import { row, table } from "./tables";

/** Gives out the letters of a step's acts: a, b, … z, aa. Outside a step acts have none. */
type Letters = () => string;

const NO_LETTERS: Letters = () => "";

function letters(): Letters {
  let given = 0;
  return () => {
    let letter = "";
    for (let rest = given; rest >= 0; rest = Math.floor(rest / 26) - 1) {
      letter = String.fromCharCode(97 + (rest % 26)) + letter;
    }
    given += 1;
    return letter;
  };
}

/** A section: its heading and what stands in it. */
export function section(language: Language, block: Section): Node[] {
  return [
    { kind: "heading", ...base(block), level: 2, text: block.title, look: "section" },
    ...all(language, block.blocks, NO_LETTERS),
  ];
}

function all(language: Language, works: readonly (Work | Step)[], next: Letters): Node[] {
  return works.flatMap((work) => one(language, work, next));
}

function one(language: Language, work: Work | Step, next: Letters): Node[] {
  switch (work.kind) {
    case "step":
    case "check":
      return [step(language, work)];
    case "action":
      return [action(language, work, next())];
    case "panel":
      return [panel(language, work)];
    case "wait":
      return [wait(language, work)];
    case "measure":
      return [measure(language, work)];
    case "look":
      return [line(work, "question", runs(work.question))];
    case "prose":
      return [line(work, "prose", runs(work.runs))];
    case "note":
      return [line(work, "note", [strong(say(language, "note")), text("  "), ...runs(work.runs)])];
    case "figure":
      return [picture(work, work.type, work.bytes)];
    case "drawing":
      return [drawing(work)];
    case "condition":
      return [condition(language, work, next)];
    case "each":
      return [each(language, work, next)];
  }
}

function line(item: { id: string; changed?: true }, look: Line["look"], atoms: readonly Atom[]): Line {
  return { kind: "line", ...base(item), look, mark: "", atoms };
}

function step(language: Language, work: Step): StepNode {
  const next = letters();
  return {
    kind: "step",
    ...base(work),
    check: work.kind === "check",
    number: work.number,
    title: work.title,
    badge: work.kind === "check" ? say(language, "check") : "",
    tick: tick(`${work.id}.done`, say(language, "done", { number: work.number }), "", "large"),
    body: [
      ...all(language, work.body, next),
      ...work.outcomes.map((each) => outcome(language, work, each, next)),
    ],
  };
}

function action(language: Language, work: Action, letter: string): Line {
  const sentence = runs(work.sentence);
  const name = plain(sentence);
  const badges: Atom[] = [
    ...(work.leftHand
      ? [{ kind: "badge", text: say(language, "left-hand-long"), look: "solid" } as const]
      : []),
    ...(work.people === undefined
      ? []
      : [
          {
            kind: "badge",
            text: say(language, "people-needed", { count: String(work.people) }),
            look: "solid",
          } as const,
        ]),
  ];
  return {
    ...line(work, "act", [
      ...sentence,
      ...badges.flatMap((badge) => [text(" "), badge]),
      ...spaced(ticks(work.id, name, work.boxes ?? [])),
      ...tighteningLines(language, work, name),
    ]),
    mark: letter,
  };
}

/** A line for the order of the bolts and one for every stage, each with its boxes. */
function tighteningLines(language: Language, work: Action, name: string): Atom[] {
  const how = work.tightening;
  if (how === undefined) return [];
  const order: Atom[] =
    how.order === undefined
      ? []
      : [LINE_BREAK, text(say(language, "order", { order: plain(runs(how.order)) }))];
  const stages = how.stages.flatMap((of, index) => [
    LINE_BREAK,
    ...stage(language, of),
    ...spaced(ticks(`${work.id}.stage${index + 1}`, `${name} ${of.name ?? ""} ${of.value.value}`, how.boxes)),
  ]);
  return [...order, ...stages];
}

function spaced(atoms: readonly Atom[]): Atom[] {
  return atoms.flatMap((atom) => [text("  "), atom]);
}

function panel(language: Language, work: Extract<Work, { kind: "panel" }>): Panel {
  return {
    kind: "panel",
    ...base(work),
    signal: work.signal,
    word: say(language, `signal.${work.signal}`),
    hazard: runs(work.hazard),
    consequence: runs(work.consequence),
    avoid: runs(work.avoid),
  };
}

/** A wait has boxes for when it began and when it may end, or one for what is measured before going on. */
function wait(language: Language, work: Wait): Frame {
  const name = plain(runs(work.sentence));
  const write = (part: string, word: SheetWord, more: Partial<Field>): Atom[] => [
    text(`${say(language, word)} `),
    {
      kind: "field",
      id: `${work.id}.${part}`,
      name: `${name}: ${say(language, word)}`,
      size: "short",
      input: "time",
      unit: "",
      ...more,
    },
  ];
  const time =
    work.minutes === undefined
      ? []
      : [
          ...write("start", "wait-started", {}),
          text("   "),
          ...write("earliest", "wait-earliest", {
            after: { field: `${work.id}.start`, minutes: work.minutes },
          }),
        ];
  const until =
    work.until === undefined
      ? []
      : [
          ...write("value1", "measured", { input: "number", unit: work.until.unit, range: work.until.range }),
          text("  ("),
          ...runs(work.until.limit),
          text(")"),
        ];
  return {
    kind: "frame",
    ...base(work),
    look: "wait",
    head: [
      tick(`${work.id}.box`, name),
      ...runs(work.sentence),
      ...(time.length > 0 ? [LINE_BREAK, ...time] : []),
      ...(until.length > 0 ? [LINE_BREAK, ...until] : []),
    ],
    body: [],
  };
}

function measure(language: Language, work: Measure): Table {
  const values = work.places.flatMap((place, index): Atom[] => [
    ...(index > 0 ? [text("  ")] : []),
    ...(place === "" ? [] : [text(`${place} `)]),
    {
      kind: "field",
      id: `${work.id}.value${index + 1}`,
      name: `${say(language, "measured")} ${plain(runs(work.what))} ${place}`.replace(/\s+/g, " ").trim(),
      size: "short",
      input: "number",
      unit: work.unit,
      range: work.range,
    },
  ]);
  const all: readonly (readonly [SheetWord, number, readonly Atom[]])[] = [
    ["column.what", 3, runs(work.what)],
    ["column.limit", 3, runs(work.limit)],
    ["column.measured", 4, values],
    ["column.temperature", 2.4, runs(work.temperature)],
    ["column.instrument", 2.8, runs(work.instrument)],
  ];
  const kept = all.filter(([, , cell]) => cell.length > 0);
  return {
    ...table(language, {
      id: work.id,
      head: "measured",
      columns: kept.map(([word, width]) => [word, width]),
      tall: true,
      rows: [row(work, ...kept.map(([, , cell]) => cell))],
    }),
  };
}

/** Outcomes of a measured limit are named after the limit, those of a look after what is seen. */
function outcome(language: Language, check: Step, of: Outcome, next: Letters): Frame {
  const name = outcomeWord(language, of.outcome);
  const lead = leadLine(language, of);
  const body = all(language, of.body, next);
  return {
    kind: "frame",
    ...base(of),
    look: "outcome",
    head: [
      tick(`${of.id}.box`, `${check.title}: ${name}`),
      ...(of.outcome === "choice" ? [] : [strong(name)]),
      ...(of.text === undefined ? [] : [...(of.outcome === "choice" ? [] : [text(": ")]), ...runs(of.text)]),
      ...(body.length === 0 ? [text("  "), ...lead] : []),
    ],
    body: body.length === 0 ? [] : [...body, { ...line({ id: `${of.id}.lead` }, "lead", lead) }],
    ...(of.range === undefined ? {} : { range: of.range }),
  };
}

function outcomeWord(language: Language, name: OutcomeName): string {
  return say(language, `outcome.${name}`);
}

/** `→` and where it leads; a bounded return has a box for each time it may be taken. */
function leadLine(language: Language, of: Outcome): Atom[] {
  return [text("→ "), ...leadWords(language, of.lead, of.id)];
}

function leadWords(language: Language, lead: Lead, id: string): Atom[] {
  switch (lead.kind) {
    case "go-on":
      return lead.next === undefined
        ? [strong(say(language, "lead.go-on"))]
        : sayWithSteps(language, "lead.go-on-to", { step: lead.next });
    case "go-to":
      return sayWithSteps(language, "lead.go-to", { step: lead.to });
    case "check-again":
      return [
        ...sayWithSteps(language, "lead.check-again", { step: lead.to }),
        ...returns(language, lead.times, id),
      ];
    case "repeat":
      return [
        ...sayWithSteps(language, "lead.repeat", { step: lead.to, back: lead.back }),
        ...returns(language, lead.times, id),
      ];
    case "end":
      return [strong(say(language, "lead.end")), text(": "), ...runs(lead.reason)];
  }
}

/** More returns than this have no boxes; the number is said. */
const MOST_RETURN_BOXES = 5;

function returns(language: Language, times: number, id: string): Atom[] {
  const bound =
    times === 1
      ? say(language, "lead.at-most-once")
      : say(language, "lead.at-most", { times: String(times) });
  const labels = Array.from({ length: times > MOST_RETURN_BOXES ? 0 : times }, (_, index) =>
    say(language, "return", { number: String(index + 1) }),
  );
  return [text(`, ${bound}`), ...spaced(ticks(`${id}.return`, "", labels))];
}

function condition(language: Language, work: Condition, next: Letters): Frame {
  const words = work.otherwise ? "otherwise" : "only-when";
  return {
    kind: "frame",
    ...base(work),
    look: "condition",
    head: [
      tick(`${work.id}.box`, `${say(language, words)} ${plain(runs(work.when))}`),
      strong(say(language, words)),
      text(" "),
      ...runs(work.when),
    ],
    body: all(language, work.body, next),
  };
}

function each(language: Language, work: Each, next: Letters): Frame {
  const name = `${say(language, "for-each")} ${plain(runs(work.over))}`;
  return {
    kind: "frame",
    ...base(work),
    look: "each",
    head: [
      strong(say(language, "for-each")),
      text(" "),
      ...runs(work.over),
      text(":"),
      ...spaced(ticks(work.id, name, work.things)),
    ],
    body: all(language, work.body, next),
  };
}

/** A drawing as a picture: its SVG text goes into base 64 as a picture file does. */
export function drawing(work: Drawing): Picture {
  return picture(work, "image/svg+xml", base64(new TextEncoder().encode(work.svg)));
}

function picture(
  work: Extract<Work, { kind: "figure" | "drawing" }>,
  type: Picture["type"],
  bytes: string,
): Picture {
  return { kind: "picture", ...base(work), type, bytes, alt: work.description, caption: runs(work.caption) };
}

function base64(bytes: Uint8Array): string {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}
