/**
 * What all makers of the sheet's blocks have in hand: the job, the options, and the ways to say a thing, a quantity, a
 * step.
 */
import { type Detail, type NameAt, slotIn } from "../facts";
import { type Job, type Project, type Spot, stepAround, type Thing } from "../model";
import { type JobWord, jobTemplate } from "../phrases/job";
import { type Language, say } from "../phrases/sheet";
import type { Amount } from "../units/amount";
import { formatQuantity, inOtherUnits, type QuantityStyle, type QuantityWords } from "../units/format";
import type { Quantity } from "../units/quantity";
import { fromSi, type Unit } from "../units/unit";
import type { Use, Uses } from "./build-uses";
import { job as jobWords, list, plain, strong } from "./fill";
import type { Dual, Range, Ref, Run, Runs } from "./inline";
import type { Drawing } from "./work";

/** How a sheet is to be made. */
export interface SheetOptions {
  /** Language of the words we add; the writer's own stay. */
  readonly language: Language;
  readonly paper: "a4" | "letter";
  /** Which side of the workshop is shown; `both` shows the writer's unit first. */
  readonly units: "both" | "metric" | "imperial";
  /** Marks every page DRAFT; so does `status draft` in the procedure. */
  readonly draft: boolean;
  /** The bytes of a picture by the file a link leads to. */
  readonly pictures: (file: string) => Uint8Array | undefined;
}

export interface Build extends SheetOptions {
  readonly project: Project;
  readonly job: Job;
  readonly uses: Uses;
  readonly drawings: DrawingPlan;
}

/** Where the drawings of a job stand. */
export interface DrawingPlan {
  /** The drawings that stand behind an act on things. */
  readonly behind: (use: Use, things: readonly Thing[]) => readonly Drawing[];
  /** The drawings that show an act on things, wherever they stand; each once. */
  readonly shownIn: (use: Use, things: readonly Thing[]) => readonly Ref[];
}

export const NO_DRAWINGS: DrawingPlan = { behind: () => [], shownIn: () => [] };

/** A phrase of a procedure's lists, filled in. */
export function words(
  build: Build,
  word: JobWord,
  args: Readonly<Record<string, Runs | undefined>> = {},
): Runs {
  return jobWords(build.language, word, args);
}

/** What a thing is called on the sheet: its title, or its name with spaces where it has none. */
export function titleOf(thing: Titled): string {
  return thing.title || thing.name.replaceAll("-", " ");
}

/** A thing that a name means, as seen from a place of the job. */
export function thingAt(
  spot: Spot,
  name: NameAt | null | undefined,
  accepts: readonly string[] = [],
): Thing | undefined {
  return name ? spot.procedure.find(name.name, accepts) : undefined;
}

/** The things that the names in a slot mean; unknown ones are left out. */
export function thingsIn(
  spot: Spot,
  detail: Detail | undefined,
  ...roles: readonly string[]
): readonly Thing[] {
  return roles.flatMap((role) => {
    const slot = slotIn(detail, role);
    return (slot?.names ?? []).flatMap((name) => thingAt(spot, name, slot?.accepts) ?? []);
  });
}

/** Something with a title, or with a name alone. */
export type Titled = Pick<Thing, "name" | "title">;

/** What the names in a slot mean; a name that means nothing stands for itself. */
export function saidIn(
  spot: Spot,
  detail: Detail | undefined,
  ...roles: readonly string[]
): readonly Titled[] {
  return roles.flatMap((role) => {
    const slot = slotIn(detail, role);
    return (slot?.names ?? []).map(
      (name) => thingAt(spot, name, slot?.accepts) ?? { name: name.name, title: "" },
    );
  });
}

/** Things by their titles, as a list; nothing for none. */
export function titles(
  build: Build,
  things: readonly Titled[],
  word: "list.two" | "list.or" = "list.two",
): Runs {
  const said = [...new Set(things.map(titleOf))];
  return list(build.language, said.map(strong), word);
}

/** The step or check at a place of the job, to be pointed at. */
export function refOf(spot: Spot): Ref {
  return { id: spot.id, number: String(spot.number ?? "") };
}

/** The steps and checks in which places of the job lie, each once, in order. */
export function refsOf(spots: readonly Spot[]): readonly Ref[] {
  const steps = new Set(spots.map(stepAround).filter((step) => step !== null));
  return [...steps].sort((a, b) => (a.number ?? 0) - (b.number ?? 0)).map(refOf);
}

/** `step 12`, never parted. */
export function stepWords(build: Build, number: string): Runs {
  return plain(say(build.language, "step", { number }).replaceAll(" ", "\u00a0"));
}

/** `step 12` or `steps 7, 9 and 12`. */
export function stepsWords(build: Build, refs: readonly Ref[]): Runs {
  const numbers = refs.map((ref) => plain(ref.number));
  const [a, b] = [numbers.slice(0, -1), numbers.at(-1)];
  if (refs.length < 2) return refs[0] ? stepWords(build, refs[0].number) : [];
  return a.length === 1
    ? words(build, "steps.two", { a: a[0], b })
    : words(build, "steps.more", { list: separated(a), b });
}

