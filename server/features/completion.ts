/**
 * Completion that knows what fits: worked out from the text before the cursor, so that it works on a line that is
 * not finished.
 */
import { constructs, type Position } from "../../grammar";
import { formsByHead, type LineForm } from "../../grammar/constructs";
import { lexLine, tokenEnd } from "../../grammar/tokens";
import type { Place, Project } from "../model";
import { aboutThing } from "./about";
import { expectedAfter, type Said } from "./expected";
import { clauseMayStand, headOffers, mayStand } from "./heads";
import { samePlace } from "./mentions";
import type { Offer } from "./offer";
import { fileOffers, offersFor } from "./offers";
import { type Site, siteOf } from "./site";

/** One thing that may be written, and the stretch of the cursor's line that it takes the place of. */
export interface Completion extends Offer {
  readonly start: number;
  readonly end: number;
}

interface Word {
  readonly image: string;
  readonly start: number;
  readonly end: number;
}

/** What there is to tell of an offer, a sentence each: on a thing, the facts of its own block. */
export function completionDetails(project: Project, { about, declared }: Offer): readonly string[] {
  const file = declared && project.files.get(declared.file);
  const thing = file?.things.find((t) => samePlace(t.place, declared as Place));
  if (!file || !thing) return about === "" ? [] : [about];
  return aboutThing(thing, file.machines.find((m) => m.thing.owns === thing.owner) ?? null);
}

/** The start of a word, or of the sign of a unit, that ends at the cursor. */
const PARTIAL = /[\p{L}_°%Ω′″][\p{L}\p{M}\p{N}_\-‑·⋅∙./°²³]*$/u;
const REST_OF_WORD = /^[\p{L}\p{M}\p{N}_\-‑·⋅∙°²³]*/u;

/** What may be written at a position, best first; nothing in a comment or in prose. */
export function completion(project: Project, path: string, position: Position): readonly Completion[] {
  const site = siteOf(project, path, position.line);
  if (!site) return [];
  const { text } = site.line;
  const before = text.slice(0, position.character);
  const words = lexLine(before).map(
    (t): Word => ({ image: t.image, start: t.startOffset, end: tokenEnd(t) }),
  );
  const last = words.at(-1);
  if (last?.image.startsWith("//")) return [];
  if (last && isOpen(last)) return inString(site, words.slice(0, -1), last, text);
  const start = before.length - (PARTIAL.exec(before)?.[0].length ?? 0);
  const end =
    position.character +
    (start < before.length ? (REST_OF_WORD.exec(text.slice(position.character))?.[0].length ?? 0) : 0);
  const complete = words.filter((w) => w.start < start);
  const offers = complete.length === 0 ? headOffers(site) : offersAfter(site, complete);
  return placed(offers, start, end, /[\d.]$/.test(before.slice(0, start)));
}

const isOpen = ({ image }: Word): boolean => image.startsWith('"') && !/^"(?:[^"\\]|\\.)*"$/.test(image);

/** In a string only paths are offered: up to the closing quote, if there is one. */
function inString(site: Site, before: readonly Word[], open: Word, text: string): readonly Completion[] {
  const wanted = formsHere(site, before).flatMap((form) => expectedAfter(form, before));
  if (!wanted.some((e) => e.type === "slot" && e.slot.kind === "TEXT" && e.slot.role === "path")) return [];
  const rest = /^[^"{]*/.exec(text.slice(open.start + 1))?.[0] ?? "";
  const offers = before[0]?.image === "figure" ? [] : fileOffers(site);
  return placed(offers, open.start + 1, open.start + 1 + rest.trimEnd().length, false);
}

function offersAfter(site: Site, words: readonly Word[]): readonly Offer[] {
  if (words.at(-1)?.image === "{") return [];
  const forms = formsHere(site, words);
  const expected = forms
    .map((form) => ({ form, next: expectedAfter(form, words) }))
    .filter(({ next }) => next.length > 0);
  const offers = expected.flatMap(({ form, next }) => next.flatMap((e) => offersFor(site, form.id, e)));
  return expected.length > 0 ? offers : forms.flatMap((form) => restOf(site, form, words));
}

/** The forms that the first word begins, those that may stand here before all. */
function formsHere(site: Site, words: readonly Word[]): readonly LineForm[] {
  const forms = formsByHead.get(words[0]?.image ?? "") ?? [];
  const standing = forms.filter((form) => {
    const construct = constructs.get(form.id);
    return form.clause ? clauseMayStand(form.id, site) : construct !== undefined && mayStand(construct, site);
  });
  return standing.length > 0 ? standing : forms;
}

/** Where the line is wrong before the cursor: the clauses of which the first word does not stand on it. */
function restOf(site: Site, form: LineForm, words: readonly Word[]): readonly Offer[] {
  const images = new Set(words.slice(1).map((w) => w.image));
  const said = form.follow.filter((id) => images.has(firstWord(id)));
  const free = form.follow.filter((id) => !said.includes(id));
  return free.flatMap((id) => {
    const opening: Said = { clause: id, filled: [], clauses: said, fresh: true };
    return offersFor(site, form.id, { type: "words", words: [firstWord(id)], said: opening });
  });
}

const clauseHeads: ReadonlyMap<string, string> = new Map(
  [...formsByHead].flatMap(([head, forms]) =>
    forms.filter((f) => f.clause).map((f) => [f.id, head] as const),
  ),
);
const firstWord = (clause: string): string => clauseHeads.get(clause) ?? "";

/** The offers at their place, each label once; a unit keeps its space only where a figure stands against it. */
function placed(
  offers: readonly Offer[],
  start: number,
  end: number,
  afterFigure: boolean,
): readonly Completion[] {
  const byLabel = new Map<string, Completion>();
  for (const offer of offers) {
    const text = offer.kind === "unit" && !afterFigure ? offer.text.trimStart() : offer.text;
    if (!byLabel.has(offer.label)) byLabel.set(offer.label, { ...offer, text, start, end });
  }
  return [...byLabel.values()];
}
