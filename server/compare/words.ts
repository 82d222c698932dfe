/**
 * A change in words: a headline, where it lies, what it does, whom it touches. Words are kept apart from what the writer
 * wrote, so that each kind of report can mark the one and the other in its own way.
 */
import { COMPARE_PHRASES, type ComparePhrase } from "../phrases/compare";
import type { Change, Effect, Named, Said, StepNamed, Touch } from "./change";
import { excerpts } from "./excerpt";
import { namesOf, PROSE, textOf } from "./form";
import { CAUTIONS } from "./match";
import type { Piece } from "./node";

/** A stretch of what is said: ours, what the writer calls a thing, or a line of the writer's. */
export type Word =
  | { readonly kind: "ours"; readonly text: string }
  | { readonly kind: "title"; readonly text: string }
  | { readonly kind: "line"; readonly text: string };
export type Words = readonly Word[];

/** A change in words. */
export interface Told {
  readonly headline: Words;
  /** The printed step it lies in; null outside of steps. */
  readonly where: Words | null;
  readonly does: readonly Words[];
  readonly touches: readonly Words[];
}

/** Puts a change into words. */
export function told(change: Change): Told {
  return {
    headline: headline(change),
    where: whereOf(change),
    does: change.does.map(effect),
    touches: change.touches.map(touch),
  };
}

type Args = Readonly<Record<string, Words | string>>;

/** A phrase as words, what is put in marked as the writer's. */
function say(id: ComparePhrase, args: Args = {}): Words {
  return COMPARE_PHRASES[id].split(/\{([\w-]+)\}/).flatMap((part, i): Words => {
    if (i % 2 === 0) return part === "" ? [] : [ours(part)];
    const value = args[part] ?? "";
    return typeof value === "string" ? [ours(value)] : value;
  });
}

const ours = (text: string): Word => ({ kind: "ours", text });
const title = (text: string): Words => [{ kind: "title", text }];
const line = (text: string): Words => [{ kind: "line", text }];
const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

function plain(pieces: readonly Piece[]): string {
  return pieces.map((piece) => ("text" in piece ? piece.text : piece.title)).join("");
}

const linesOf = (said: readonly Said[] | null): Words =>
  line((said ?? []).map(({ pieces }) => plain(pieces)).join("; "));

function happened({ values: { before, after } }: Change): "changed" | "added" | "removed" {
  const has = (said: readonly Said[] | null): boolean => (said ?? []).length > 0;
  return has(before) && has(after) ? "changed" : has(after) ? "added" : "removed";
}

function headline(change: Change): Words {
  const { kind, what, concerns, values } = change;
  const args = {
    thing: nameOf(concerns),
    before: linesOf(values.before),
    after: linesOf(values.after),
    kind: concerns?.kind ?? what,
    Kind: capital(concerns?.kind ?? what),
    key: title(what.replace("severities.", "")),
  };
  switch (kind) {
    case "tightening":
      return tightening(change, args);
    case "thread-state":
    case "order":
    case "renewal":
      return say(`fact.${happened(change)}`, args);
    case "changed":
      return changed(change, args);
    case "added":
    case "removed":
    case "moved":
    case "regrouped":
      return whole(change, kind, args);
    case "renamed":
      return say("renamed", {
        ...args,
        before: title(nameSaid(values.before)),
        after: title(nameSaid(values.after)),
      });
    case "retitled":
      return say("retitled", { ...args, before: titleSaid(values.before), after: titleSaid(values.after) });
    case "split":
    case "joined":
      return say(kind, { ...args, before: titleSaid(values.before), after: titleSaid(values.after) });
    case "written-otherwise":
      return say(kind, args);
    case "prose":
      return prose(change, args);
    case "severity":
      return say("severity", {
        ...args,
        before: settingSaid(values.before),
        after: settingSaid(values.after),
      });
    case "setting":
      return say(`setting.${happened(change)}`, {
        ...args,
        before: line(settingText(values.before)),
        after: line(settingText(values.after)),
      });
    case "use":
      return values.before?.length || values.after?.length
        ? say(`use.${happened(change)}`, args)
        : say("use.same");
    case "file-renamed":
      return say(kind, {
        before: title(change.places.before?.file ?? ""),
        after: title(change.places.after?.file ?? ""),
      });
    case "file-added":
    case "file-removed":
    case "reordered":
    case "laid-out":
      return say(kind, args);
  }
}

