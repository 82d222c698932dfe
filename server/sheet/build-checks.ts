/**
 * What a check holds beside acts: what is measured or looked at, and where each outcome leads.
 */
import { type Choice, checkOf, type Limit, namesIn, textIn, timesOf } from "../facts";
import { type Spot, stepAround, type Thing } from "../model";
import { makeQuantity, type Quantity } from "../units/quantity";
import type { Lead, Look, Measure, Outcome, Step, Work } from "./blocks";
import { choiceTitle, outcomeIn, outcomeName } from "./build-conditions";
import {
  type Build,
  itemOf,
  quantityRuns,
  rangeOf,
  refOf,
  saidIn,
  targetOf,
  thingAt,
  titles,
  words,
} from "./build-context";
import { membersOf } from "./build-stages";
import { plain, strong } from "./fill";
import type { Range, Runs } from "./inline";
import { prose } from "./markdown";

/** Makes the body of an outcome, its lead left out. */
export type BodyOf = (outcome: Spot, lead: Spot | undefined) => readonly (Work | Step)[];

/** The values a check gives: one at each of its places, and that for each member of the sets it is done for. */
export function valuesOf(check: Spot): readonly string[] {
  const { places } = checkOf(check.entry);
  const own = places.length > 0 ? places : [""];
  return setsAround(check).reduce<readonly string[]>(
    (names, set) =>
      membersOf(set).flatMap((member) => names.map((name) => (name ? `${member}: ${name}` : member))),
    own,
  );
}

/** The sets for each member of which a place of the job is done, innermost first. */
function setsAround(spot: Spot): readonly Thing[] {
  const sets: Thing[] = [];
  for (let at = spot.parent; at; at = at.parent) {
    const set = at.entry.construct === "for" && thingAt(at, namesIn(at.entry.form, "set")[0], ["set"]);
    if (set) sets.push(set);
  }
  return sets;
}

/** What is measured by a limit. */
export function measureOf(build: Build, check: Spot, spot: Spot): readonly Measure[] {
  const { limits } = checkOf(check.entry);
  const limit = limits.find((one) => one.entry === spot.entry);
  if (!limit?.value) return [];
  const temperature = quantityRuns(build, limit.temperature);
  const instrument = toolsSaid(build, spot);
  return [
    {
      kind: "measure",
      ...itemOf(spot),
      ...(limit.what ? { what: plain(limit.what) } : {}),
      limit: limitSaid(build, limit, limit.value),
      ...rangeOf(build, limit.value),
      places: valuesOf(check),
      ...(temperature.length > 0 ? { temperature } : {}),
      ...(instrument.length > 0 ? { instrument } : {}),
    },
  ];
}

/** A limit in words: its value, and how long it must hold. */
export function limitSaid(build: Build, limit: Limit, value: Quantity): Runs {
  const said = quantityRuns(build, value);
  return limit.held ? words(build, "held", { limit: said, value: quantityRuns(build, limit.held) }) : said;
}

function toolsSaid(build: Build, spot: Spot): Runs {
  return titles(
    build,
    spot.entry.details
      .filter(({ clause }) => clause === "with")
      .flatMap((detail) => saidIn(spot, detail, "tools")),
  );
}

/** What is measured for a choice by value where no limit says it; at the first choice, nothing at the others. */
export function chosenMeasure(build: Build, check: Spot, spot: Spot): readonly Measure[] {
  const { limits, choices } = checkOf(check.entry);
  const first = check.children.find(({ entry }) => entry.construct === "choose");
  const all = choices.flatMap(({ value }) => value ?? []);
  const whole = spanOf(all);
  if (limits.length > 0 || spot !== first || !whole) return [];
  const instrument = toolsSaid(build, spot);
  return [
    {
      kind: "measure",
      ...itemOf(spot),
      limit: quantityRuns(build, whole),
      ...rangeOf(build, whole),
      places: valuesOf(check),
      ...(instrument.length > 0 ? { instrument } : {}),
    },
  ];
}

