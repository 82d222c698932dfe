/**
 * Conditions and outcomes in words: under which condition something is done, and what a check came to.
 */
import { checkOf, type NameAt, textIn } from "../facts";
import type { Spot, Thing } from "../model";
import { say } from "../phrases/sheet";
import type { OutcomeName } from "./blocks";
import { type Build, stepTitled, stepWords, thingAt, titleOf, words } from "./build-context";
import { plain, strong } from "./fill";
import type { Runs } from "./inline";

/** What conditions can be about. */
const CONDITIONS = ["symptom", "bulletin", "option", "choice", "variant", "check"];

/** A condition as it follows "only when": a symptom, a bulletin, an option, a choice, a variant, or what a check came to. */
export function conditionSaid(
  build: Build,
  spot: Spot,
  name: NameAt | undefined,
  outcome: string,
  briefly = false,
): Runs {
  const thing = thingAt(spot, name, CONDITIONS);
  if (!thing) return plain(name?.name ?? "");
  const title = strong(titleOf(thing));
  switch (thing.kind) {
    case "symptom":
    case "bulletin":
    case "option":
    case "variant":
      return words(build, `condition.${thing.kind}`, { title });
    case "choice":
      return words(build, "condition.choice", { title, group: strong(groupOf(spot, thing)) });
    default: {
      const check = build.job.spotOf(thing, spot);
      return check ? (briefly ? cameToBriefly : cameToSaid)(build, check, outcome) : title;
    }
  }
}

/** That a check came to an outcome: `step 6, End float, came to: "Over the limit"`. */
export function cameToSaid(build: Build, check: Spot, outcome: string): Runs {
  return words(build, "condition.check", {
    step: stepTitled(build, check),
    outcome: plain(cameTo(build, check, outcome)),
  });
}

/** The same in a table, where the step's number is enough. */
export function cameToBriefly(build: Build, check: Spot, outcome: string): Runs {
  return words(build, "condition.check-short", {
    step: stepWords(build, String(check.number ?? "")),
    outcome: plain(cameTo(build, check, outcome)),
  });
}

/** The title of the question that a choice answers. */
function groupOf(spot: Spot, choice: Thing): string {
  const around = [...spot.procedure.things, ...(spot.procedure.machine?.things ?? [])];
  const group = around.find(
    (thing) => thing.kind === "one-of" && thing.entry.children.some((child) => child.entry === choice.entry),
  );
  return group ? titleOf(group) : "";
}

/** What a check came to, in words: one of its choices by its title, or an outcome. */
function cameTo(build: Build, check: Spot, outcome: string): string {
  const choice = checkOf(check.entry).choices.find(({ name }) => name.name === outcome);
  if (choice) return choiceTitle(check, choice);
  const name = outcomeName(check, outcome, false);
  return name === "choice" ? outcome.replaceAll("-", " ") : say(build.language, `outcome.${name}`);
}

/** What a choice by value is called: its own title, else the part of its name. */
export function choiceTitle(check: Spot, choice: { readonly title: string; readonly name: NameAt }): string {
  const part = thingAt(check, choice.name, ["part", "fastener", "belt", "line"]);
  return choice.title || (part ? titleOf(part) : choice.name.name.replaceAll("-", " "));
}

const NAMES: Readonly<Record<string, OutcomeName>> = { over: "over", under: "under", yes: "yes", no: "no" };

/** An outcome as the sheet knows it; anything that is no usual outcome is a choice. */
export function outcomeName(check: Spot, outcome: string, still: boolean): OutcomeName {
  const limited = checkOf(check.entry).limits.length > 0;
  if (outcome === "met") return limited ? "within" : "met";
  const name = outcome === "not met" ? (limited ? "outside" : "not-met") : (NAMES[outcome] ?? "choice");
  return still && name !== "choice" ? (`still-${name}` as OutcomeName) : name;
}

/** What stands in the outcome's place of an entry: `over`, `not met`, a choice's name. */
export const outcomeIn = (spot: Spot): string => textIn(spot.entry.form, "outcome");
