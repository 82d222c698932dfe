/**
 * The job in the order of its text, with the procedures it follows joined in: each line and block with an id that
 * stays the same from one revision to the next, and steps and checks with their number.
 */
import { constructs } from "../../grammar";
import { clauseOf, type Entry, namesIn, textIn } from "../facts";
import { isNumbered, joinedBy, type Numbered, numbering } from "./numbering";
import type { Procedure, Project, Thing } from "./types";

/** A line or block of the job, where it stands in the job. */
export interface Spot {
  readonly entry: Entry;
  readonly file: string;
  /** Line of its head, from 0. */
  readonly line: number;
  /** The procedure it is written in, in whose sight its names mean what they mean. */
  readonly procedure: Procedure;
  /** By which `follow`s the procedure was reached; empty in the job's own. */
  readonly trail: string;
  /** The section, step or check it declares. */
  readonly thing: Thing | null;
  /** Unique in the job, and made of words, names and titles, so that edits elsewhere leave it alone. */
  readonly id: string;
  /** Its place among the spots of the job. */
  readonly index: number;
  /** A step's or check's number in the series, from 1. */
  readonly number: number | null;
  readonly parent: Spot | null;
  readonly children: readonly Spot[];
}

/** A job in order. */
export interface Job {
  /** The head of the procedure itself. */
  readonly root: Spot;
  /** Everything in it, each before what stands in it. */
  readonly spots: readonly Spot[];
  /** Steps and checks, by number. */
  readonly steps: readonly Spot[];
  /** The heads of the procedures joined in, in order, the job's own first; one that is followed twice stands twice. */
  readonly procedures: readonly Spot[];
  /** Where a section, step or check stands, as seen from somewhere in the job. */
  readonly spotOf: (thing: Thing, from: Spot) => Spot | undefined;
}

/** The job of a procedure. */
export function jobOf(project: Project, procedure: Procedure): Job {
  const numbered = numbering(procedure);
  const maker: Maker = {
    project,
    numbered,
    spots: [],
    steps: [],
    procedures: [],
    ids: new Set(),
    byThing: new Map(),
  };
  const root = join(maker, procedure, null, "", [procedure.thing]);
  const { spots, steps, procedures, byThing } = maker;
  return {
    root,
    spots,
    steps,
    procedures,
    spotOf: (thing, from) => byThing.get(keyOf(from.trail, thing)) ?? byThing.get(keyOf("", thing)),
  };
}

/** The step or check that a place of the job lies in; itself where it is one. */
export function stepAround(spot: Spot): Spot | null {
  for (let at: Spot | null = spot; at; at = at.parent) if (at.number !== null) return at;
  return null;
}

/** What is being made; the arrays of the spots in it are still growing. */
interface Maker {
  readonly project: Project;
  readonly numbered: readonly Numbered[];
  readonly spots: Spot[];
  readonly steps: Spot[];
  readonly procedures: Spot[];
  readonly ids: Set<string>;
  readonly byThing: Map<string, Spot>;
}

/** What all spots of one joined procedure share. */
interface Joined {
  readonly procedure: Procedure;
  readonly trail: string;
  /** The procedures around it, itself included. */
  readonly around: readonly Thing[];
  readonly targets: ReadonlyMap<number, Thing>;
}

const keyOf = (trail: string, thing: Thing): string => `${trail} ${thing.id} ${thing.line}`;

function join(
  maker: Maker,
  procedure: Procedure,
  parent: Spot | null,
  trail: string,
  around: readonly Thing[],
): Spot {
  const targets = new Map(procedure.targets.map((target) => [target.line, target]));
  const { entry, line } = procedure.thing;
  return add(maker, { procedure, trail, around, targets }, entry, line, parent, trail);
}

function add(
  maker: Maker,
  joined: Joined,
  entry: Entry,
  line: number,
  parent: Spot | null,
  prefix: string,
): Spot {
  const { procedure, trail } = joined;
  const children: Spot[] = [];
  const thing = joined.targets.get(line) ?? null;
  const spot: Spot = {
    entry,
    file: procedure.thing.file,
    line,
    procedure,
    trail,
    thing,
    id: uniqueId(maker, [prefix, keyWords(entry)].filter(Boolean).join("/")),
    index: maker.spots.length,
    number: isNumbered(entry) ? (maker.numbered[maker.steps.length]?.number ?? null) : null,
    parent,
    children,
  };
  enter(maker, spot);
  // Sections and steps are named by themselves alone, so that they keep their id in another section.
  const inside = entry.construct === "procedure" || entry.construct === "section" ? prefix : spot.id;
  for (const child of entry.children) {
    const start = isTarget(child.entry) ? trail : inside;
    children.push(add(maker, joined, child.entry, line + child.row, spot, start));
  }
  const other = joinedBy(
    maker.procedures[0]?.procedure ?? procedure,
    entry,
    joined.around,
    maker.steps.length,
  );
  const followed = other && procedureOf(maker.project, other);
  if (followed) children.push(join(maker, followed, spot, spot.id, [...joined.around, followed.thing]));
  return spot;
}

function enter(maker: Maker, spot: Spot): void {
  maker.spots.push(spot);
  if (spot.number !== null) maker.steps.push(spot);
  if (spot.entry.construct === "procedure") maker.procedures.push(spot);
  if (spot.thing) {
    const key = keyOf(spot.trail, spot.thing);
    if (!maker.byThing.has(key)) maker.byThing.set(key, spot);
  }
}

const isTarget = (entry: Entry): boolean => isNumbered(entry) || entry.construct === "section";

function procedureOf(project: Project, thing: Thing): Procedure | undefined {
  return project.files.get(thing.file)?.procedures.find((one) => one.thing === thing);
}

/** What an entry is called in an id: its word and its names, never its figures or its prose. */
function keyWords(entry: Entry): string {
  const { form, construct } = entry;
  const name = namesIn(form, "name")[0]?.name;
  if (isTarget(entry) || construct === "procedure") return `${construct}:${name ?? textIn(form, "title")}`;
  const names = constructs.get(construct)?.declares
    ? [name]
    : form.slots.flatMap((slot) => slot.names.map((n) => n.name));
  const outcome = construct === "if" || construct === "when" ? textIn(form, "outcome") : "";
  const still = form.words.includes("still") ? "still" : "";
  const stage = namesIn(clauseOf(entry, "to-stage"), "stage")[0]?.name;
  const words = [still, ...names, outcome, stage].filter(Boolean).join(",");
  return words === "" ? construct : `${construct}:${words}`;
}

function uniqueId(maker: Maker, wanted: string): string {
  let id = wanted;
  for (let count = 2; maker.ids.has(id); count += 1) id = `${wanted}#${count}`;
  maker.ids.add(id);
  return id;
}