function nameOf(concerns: Named | null): Words {
  return title(concerns?.title ?? "");
}

const nameSaid = (said: readonly Said[] | null): string => {
  const form = said?.[0]?.form;
  return form ? (namesOf(form, "name")[0] ?? namesOf(form, "face")[0] ?? "") : "";
};

function titleSaid(said: readonly Said[] | null): Words {
  const form = said?.[0]?.form;
  return title(form ? textOf(form, "title") || plain(said?.[0]?.pieces ?? []) : "");
}

const settingText = (said: readonly Said[] | null): string =>
  said?.[0] ? textOf(said[0].form, "value") : "";

function settingSaid(said: readonly Said[] | null): Words {
  return said ? line(settingText(said)) : say("severity.usual");
}

/** The stages one after the other; their names only where they are not the same on both sides. */
function tightening(change: Change, args: Args): Words {
  const { before, after } = change.values;
  const names = (said: readonly Said[] | null): string =>
    (said ?? []).map(({ form }) => namesOf(form, "stage")[0] ?? "").join();
  const withNames = happened(change) === "changed" && names(before) !== names(after);
  const stages = (said: readonly Said[] | null): Words =>
    line((said ?? []).map((one) => stage(one, withNames)).join(COMPARE_PHRASES["stage.then"]));
  const id = happened(change);
  return say(id === "changed" ? "tightening" : `tightening.${id}`, {
    ...args,
    before: stages(before),
    after: stages(after),
  });
}

function stage({ pieces, form }: Said, withName: boolean): string {
  const text = plain(pieces);
  const name = namesOf(form, "stage")[0] ?? "";
  const head = form.kind === "+stage" ? /^stage\s+\S+\s*/ : /^tighten\s+/;
  const value = text.replace(head, "");
  return withName && name !== "" ? `${name} ${value}`.trim() : value || name;
}

function changed(change: Change, args: Args): Words {
  const { what, concerns } = change;
  const id = happened(change);
  const caution = cautionOf(change);
  if (caution) {
    const more = { changed: "caution.changed", added: "caution.more", removed: "caution.less" } as const;
    return say(more[id], { ...args, ...caution });
  }
  if (isOfThing(concerns, what)) return say(`fact.${id}`, args);
  return say(`line.${id}`, args);
}

/** Whether a change is a fact of a thing, not a line of the work. */
function isOfThing(concerns: Named | null, what: string): boolean {
  return (
    what.startsWith("+") &&
    concerns !== null &&
    !["section", "step", "check", "procedure", "machine", "file"].includes(concerns.kind)
  );
}

/** The signal word and the hazard of a change about a caution. */
function cautionOf({ concerns }: Change): { kind: string; Kind: string; hazard: Words } | null {
  if (!concerns || !CAUTIONS.includes(concerns.kind)) return null;
  return { kind: concerns.kind, Kind: capital(concerns.kind), hazard: title(concerns.title) };
}

function whole(change: Change, kind: "added" | "removed" | "moved" | "regrouped", args: Args): Words {
  const caution = cautionOf(change);
  if (caution && kind !== "regrouped")
    return say(`caution.${kind}`, { ...args, ...caution, ...withoutHead(change) });
  const { what, concerns } = change;
  if (what === PROSE && kind === "moved") return say("prose.moved", args);
  const declares = concerns?.kind === what;
  return declares ? say(`block.${kind}`, args) : say(`line.${kind}`, args);
}