/** From the lowest to the highest of several values. */
function spanOf(values: readonly Quantity[]): Quantity | null {
  const lows = values.flatMap(({ low }) => low ?? []).sort((a, b) => a.si - b.si);
  const highs = values.flatMap(({ high }) => high ?? []).sort((a, b) => b.si - a.si);
  const [first, second] = [lows[0], highs[0]];
  return first && second ? makeQuantity({ shape: "range", first, second, text: "" }) : null;
}

/** Marks that must stand in line, or a question. */
export function lookOf(build: Build, spot: Spot): Look {
  const question = textIn(spot.entry.form, "question");
  return {
    kind: "look",
    ...itemOf(spot),
    question: question
      ? prose(question)
      : words(build, "marks-question", { marks: titles(build, saidIn(spot, spot.entry.form, "marks")) }),
  };
}

/** Where each outcome of a check leads: what passes first, then as written. */
export function outcomesOf(build: Build, check: Spot, bodyOf: BodyOf): readonly Outcome[] {
  const written = check.children.filter(({ entry }) => entry.construct === "if");
  const { limits, marks, questions, choices } = checkOf(check.entry);
  const isWritten = (outcome: string): boolean =>
    written.some((spot) => outcomeIn(spot) === outcome && !spot.entry.form.words.includes("still"));
  const implied = [
    ...(choices.length === 0 && (limits.length > 0 || marks.length > 0) ? ["met"] : []),
    ...(questions.length > 0 ? ["yes", "no"] : []),
  ].filter((outcome) => !isWritten(outcome));
  const chosen = choices.map((choice) => {
    const spot = written.find((one) => outcomeIn(one) === choice.name.name);
    return choiceOutcome(build, check, choice, spot, bodyOf);
  });
  const others = written.filter((spot) => !choices.some(({ name }) => name.name === outcomeIn(spot)));
  return [
    ...implied.map((outcome) => impliedOutcome(build, check, outcome)),
    ...chosen,
    ...others.map((spot) => writtenOutcome(build, check, spot, bodyOf)),
  ];
}

function impliedOutcome(build: Build, check: Spot, outcome: string): Outcome {
  return {
    ...itemOf(check, `/${outcome}`),
    outcome: outcomeName(check, outcome, false),
    ...rangeFor(build, check, outcome),
    body: [],
    lead: goOn(check),
  };
}

function choiceOutcome(
  build: Build,
  check: Spot,
  choice: Choice,
  spot: Spot | undefined,
  bodyOf: BodyOf,
): Outcome {
  const value = choice.value;
  const lead = spot && leadIn(spot);
  return {
    ...(spot ? itemOf(spot) : itemOf(check, `/choose:${choice.name.name}`)),
    outcome: "choice",
    text: words(build, "named", {
      name: quantityRuns(build, value),
      value: strong(choiceTitle(check, choice)),
    }),
    ...(value ? { range: rangeOf(build, value).range } : {}),
    body: spot ? bodyOf(spot, lead) : [],
    lead: lead ? leadOf(build, lead) : goOn(check),
  };
}

function writtenOutcome(build: Build, check: Spot, spot: Spot, bodyOf: BodyOf): Outcome {
  const outcome = outcomeIn(spot);
  const name = outcomeName(check, outcome, spot.entry.form.words.includes("still"));
  const lead = leadIn(spot);
  const passed = passedLimit(check, outcome);
  const text =
    name === "choice" ? strong(outcome.replaceAll("-", " ")) : passed ? quantityRuns(build, passed) : [];
  return {
    ...itemOf(spot),
    outcome: name,
    ...(text.length > 0 ? { text } : {}),
    ...rangeFor(build, check, outcome),
    body: bodyOf(spot, lead),
    lead: lead ? leadOf(build, lead) : goOn(check),
  };
}

