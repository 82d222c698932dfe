/**
 * What is said of the places where ways part, in the sheet's own words: questions, answers, what is done, where it leads.
 */
import { checkOf, type Limit, namesIn, possibleOutcomes } from "../facts";
import { type Spot, stepAround } from "../model";
import { say } from "../phrases/sheet";
import { waysWord } from "../phrases/ways";
import type { Work } from "./blocks";
import { leadOf, limitSaid } from "./build-checks";
import { choiceTitle, conditionSaid, outcomeIn, outcomeName } from "./build-conditions";
import { type Build, stepWords, thingAt, titleOf, titles, words } from "./build-context";
import { itemsOf } from "./build-work";
import { fill, list, plain, strong, textOf } from "./fill";
import type { Runs } from "./inline";
import { prose } from "./markdown";
import type { Answer, Parting } from "./partings";

/** A question: the step that asks it, or the condition, and what is asked. */
export interface Question {
  readonly head: string;
  readonly lines: readonly string[];
}

/** What is asked where the ways part. */
export function questionWords(build: Build, { of, spot, answers }: Parting): Question {
  if (of === "condition") return conditionAsked(build, spot, answers.length > 1 && answers.every(isInto));
  const title = spot.thing ? titleOf(spot.thing) : "";
  const { limits, marks, questions } = checkOf(spot.entry);
  const asked = [
    ...limits.flatMap((limit) => limitAsked(build, limit)),
    ...questions.map((question) => textOf(prose(question))),
    ...(marks.length > 0
      ? [textOf(words(build, "marks-question", { marks: titles(build, thingsOf(spot, marks)) }))]
      : []),
  ];
  return { head: `${spot.number} ${title}`, lines: asked };
}

const isInto = ({ branch }: Answer): boolean => branch.into;

const thingsOf = (spot: Spot, names: ReturnType<typeof checkOf>["marks"]) =>
  names.map((name) => thingAt(spot, name, ["mark"]) ?? { name: name.name, title: "" });

function limitAsked(build: Build, limit: Limit): readonly string[] {
  if (!limit.value) return [];
  const value = limitSaid(build, limit, limit.value);
  return [textOf(limit.what ? words(build, "named", { name: prose(limit.what), value }) : value)];
}

/** A condition as a question. `open`: its answers are more than yes and no. */
function conditionAsked(build: Build, spot: Spot, open: boolean): Question {
  const { language } = build;
  const step = stepAround(spot);
  const head = step ? waysWord(language, "in-step", { number: `${step.number}` }) : "";
  const name = namesIn(spot.entry.form, "condition")[0];
  const thing = thingAt(spot, name, ["symptom", "bulletin", "option", "choice", "variant", "check"]);
  const title = thing ? strong(titleOf(thing)) : [];
  const asked = (said: Runs): Question => {
    const text = textOf(said);
    const ended = /[?:]$/u.test(text) ? text : `${text}${language === "fr" ? " ?" : "?"}`;
    return head === "" ? { head: ended, lines: [] } : { head, lines: [ended] };
  };
  switch (thing?.kind) {
    case "symptom":
    case "bulletin":
    case "option":
      return asked(words(build, `question.${thing.kind}`, { title }));
    case "check": {
      const check = build.job.spotOf(thing, spot);
      return open && check
        ? asked(words(build, "step-titled", { step: stepWords(build, `${check.number}`), title }))
        : asked(conditionSaid(build, spot, name, outcomeIn(spot)));
    }
    default:
      return asked(conditionSaid(build, spot, name, outcomeIn(spot)));
  }
}

/** An answer: an outcome of a check, yes or no, or which of several it is. */
export function answerWords(build: Build, parting: Parting, answer: Answer): string {
  const { language } = build;
  if (parting.of === "check") return outcomeWords(build, parting, answer);
  if (!parting.answers.every(isInto)) return say(language, answer.branch.into ? "answer.yes" : "answer.no");
  const { spot } = answer;
  const thing = spot && thingAt(spot, namesIn(spot.entry.form, "condition")[0]);
  if (!spot || !thing) return "";
  return thing.kind === "check" ? outcomeTitle(build, thing, spot) : titleOf(thing);
}

