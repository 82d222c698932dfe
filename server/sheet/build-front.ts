/**
 * What is read first: the title block, and whether the sheet applies.
 */
import { clauseOf, headerOf, kitsOf, type NameAt, namesIn, type Serials, serialsOf, textIn } from "../facts";
import { type Spot, stepAround, type Thing } from "../model";
import type { Answer, Applicability, FactName, Question, TitleBlock } from "./blocks";
import {
  type Build,
  firstStep,
  itemFor,
  quantityRuns,
  refsOf,
  stepsWords,
  targetOf,
  thingAt,
  titleOf,
  words,
} from "./build-context";
import { list, plain, strong, textOf } from "./fill";
import type { Runs } from "./inline";
import { prose } from "./markdown";

/** Title and facts, in the order they are read; what the writer has not said is left out. */
export function titleBlock(build: Build): TitleBlock {
  const { root } = build.job;
  const header = headerOf(root.entry);
  const [revision] = header.revisions;
  const machine = root.procedure.machine?.thing ?? null;
  const facts: readonly (readonly [FactName, Runs])[] = [
    ["document", plain(header.documentNumber)],
    ["revision", plain(revision?.mark ?? "")],
    ["date", plain(revision?.date ?? "")],
    ["machine", plain(machine ? titleOf(machine) : (header.machine?.name ?? ""))],
    ["applies-to", appliesTo(build)],
    ["working-time", quantityRuns(build, header.workingTime)],
    ["qualification", prose(header.qualification)],
    ["people", peopleSaid(build)],
    ["kit", plain(kitNumbers(build).join(", "))],
    ["also-follow", list(build.language, followedTitles(build))],
  ];
  return {
    kind: "title",
    id: "title",
    facts: facts
      .filter(([, value]) => value.length > 0)
      .map(([fact, value]) => ({ id: `fact:${fact}`, fact, value })),
  };
}

/** The numbers of all kits, each once. */
export function kitNumbers(build: Build): readonly string[] {
  const all = build.job.procedures.flatMap(({ entry }) => kitsOf(entry).map(({ number }) => number));
  return [...new Set(all)].filter((number) => number !== "");
}

function appliesTo(build: Build): Runs {
  const { root } = build.job;
  const { serials, variants } = headerOf(root.entry);
  const named = variants.map((name) =>
    plain(titleOf(thingAt(root, name, ["variant", "option", "bulletin"]) ?? { name: name.name, title: "" })),
  );
  const ranges = rangesSaid(build, serials);
  return list(build.language, [
    ...(ranges.length > 0 ? [words(build, "serials", { ranges })] : []),
    ...named,
  ]);
}

function rangesSaid(build: Build, serials: readonly Serials[]): Runs {
  const ranges = serials.map(({ from, to }) =>
    words(build, "serial-range", { from: strong(String(from)), to: strong(String(to)) }),
  );
  return list(build.language, ranges, "list.or");
}

/** Who takes part, and for which steps more than one is needed. */
function peopleSaid(build: Build): Runs {
  const declared = build.job.procedures
    .flatMap(({ procedure }) => procedure.things)
    .filter(({ kind }) => kind === "person");
  const persons = [...new Set(declared.map(titleOf))].map((title) => plain(title));
  const most = Math.max(1, ...build.uses.all.map(({ act }) => act.people));
  if (most < 2) return list(build.language, persons);
  const at = refsOf(build.uses.all.filter(({ act }) => act.people > 1).map(({ spot }) => spot));
  const people = words(build, "people.steps", { count: plain(String(most)), steps: stepsWords(build, at) });
  return persons.length === 0
    ? people
    : words(build, "people.both", { persons: list(build.language, persons), people });
}

function followedTitles(build: Build): readonly Runs[] {
  const others = build.job.procedures
    .slice(1)
    .map(({ procedure, entry }) => ({ thing: procedure.thing, document: headerOf(entry).documentNumber }));
  const once = others.filter(
    ({ thing }, index) => others.findIndex((other) => other.thing === thing) === index,
  );
  return once.map(({ thing, document }) =>
    words(build, "document-titled", { title: plain(titleOf(thing)), document: plain(document) }),
  );
}

/** The questions that are answered once, before the work. */
export function applicability(build: Build): Applicability {
  return {
    kind: "applicability",
    id: "applicability",
    questions: [...serialQuestion(build), ...variantQuestion(build), ...conditionQuestions(build)],
  };
}

function serialQuestion(build: Build): readonly Question[] {
  const ranges = rangesSaid(build, headerOf(build.job.root.entry).serials);
  if (ranges.length === 0) return [];
  return [
    {
      id: "question:serial",
      question: words(build, "question.serial", { ranges }),
      write: textOf(words(build, "question.serial-write")),
      answers: [{ answer: "yes" }, { answer: "no", leads: "stop" }],
    },
  ];
}