/** The only limit of a check; none where it has several. */
function onlyLimit(check: Spot): Quantity | null {
  const { limits } = checkOf(check.entry);
  return limits.length === 1 ? (limits[0]?.value ?? null) : null;
}

/** What lies over or under the only limit of a check, as a quantity. */
function passedLimit(check: Spot, outcome: string): Quantity | null {
  const limit = onlyLimit(check);
  const end = outcome === "over" ? limit?.high : outcome === "under" ? limit?.low : null;
  return end ? makeQuantity({ shape: outcome === "over" ? "over" : "under", first: end, text: "" }) : null;
}

/** The values that have an outcome, where a single limit tells. */
function rangeFor(build: Build, check: Spot, outcome: string): { readonly range?: Range } {
  const limit = onlyLimit(check);
  if (!limit) return {};
  if (outcome === "met") return { range: rangeOf(build, limit).range };
  const { range } = rangeOf(build, limit);
  if (outcome === "over" && range.max !== undefined)
    return { range: { min: range.max, ...(range.maxOpen ? {} : { minOpen: true as const }) } };
  if (outcome === "under" && range.min !== undefined)
    return { range: { max: range.min, ...(range.minOpen ? {} : { maxOpen: true as const }) } };
  return {};
}

const LEADS = new Set(["go-on", "go-to", "check-again", "repeat", "end-job"]);

/** Whether a place of the job is a line that leads elsewhere. */
export function isLead({ entry }: Spot): boolean {
  return LEADS.has(entry.construct);
}

function leadIn(outcome: Spot): Spot | undefined {
  return outcome.children.find(isLead);
}

/** Where a line leads. One whose target is not known leads on. */
export function leadOf(build: Build, spot: Spot): Lead {
  const { entry } = spot;
  const own = stepAround(spot);
  const target = targetOf(build, spot, namesIn(entry.form, "target")[0]);
  const times = timesOf(entry);
  const bound = times === null ? {} : { times };
  if (entry.construct === "end-job") return { kind: "end", reason: prose(textIn(entry.form, "reason")) };
  const again = entry.construct === "check-again" || (entry.construct === "repeat" && target === own);
  if (again && own?.entry.construct === "check") return { kind: "check-again", to: refOf(own), ...bound };
  if (entry.construct === "go-to" && target) return { kind: "go-to", to: refOf(target) };
  if (entry.construct === "repeat" && target && own)
    return { kind: "repeat", to: refOf(target), back: refOf(own), ...bound };
  return own ? goOn(own) : { kind: "go-on" };
}

function goOn(check: Spot): Lead {
  const next = nextStep(check);
  return next ? { kind: "go-on", next: refOf(next) } : { kind: "go-on" };
}

/**
 * The step that comes after a step when nothing leads elsewhere; none at the end of the job, where work of the same
 * step comes first, and at the end of what is repeated for each of several.
 */
export function nextStep(spot: Spot): Spot | undefined {
  for (let at = spot; at.parent; at = at.parent) {
    const { parent } = at;
    if (parent.entry.construct === "if") return undefined;
    const later = parent.children.slice(parent.children.indexOf(at) + 1);
    const next = (
      at.entry.construct === "when" && later[0]?.entry.construct === "otherwise" ? later.slice(1) : later
    ).find(holdsWork);
    if (next) return firstStepIn(next);
    if (parent.entry.construct === "for") return undefined;
  }
  return undefined;
}

/** Whether anything is done there. */
function holdsWork(spot: Spot): boolean {
  return (
    spot.number !== null ||
    isLead(spot) ||
    spot.children.some(holdsWork) ||
    (stepAround(spot) !== null && spot.entry.construct !== "if")
  );
}

/** The step that a place begins with; none where work that has no number comes before it. */
function firstStepIn(spot: Spot): Spot | undefined {
  if (spot.number !== null) return spot;
  const first = spot.children.find(holdsWork);
  return first && firstStepIn(first);
}
