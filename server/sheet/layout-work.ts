/**
 * Lays out the work: sections, steps, checks with their outcomes, and all that stands in them.
 */
import { type Language, say } from "../phrases/sheet";
import { base, LINE_BREAK, plain, runs, spaced, stage, strong, text, tick, ticks } from "./atoms";
import type {
  Action,
  Condition,
  Drawing,
  Each,
  Figure,
  Outcome,
  OutcomeName,
  Ref,
  Section,
  Step,
  Work,
} from "./blocks";
import { measure, wait } from "./layout-values";
import { leadLine } from "./leads";
import type { Atom, Drawn, Frame, Line, Node, Panel, Picture, Step as StepNode } from "./nodes";

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
      return [picture(work)];
    case "drawing":
      return [drawing(language, work)];
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
      ...drawingsSeen(language, work.drawings ?? []),
      ...spaced(ticks(work.id, name, work.boxes ?? [])),
      ...tighteningLines(language, work, name),
    ]),
    mark: letter,
  };
}

/** `See drawing 2.`, which leads there. */
function drawingsSeen(language: Language, refs: readonly Ref[]): Atom[] {
  return refs.flatMap((ref) => [
    text(" "),
    ...around(say(language, "drawing-see"), {
      kind: "ref",
      text: say(language, "drawing-ref", { number: ref.number }),
      to: ref.id,
    }),
  ]);
}

/** A phrase around what stands in it as `{drawing}`. */
function around(words: string, inside: Atom): Atom[] {
  const [before = "", after = ""] = words.split("{drawing}");
  return [text(before), inside, text(after)].filter((atom) => atom.kind !== "run" || atom.text !== "");
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

/** Outcomes of a measured limit are named after the limit, those of a look after what is seen. */
function outcome(language: Language, check: Step, of: Outcome, next: Letters): Frame {
  const name = outcomeWord(language, of.outcome);
  const lead = leadLine(language, of.lead, of.id);
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

/** A drawing, with its number before what it is. */
export function drawing(language: Language, work: Drawing): Drawn {
  const caption = runs(work.caption);
  const number = say(language, "drawing-number", { number: work.number });
  return {
    kind: "drawing",
    ...base(work),
    svg: work.svg,
    alt: work.description,
    inWords: say(language, "drawing-in-words"),
    caption:
      work.number === ""
        ? caption
        : [strong(number), ...(caption.length > 0 ? [text("  ")] : []), ...caption],
  };
}

function picture(work: Figure): Picture {
  return {
    kind: "picture",
    ...base(work),
    type: work.type,
    bytes: work.bytes,
    alt: work.description,
    caption: runs(work.caption),
  };
}