/** Asked where the procedure is for some variants only, or does something on some only. */
function variantQuestion(build: Build): readonly Question[] {
  const { root } = build.job;
  const all = (root.procedure.machine?.things ?? []).filter(({ kind }) => kind === "variant");
  const bound = headerOf(root.entry).variants.flatMap((name) => thingAt(root, name, ["variant"]) ?? []);
  if (all.length === 0 || (bound.length === 0 && !all.some((variant) => isUsed(build, variant)))) return [];
  const answers = all.map((variant): Answer => {
    const stop = bound.length > 0 && !bound.includes(variant);
    return {
      answer: { text: titleOf(variant) },
      ...(stop ? { leads: "stop" as const } : leadsOf(build, variant)),
    };
  });
  return [{ id: "question:variant", question: words(build, "question.variant"), answers }];
}

const CONDITIONS = ["symptom", "bulletin", "option", "choice", "variant"];
const ASKED = new Set(["symptom", "bulletin", "option", "one-of"]);

/** Symptoms, bulletins, options and choices: those of the procedures, and those of the machine that they make use of. */
function conditionQuestions(build: Build): readonly Question[] {
  const own = build.job.procedures.flatMap(({ procedure }) => procedure.things);
  const machine = (build.job.root.procedure.machine?.things ?? []).filter((thing) =>
    answersTo(build, thing).some((one) => isUsed(build, one)),
  );
  const asked = [...new Set([...own, ...machine])].filter(({ kind }) => ASKED.has(kind));
  return asked.map((thing) => ({
    ...itemFor(thing, `question:${thing.kind}:${thing.name}`),
    question: questionSaid(build, thing),
    answers: answersOf(build, thing),
  }));
}

function answersTo(build: Build, thing: Thing): readonly Thing[] {
  return thing.kind === "one-of" ? choicesOf(build, thing) : [thing];
}

function choicesOf(build: Build, group: Thing): readonly Thing[] {
  const { root } = build.job;
  const all = [
    ...build.job.procedures.flatMap(({ procedure }) => procedure.things),
    ...(root.procedure.machine?.things ?? []),
  ];
  return group.entry.children.flatMap(
    (child) => all.find((thing) => thing.kind === "choice" && thing.entry === child.entry) ?? [],
  );
}

function questionSaid(build: Build, thing: Thing): Runs {
  const { entry, kind } = thing;
  const title = strong(titleOf(thing));
  if (kind === "symptom") {
    const at = spotIn(build, thing);
    const step = targetOf(build, at, namesIn(clauseOf(entry, "ask-before"), "step")[0]);
    return words(build, "question.symptom", { title, step: step ? stepsWords(build, refsOf([step])) : [] });
  }
  if (kind === "bulletin")
    return words(build, "question.bulletin", {
      title,
      date: plain(textIn(entry.form, "date")),
      ranges: rangesSaid(build, serialsOf(entry)),
    });
  return words(build, kind === "option" ? "question.option" : "question.one-of", { title });
}

/** The procedure of the job in which a thing is declared. */
function spotIn(build: Build, thing: Thing): Spot {
  return build.job.procedures.find(({ procedure }) => procedure.thing.owns === thing.owner) ?? build.job.root;
}

function answersOf(build: Build, thing: Thing): readonly Answer[] {
  if (thing.kind === "one-of")
    return choicesOf(build, thing).map((choice) => ({
      answer: { text: titleOf(choice) },
      ...leadsOf(build, choice),
    }));
  return [{ answer: "yes", ...leadsOf(build, thing) }, { answer: "no" }];
}

/** Whether anything is done, or anything of a kit is needed, under a condition only. */
function isUsed(build: Build, condition: Thing): boolean {
  const inKit = build.job.procedures.some((spot) =>
    kitsOf(spot.entry).some(({ items }) =>
      items.some(({ onlyOn, onlyIf }) =>
        [...onlyOn, onlyIf?.name].some((name) => thingAt(spot, name, CONDITIONS) === condition),
      ),
    ),
  );
  return inKit || placesOf(build, condition).length > 0;
}

/** The steps in which something is done under a condition: inside the `when`, or holding it. */
function placesOf(build: Build, condition: Thing): readonly Spot[] {
  return build.job.spots
    .filter((spot) => spot.entry.construct === "when" && conditionIn(spot) === condition)
    .flatMap((spot) => (stepAround(spot) ? [spot] : stepsIn(spot)));
}

function conditionIn(spot: Spot): Thing | undefined {
  const name: NameAt | undefined = namesIn(spot.entry.form, "condition")[0];
  return thingAt(spot, name, CONDITIONS);
}

function stepsIn(spot: Spot): readonly Spot[] {
  return firstStep(spot) ? [...(spot.number === null ? [] : [spot]), ...spot.children.flatMap(stepsIn)] : [];
}

function leadsOf(build: Build, condition: Thing): { readonly leads?: Runs } {
  const steps = stepsWords(build, refsOf(placesOf(build, condition)));
  return steps.length === 0 ? {} : { leads: words(build, "question.leads", { steps }) };
}