function outcomeTitle(build: Build, thing: NonNullable<ReturnType<typeof thingAt>>, spot: Spot): string {
  const check = build.job.spotOf(thing, spot);
  return check ? named(build, check, outcomeIn(spot), false) : outcomeIn(spot);
}

/** What an outcome is called; one of a check's choices by its title. */
function named({ language }: Build, check: Spot, outcome: string, still: boolean): string {
  const choice = checkOf(check.entry).choices.find(({ name }) => name.name === outcome);
  if (choice) return choiceTitle(check, choice);
  const name = outcomeName(check, outcome, still);
  return name === "choice" ? outcome.replaceAll("-", " ") : say(language, `outcome.${name}`);
}

function outcomeWords(build: Build, { spot: check, answers }: Parting, { spot }: Answer): string {
  if (spot) return named(build, check, outcomeIn(spot), spot.entry.form.words.includes("still"));
  const written = new Set(answers.flatMap((one) => (one.spot ? [outcomeIn(one.spot)] : [])));
  const kinds = outcomeKinds(check).filter((kind) => kind.some((outcome) => written.has(outcome)));
  const isLeft = (outcome: string): boolean =>
    !written.has(outcome) && !(written.has("not met") && (outcome === "over" || outcome === "under"));
  const left = (kinds[0] ?? []).filter(isLeft).filter((outcome) => outcome !== "not met");
  if (kinds.length !== 1 || left.length === 0) return waysWord(build.language, "any-other");
  const words = left.map((outcome) => plain(named(build, check, outcome, false)));
  return textOf(list(build.language, words, "list.or"));
}

/** What a check can come to, by what is measured or looked at, what is answered, and what is chosen. */
function outcomeKinds(check: Spot): readonly (readonly string[])[] {
  const facts = checkOf(check.entry);
  const possible = possibleOutcomes(facts);
  const choices = facts.choices.map(({ name }) => name.name);
  const answers = ["yes", "no"];
  return [
    possible.filter((outcome) => !answers.includes(outcome) && !choices.includes(outcome)),
    possible.filter((outcome) => answers.includes(outcome)),
    choices,
  ];
}

/** What is done at some places of the job, or said there, as sentences. */
export function doneWords(build: Build, spots: readonly Spot[], around?: Spot): readonly string[] {
  const items = spots.flatMap((spot) => itemsOf(build, spot)).flatMap(sentenceOf);
  const said =
    around && spots.length === 0 ? around.entry.paragraphs.map(({ text }) => textOf(prose(text))) : [];
  return [...items, ...said];
}

function sentenceOf(
  item: { readonly kind: string } & Partial<Pick<Extract<Work, { kind: "action" }>, "sentence">>,
) {
  return (item.kind === "action" || item.kind === "wait") && item.sentence ? [textOf(item.sentence)] : [];
}

/** Where a line leads, in words: of one that ends the job the reason. */
export function leadWords(build: Build, spot: Spot): readonly string[] {
  const { language } = build;
  const lead = leadOf(build, spot);
  switch (lead.kind) {
    case "end":
      return [textOf(lead.reason)].filter((reason) => reason !== "");
    case "go-on":
      return [];
    default: {
      const args = {
        step: stepWords(build, lead.to.number),
        ...(lead.kind === "repeat" ? { back: stepWords(build, lead.back.number) } : {}),
      };
      const where = textOf(fill(say(language, `lead.${lead.kind}`), args));
      if (lead.kind === "go-to" || lead.times === undefined) return [where];
      const id = lead.times === 1 ? "lead.at-most-once" : "lead.at-most";
      return [`${where}, ${say(language, id, { times: String(lead.times) })}`];
    }
  }
}