/** The texts of a caution without its head, which is said apart. */
function withoutHead({ values }: Change): Args {
  const texts = (said: readonly Said[] | null): Words =>
    line((said ?? []).map(({ pieces }) => plain(pieces.slice(1)).trim() || plain(pieces)).join("; "));
  return { before: texts(values.before), after: texts(values.after) };
}

function prose(change: Change, args: Args): Words {
  const { before, after } = change.values;
  const id = happened(change);
  if (id !== "changed") return say(`prose.${id}`, args);
  const [was, is] = excerpts(plain(before?.[0]?.pieces ?? []), plain(after?.[0]?.pieces ?? []));
  return say("prose.changed", { before: line(was), after: line(is) });
}

function whereOf({ steps: { before, after }, kind, what, concerns }: Change): Words | null {
  const is = after ?? before;
  if (!is || kind === "split" || kind === "joined") return null;
  // The step itself has been named in the headline.
  const itself = concerns?.kind === what && (what === "step" || what === "check");
  const shown = (step: StepNamed): Args => ({ number: String(step.number), title: title(step.title) });
  if (itself && kind === "added") return say("where.itself", shown(is));
  if (!after || (itself && kind === "removed"))
    return say(itself ? "where.itself-was" : "where.was", shown(before ?? is));
  if (!before || before.number === after.number)
    return say(itself ? "where.itself" : "where.step", shown(after));
  return say(itself ? "where.itself-moved" : "where.moved", {
    ...shown(after),
    before: String(before.number),
  });
}

function effect(one: Effect): Words {
  switch (one.id) {
    case "amount": {
      if (one.course !== "higher" && one.course !== "lower") return say(`does.${one.course}`);
      return one.percent === null
        ? say(`does.${one.course}-plain`)
        : say(`does.${one.course}`, { percent: String(one.percent) });
    }
    case "before":
    case "after":
    case "holds":
      return say(`does.${one.id}`, { others: listed(one.others, one.more) });
    case "warns-of":
    case "warned-of":
      return say(`does.${one.id}`, { act: line(plain(one.act)) });
    case "means-another":
    case "means-nothing":
      return say(`does.${one.id}`, { names: named(one.names) });
  }
}

function listed(all: readonly (readonly Piece[])[], more: number): Words {
  const said = all.map((pieces) => line(plain(pieces)));
  const join = (words: readonly Words[]): Words =>
    words.flatMap((one, i) => (i === 0 ? one : [ours(", "), ...one]));
  if (more > 0) return say("list.more", { a: join(said), count: String(more) });
  const last = said.at(-1) ?? [];
  return said.length < 2 ? last : say("list.and", { a: join(said.slice(0, -1)), b: last });
}

/** So many names are told. */
const MOST_NAMES = 5;

function named(names: readonly string[]): Words {
  const more = names.length - MOST_NAMES;
  const told = title(names.slice(0, MOST_NAMES).join(", "));
  return more > 0 ? say("list.more", { a: told, count: String(more) }) : told;
}

function touch({ procedure, steps }: Touch): Words {
  const named = title(procedure.title);
  if (steps.length === 0) return say("touches.lists", { procedure: named });
  const all = steps.map((step) =>
    say("touches.step", { number: String(step.number), title: title(step.title) }),
  );
  return say("touches.steps", {
    procedure: named,
    steps: all.flatMap((one, i) => (i === 0 ? one : [ours("; "), ...one])),
  });
}

/** What is gone, as one text for a sheet: the line, or what it was called. */
export function goneText({ values, concerns, what }: Change): string {
  if (concerns && concerns.kind === what) return concerns.title;
  const text = (values.before ?? []).map(({ pieces }) => plain(pieces)).join("; ");
  return concerns && what.startsWith("+") ? `${concerns.title}, ${text}` : text;
}
