/**
 * From what may come next on a line to what is offered: names of things that fit, units, outcomes, words.
 */
import { CONSTRUCTS, type SlotElement } from "../../grammar";
import { clauses } from "../../grammar/constructs";
import { checkOf, clausesOf, fastenerFacts, kitsOf, possibleOutcomes } from "../facts";
import { fits, type Thing } from "../model";
import { PAGES } from "../rules";
import { kinds } from "../units/dimension";
import { allUnits } from "../units/table";
import type { Unit } from "../units/unit";
import { HAZARDS } from "../walk";
import { fastenersAround, thingsInSight } from "./cursor";
import type { Expected, Filled, Said } from "./expected";
import { stillFree } from "./heads";
import { wayOf } from "./loose";
import type { Offer, OfferKind } from "./offer";
import { rankedFor, rankedTargets, rankedTools } from "./ranking";
import { nearestAbove, type Site } from "./site";

/** What is offered for something that may come next on a line that begins with `construct`. */
export function offersFor(site: Site, construct: string, expected: Expected): readonly Offer[] {
  if (expected.type === "words") return wordOffers(expected.words.join(" "), expected.said);
  const { slot, part, said } = expected;
  switch (slot.kind) {
    case "NAME":
    case "NAMES":
      return nameOffers(site, construct, slot, said);
    case "QUANTITY":
      return part === "unit" ? unitOffers(slot.accepts) : BOUNDS.map((bound) => plain(bound, "word"));
    case "POINT":
      return part === "unit" ? unitOffers(["length"]) : [];
    case "OUTCOME":
      return outcomeOffers(site, said.filled);
    case "CHOICE":
      return slot.accepts.map((word) => plain(word, "word"));
    default:
      return [];
  }
}

const BOUNDS = ["at least", "at most", "over", "under", "about"];

function plain(label: string, kind: OfferKind, detail = "", about = ""): Offer {
  return { label, text: label, kind, detail, about };
}

/** Fixed words; those that open a clause only where it still fits beside the others. */
function wordOffers(label: string, { fresh, clause, clauses: said }: Said): Offer[] {
  if (!fresh || clause === "") return [plain(label, "word")];
  const free = stillFree(
    clause,
    said.filter((id) => id !== clause),
  );
  return free ? [plain(label, "clause", "", clauses.get(clause)?.about ?? "")] : [];
}

function nameOffers(
  site: Site,
  construct: string,
  { role, accepts }: SlotElement,
  said: Said,
): readonly Offer[] {
  if (accepts.includes("stage") || said.clause === "stage") return stageOffers(site, said);
  if (accepts.length > 0) return thingOffers(site, construct, role, accepts, said);
  if (role === "code") return codeOffers();
  if (role === "hazard") return hazardOffers(site, construct, said);
  if (role === "members") return thingOffers(site, construct, role, ["member"], said);
  if (role === "direction") return wayOffers(site, said.filled);
  if (role === "act") return CONSTRUCTS.filter((c) => c.act).map((c) => plain(c.id, "word", "", c.about));
  return [];
}

function thingOffers(
  site: Site,
  construct: string,
  role: string,
  accepts: readonly string[],
  { clause, filled }: Said,
): Offer[] {
  const already = new Set(
    filled.filter((f) => f.clause === clause && f.role === role).flatMap((f) => f.words),
  );
  const itself = site.file.things.find((t) => t.line === site.row && t.named);
  const fitting = thingsInSight(site.file, site.scope).filter(
    (t) => fits(t, accepts) && !already.has(t.name) && t !== itself,
  );
  const likely = likelyFirst(site, construct, clause, [...already], filled, fitting);
  return renewedFirst(site, construct, likely).map((thing) => ({
    ...plain(thing.name, "thing", thing.title ? `${thing.kind} · ${thing.title}` : thing.kind),
    declared: thing.place,
  }));
}

/** Things in the order in which they are likely to be meant where the line stands. */
function likelyFirst(
  site: Site,
  construct: string,
  clause: string,
  already: readonly string[],
  filled: readonly Filled[],
  things: readonly Thing[],
): readonly Thing[] {
  const { scope, row } = site;
  if (clause === "with") return rankedTools(fastenersMeant(site, filled), things);
  if (clause !== "" || !scope.procedure) return things;
  if (construct === "item") return toBeRenewedFirst(scope.procedure.thing, things);
  return construct === "go-to" || construct === "repeat"
    ? rankedTargets(construct, row, things)
    : rankedFor(construct, scope.procedure, row, already, things);
}

/** For a kit: what is renewed every time first, what is in a kit already last. */
function toBeRenewedFirst(procedure: Thing, things: readonly Thing[]): readonly Thing[] {
  const inKit = new Set(kitsOf(procedure.entry).flatMap((k) => k.items.map((i) => i.thing.name)));
  const renewed = (t: Thing): boolean => clausesOf(t.entry, "renew").some((d) => d.words.includes("every"));
  const fresh = things.filter((t) => !inKit.has(t.name));
  return [
    ...fresh.filter(renewed),
    ...fresh.filter((t) => !renewed(t)),
    ...things.filter((t) => inKit.has(t.name)),
  ];
}

