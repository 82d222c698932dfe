/**
 * The work itself: sections, steps and checks, with all that stands in them, in the order of the text.
 */
import { CAUTION_WORDS, cautionOf, headerOf, namesIn, textIn } from "../facts";
import type { Spot } from "../model";
import { say } from "../phrases/sheet";
import type { Action, Condition, Each, Lead, Note, Panel, Prose, Step, Work } from "./blocks";
import { actionsOf } from "./build-acts";
import { chosenMeasure, isLead, leadOf, lookOf, measureOf, outcomesOf } from "./build-checks";
import { conditionSaid, outcomeIn } from "./build-conditions";
import { type Build, itemOf, saidIn, stepWords, thingAt, titleOf, titles, words } from "./build-context";
import { figureOf } from "./build-pictures";
import { said } from "./build-sentences";
import { membersOf } from "./build-stages";
import { fill, plain, strong } from "./fill";
import type { Runs } from "./inline";
import { prose } from "./markdown";

/** What can stand in a section, a step or an outcome. */
export type Item = Work | Step;

/** What stands directly in a place of the job, paragraphs and lines in the order of the text. */
export function flowOf(
  build: Build,
  parent: Spot,
  leaveOut: (spot: Spot) => boolean = () => false,
): readonly Item[] {
  const pieces = [
    ...parent.entry.paragraphs.map(({ row, text }, index) => ({
      row,
      items: (): readonly Item[] => [paragraph(parent, text, row, index)],
    })),
    ...parent.children
      .filter((child) => !leaveOut(child))
      .map((child) => ({ row: child.line - parent.line, items: () => itemsOf(build, child) })),
  ];
  return pieces.sort((a, b) => a.row - b.row).flatMap(({ items }) => items());
}