function separated(items: readonly Runs[]): Runs {
  return items.flatMap((item, index) => (index === 0 ? item : [...plain(", "), ...item]));
}

/** `step 12, *Fit the belt*`. */
export function stepTitled(build: Build, spot: Spot): Runs {
  const title = spot.thing ? titleOf(spot.thing) : "";
  return words(build, "step-titled", {
    step: stepWords(build, String(spot.number ?? "")),
    title: strong(title),
  });
}

/** The step that a step, a check or a section begins with, as seen from a place of the job. */
export function targetOf(build: Build, from: Spot, name: NameAt | undefined): Spot | undefined {
  const thing = thingAt(from, name, ["step", "check", "section"]);
  const spot = thing && build.job.spotOf(thing, from);
  return spot && firstStep(spot);
}

/** The first step in a place of the job, itself included. */
export function firstStep(spot: Spot): Spot | undefined {
  if (spot.number !== null) return spot;
  for (const child of spot.children) {
    const found = firstStep(child);
    if (found) return found;
  }
  return undefined;
}

/** A quantity as the sheet shows it: the figure that counts, and the one beside it. */
export function shown(
  build: Build,
  quantity: Quantity,
): { readonly main: Quantity; readonly beside: Quantity | null } {
  const other = inOtherUnits(quantity);
  if (build.units === "both") return { main: { ...quantity, other: null }, beside: other };
  const wanted = [quantity, other].find((one) => one?.unit.system === build.units) ?? quantity;
  return { main: { ...wanted, other: null }, beside: null };
}

/** A quantity ready to print. */
export function dual(build: Build, quantity: Quantity): Dual {
  const { main, beside } = shown(build, quantity);
  const style = styleOf(build.language);
  const value = formatQuantity(main, style);
  return beside === null ? { value } : { value, other: formatQuantity({ ...beside, other: null }, style) };
}

/** A quantity in a sentence: `22 N·m (16 lb·ft)`. */
export function quantityRuns(build: Build, quantity: Quantity | null | undefined): Runs {
  return quantity ? dualRuns(dual(build, quantity)) : [];
}

export function dualRuns({ value, other }: Dual): Runs {
  const run = (text: string): Run => ({ text, style: "quantity" });
  return other === undefined ? [run(value)] : [run(value), ...plain(" "), run(`(${other})`)];
}

/** The unit a value is written in, and what lies within the limit in that unit. */
export function rangeOf(build: Build, quantity: Quantity): { readonly unit: string; readonly range: Range } {
  const { low, high, lowIncluded, highIncluded, unit } = shown(build, quantity).main;
  const figure = (amount: Amount): number =>
    amount.unit === unit ? amount.decimal.value : Number(fromSi(amount.si, unit).toPrecision(12));
  return {
    unit: unit.print,
    range: {
      ...(low === null ? {} : { min: figure(low), ...(lowIncluded ? {} : { minOpen: true as const }) }),
      ...(high === null ? {} : { max: figure(high), ...(highIncluded ? {} : { maxOpen: true as const }) }),
    },
  };
}

/** Figures as a language spells them: its decimal mark, its words around ranges, its words for turns and days. */
export function styleOf(language: Language): QuantityStyle {
  return {
    point: language === "en" ? "." : ",",
    words: quantityWords(language),
    spell: (unit, value) => spelled(language, unit, value),
  };
}

const SHAPES = [
  "exact",
  "range",
  "range-over",
  "range-under",
  "range-between",
  "at-least",
  "at-most",
  "over",
  "under",
  "tolerance",
  "deviations",
  "about",
  "beside",
] as const;

function quantityWords(language: Language): QuantityWords {
  return Object.fromEntries(
    SHAPES.map((shape) => [shape, jobTemplate(language, `quantity.${shape}`)]),
  ) as QuantityWords;
}

function spelled(language: Language, { id }: Unit, value: number): string | undefined {
  if (id !== "turn" && id !== "day" && id !== "week") return undefined;
  const size = Math.abs(value);
  return jobTemplate(language, size > 1 || size === 0 ? `unit.${id}s` : `unit.${id}`);
}

/** Items by what they have in common, in the order in which they first come. */
export function grouped<T, K>(items: readonly T[], keyOf: (item: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return groups;
}

/** Where an item comes from, for whoever wants to lead back to the source. */
export function itemOf(
  spot: Spot,
  suffix = "",
): { readonly id: string; readonly source: { readonly file: string; readonly line: number } } {
  return { id: `${spot.id}${suffix}`, source: { file: spot.file, line: spot.line } };
}

/** An item about a thing: a click on it leads to where the thing is declared. */
export function itemFor(
  thing: Thing,
  id: string,
): { readonly id: string; readonly source: { readonly file: string; readonly line: number } } {
  return { id, source: { file: thing.file, line: thing.line } };
}