/** The fasteners that the line names, or that the block around it tightens. */
function fastenersMeant(site: Site, filled: readonly Filled[]): readonly Thing[] {
  const named = filled.filter((f) => f.clause === "" && f.role === "what").flatMap((f) => f.words);
  const here = named.flatMap((name) => site.scope.find(name, ["fastener"]) ?? []);
  return here.length > 0 ? here : fastenersAround(site.file, site.row);
}

/** The hazards of the machine or house, and those of the trade; first those that the signal word fits. */
function hazardOffers(site: Site, construct: string, said: Said): Offer[] {
  const own = thingOffers(site, construct, "hazard", ["hazard"], said);
  const usual = Object.entries(HAZARDS).map(([name, row]) => ({
    row,
    offer: plain(name, "word", row.least, row.arises),
  }));
  const fitting = usual.filter(({ row }) => row.least === construct);
  const others = usual.filter(({ row }) => row.least !== construct);
  return [...own, ...fitting.map((h) => h.offer), ...others.map((h) => h.offer)];
}

/** After `fit new`, what is in the kit comes first. */
function renewedFirst(site: Site, construct: string, things: readonly Thing[]): readonly Thing[] {
  if (construct !== "fit" || !/\bnew\b/.test(site.line.text) || !site.scope.procedure) return things;
  const inKit = new Set(
    kitsOf(site.scope.procedure.thing.entry).flatMap((k) => k.items.map((i) => i.thing.name)),
  );
  return [...things.filter((t) => inKit.has(t.name)), ...things.filter((t) => !inKit.has(t.name))];
}

/** In a fastener's own block a stage is declared, so nothing is offered; else the stages of the fasteners meant. */
function stageOffers(site: Site, { filled }: Said): Offer[] {
  if (site.context === "fastener") return [];
  return fastenersMeant(site, filled).flatMap((f) =>
    fastenerFacts(f.entry)
      .stages.filter((s) => s.name !== "")
      .map((s) => plain(s.name, "stage", f.name)),
  );
}

/** The way round that what is put on declares; where it is declared, or is that of a belt, the usual words. */
function wayOffers(site: Site, filled: readonly Filled[]): Offer[] {
  const named = filled.filter((f) => f.role === "what").flatMap((f) => f.words);
  const ways = named.flatMap((name) => {
    const thing = site.scope.find(name, ["part", "belt"]);
    const way = thing && wayOf(thing);
    return way ? [plain(way.name, "word", thing?.title ?? "")] : [];
  });
  return ways.length > 0 ? ways : ["clockwise", "anticlockwise"].map((d) => plain(d, "word"));
}

function codeOffers(): Offer[] {
  return PAGES.flatMap((rule) =>
    [rule.code, ...(rule.alsoCodes ?? [])].map((code) => plain(code, "code", rule.severity, rule.docs.what)),
  );
}

/** Units of the kinds that fit; where any kind does, the most used metric and imperial one of each. */
function unitOffers(accepts: readonly string[]): Offer[] {
  const units =
    accepts.length > 0 ? accepts.flatMap((kind) => allUnits.filter((u) => u.kind === kind)) : commonUnits();
  return units.map((unit) => ({
    ...plain(unit.print, "unit", unit.kind),
    text: unit.tight ? unit.print : ` ${unit.print}`,
  }));
}

function commonUnits(): Unit[] {
  return kinds
    .filter((kind) => kind !== "temperature-difference")
    .flatMap((kind) => {
      const own = allUnits.filter((u) => u.kind === kind);
      return [own.find((u) => u.system !== "imperial"), own.find((u) => u.system === "imperial")].filter(
        (u) => u !== undefined,
      );
    });
}

/** The outcomes of the check that is meant: the one named before, else the one around. */
function outcomeOffers(site: Site, filled: readonly Filled[]): Offer[] {
  const named = filled.filter((f) => f.role === "condition" || f.role === "check").at(-1)?.words[0];
  const check = named === undefined ? nearestAbove(site, "check") : site.scope.find(named, ["check"])?.entry;
  if (!check) return [];
  const facts = checkOf(check);
  const still = /\bstill\b/.test(site.line.text);
  const taken =
    named === undefined
      ? facts.outcomes.filter((o) => o.still === still && o.entry.line !== site.line).map((o) => o.outcome)
      : [];
  return possibleOutcomes(facts)
    .filter((o) => !taken.includes(o))
    .map((o) => plain(o, "outcome"));
}

/** Files that a path in quotes may lead to, as seen from the file; `use` and `follow … from` take them. */
export function fileOffers({ project, file }: Site): Offer[] {
  return [...project.files.keys()]
    .filter((path) => path !== file.path)
    .map((path) => relativePath(file.path, path))
    .sort()
    .map((path) => plain(path, "file"));
}

/** The way from one file to another, both with `/` between their folders. */
function relativePath(from: string, to: string): string {
  const own = from.split("/").slice(0, -1);
  const other = to.split("/");
  let shared = 0;
  while (shared < own.length && own[shared] === other[shared] && shared < other.length - 1) shared++;
  return [...own.slice(shared).map(() => ".."), ...other.slice(shared)].join("/");
}