/** A paragraph of the writer's prose. */
export function paragraph(parent: Spot, text: string, row: number, index: number): Prose {
  const { id } = itemOf(parent, `/prose${index === 0 ? "" : `#${index + 1}`}`);
  return { kind: "prose", id, source: { file: parent.file, line: parent.line + row }, runs: prose(text) };
}

/** What a place of the job becomes in the work; nothing for what belongs to the header or to a check's own table. */
export function itemsOf(build: Build, spot: Spot): readonly Item[] {
  const { construct } = spot.entry;
  const use = build.uses.at.get(spot);
  if (use) return actionsOf(build, use);
  if (isLead(spot)) return leadAction(build, spot);
  if (CAUTION_WORDS.includes(construct)) return [panelOf(build, spot)];
  switch (construct) {
    case "step":
    case "check":
      return [stepOf(build, spot)];
    case "section":
      return flowOf(build, spot);
    case "note":
      return spot.entry.paragraphs.map(
        ({ text, row }, index): Note => ({ ...paragraph(spot, text, row, index), kind: "note" }),
      );
    case "figure":
      return [figureOf(build, spot)];
    case "when":
    case "otherwise":
      return [conditionOf(build, spot, flowOf(build, spot))];
    case "for":
      return [eachOf(build, spot, flowOf(build, spot))];
    case "follow":
      return followedItems(build, spot);
    case "hand-back":
      return [
        action(
          spot,
          said(build, "hand-back", { what: titles(build, saidIn(spot, spot.entry.form, "things")) }),
        ),
      ];
    default:
      return checkItems(build, spot);
  }
}

/** What a check measures or asks. */
function checkItems(build: Build, spot: Spot): readonly Item[] {
  const check = spot.parent;
  if (check?.entry.construct !== "check") return [];
  switch (spot.entry.construct) {
    case "limit":
      return measureOf(build, check, spot);
    case "choose":
      return chosenMeasure(build, check, spot);
    case "marks":
    case "observe":
      return [lookOf(build, spot)];
    default:
      return [];
  }
}

function stepOf(build: Build, spot: Spot): Step {
  const outcomes = outcomesOf(build, spot, (outcome, lead) =>
    flowOf(build, outcome, (child) => child === lead),
  );
  return {
    kind: spot.entry.construct === "check" ? "check" : "step",
    ...itemOf(spot),
    number: String(spot.number ?? ""),
    title: spot.thing ? titleOf(spot.thing) : textIn(spot.entry.form, "title"),
    body: flowOf(build, spot, (child) => child.entry.construct === "if"),
    outcomes,
  };
}

function panelOf(build: Build, spot: Spot): Panel {
  const { word, text, can, so } = cautionOf(spot.entry);
  return {
    kind: "panel",
    ...itemOf(spot),
    signal: word,
    hazard: prose(text),
    consequence: can ? words(build, "consequence", { text: prose(can) }) : [],
    avoid: prose(so),
  };
}

function action(spot: Spot, sentence: Runs): Action {
  return { kind: "action", ...itemOf(spot), sentence };
}

/** A condition around some items; `otherwise` has the condition of the `when` before it. */
export function conditionOf(build: Build, spot: Spot, body: Condition["body"], suffix = ""): Condition {
  const otherwise = spot.entry.construct === "otherwise";
  const when = otherwise ? (whenBefore(spot) ?? spot) : spot;
  return {
    kind: "condition",
    ...itemOf(spot, suffix),
    when: conditionSaid(build, when, namesIn(when.entry.form, "condition")[0], outcomeIn(when)),
    ...(otherwise ? { otherwise: true as const } : {}),
    body,
  };
}

function whenBefore(spot: Spot): Spot | undefined {
  const siblings = spot.parent?.children ?? [];
  return siblings.slice(0, siblings.indexOf(spot)).findLast(({ entry }) => entry.construct === "when");
}

/** The same work for each member of a set. */
export function eachOf(build: Build, spot: Spot, body: Each["body"], suffix = ""): Each {
  const set = thingAt(spot, namesIn(spot.entry.form, "set")[0], ["set"]);
  const title = titles(build, saidIn(spot, spot.entry.form, "set"));
  return {
    kind: "each",
    ...itemOf(spot, suffix),
    over: words(build, spot.entry.form.words.includes("time") ? "each.one" : "each", { title }),
    things: set ? membersOf(set) : [],
    body,
  };
}

/** Another procedure done here: its name, then its steps. */
function followedItems(build: Build, spot: Spot): readonly Item[] {
  return spot.children.flatMap((procedure) => [
    followedLine(build, spot, procedure),
    ...flowOf(build, procedure),
  ]);
}

/** Says which procedure begins here. */
export function followedLine(build: Build, spot: Spot, procedure: Spot): Prose {
  const { documentNumber } = headerOf(procedure.entry);
  const title = strong(titleOf(procedure.procedure.thing));
  return {
    kind: "prose",
    ...itemOf(spot),
    runs: words(build, "followed", { title, document: plain(documentNumber) }),
  };
}

/** A line that leads elsewhere and is not the end of an outcome, as a sentence. */
function leadAction(build: Build, spot: Spot): readonly Action[] {
  const lead = leadOf(build, spot);
  return lead.kind === "go-on" ? [] : [action(spot, leadSaid(build, lead))];
}

function leadSaid(build: Build, lead: Exclude<Lead, { kind: "go-on" }>): Runs {
  const { language } = build;
  if (lead.kind === "end") return [...strong(say(language, "lead.end")), ...plain(": "), ...lead.reason];
  const args = {
    step: stepWords(build, lead.to.number),
    ...(lead.kind === "repeat" ? { back: stepWords(build, lead.back.number) } : {}),
  };
  const where = fill(say(language, `lead.${lead.kind}`), args);
  const times = lead.kind === "go-to" ? undefined : lead.times;
  const bound =
    times === undefined
      ? ""
      : say(language, times === 1 ? "lead.at-most-once" : "lead.at-most", { times: String(times) });
  return [...where, ...plain(bound === "" ? "." : `, ${bound}.`)];
}
