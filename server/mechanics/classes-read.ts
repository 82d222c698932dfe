/**
 * From what a writer calls a bolt's class to the class, and where it is none, to the ones probably meant.
 */
import { allClasses, type BoltClass } from "./classes";
import type { Thread } from "./threads";

/**
 * Why a text names no class.
 * - `not-a-class`: it does not read as one.
 * - `unknown-class`: it reads as one, but none is so called.
 * - `other-class`: it is of a kind that is not held here (stainless of 2020 and other structures, as A4-100, C1-70, D4-80, F1-60):
 *   nothing can be said of it.
 * - `ambiguous`: it may be a grade of inch bolts, or a nut's class; `near` has the bolt classes.
 */
export type ClassProblem = "not-a-class" | "unknown-class" | "other-class" | "ambiguous";

/** A text that names no class, with those it may have meant, the likeliest first. */
export interface ClassRefusal {
  readonly problem: ClassProblem;
  readonly near: readonly string[];
}

const designated = (designation: string): BoltClass | undefined =>
  allClasses.find((one) => one.designation === designation);

/**
 * The class a text names: `8.8`, `class 10.9`, `A2-70`, `grade 5`, `SAE J429 grade 8`, `5.2`. A bare whole number is a grade only
 * where the thread is known to be an inch thread: beside a metric one it would be a nut's class (ISO 898-2).
 */
export function classOf(text: string, thread?: Thread): BoltClass | ClassRefusal {
  const said = text.normalize("NFC").trim().replace(/\s+/g, " ");
  if (said.length > 40) return refuse("not-a-class");
  if (otherStainless.test(said)) return refuse("other-class");
  const [, group, strength] = /^a([1-5])\s?[-\u2010\u2011\u2013 ]\s?(\d{2,3})$/i.exec(said) ?? [];
  if (group !== undefined)
    return designated(`A${group}-${strength}`) ?? refuse("unknown-class", stainlessOf(group));
  const [, onlyGroup] = /^a([1-5])$/i.exec(said) ?? [];
  if (onlyGroup !== undefined) return refuse("unknown-class", stainlessOf(onlyGroup));
  const [, prefix, figure = ""] =
    /^(class |property class |sae(?: j429)?(?: grade)? ?|j429(?: grade)?[ -]?|grade |gr\.? ?)?(\d{1,2}(?:\.\d)?)$/i.exec(
      said,
    ) ?? [];
  if (figure === "") return refuse("not-a-class");
  return numbered(figure, /^(?:sae|j429|gr)/i.test(prefix ?? ""), thread?.system === "unified");
}

/** Austenitic classes that came with ISO 3506-1:2020, duplex (D), ferritic (F) and martensitic (C) steels (from memory). */
const otherStainless =
  /^(?:a[2-5]l?-?100|a8-?(?:70|80|100)|a[24]l-?(?:50|70|80)|d[2468]-?(?:70|80|100)|f1-?(?:45|60)|c[134]-?(?:50|70|80|110))$/i;

/** Whether a reading gave a class. */
export function isClass(read: BoltClass | ClassRefusal): read is BoltClass {
  return "designation" in read;
}

function numbered(figure: string, saidGrade: boolean, inchThread: boolean): BoltClass | ClassRefusal {
  const grade = designated(`grade ${figure}`);
  const steel = designated(figure);
  const whole = !figure.includes(".");
  if (grade !== undefined && (saidGrade || inchThread || !whole)) return grade;
  if (steel !== undefined) return steel;
  const near = saidGrade ? nearGrades(Number(figure)) : nearSteels(figure);
  return whole && !saidGrade
    ? refuse("ambiguous", grade ? [...near, grade.designation] : near)
    : refuse("unknown-class", near);
}

const stainlessOf = (group: string): string[] =>
  ["50", "70", "80"].map((strength) => `A${group}-${strength}`);

/** The classes whose name begins like the figure, else the two whose name is nearest as a number. */
function nearSteels(figure: string): string[] {
  const steels = allClasses.filter((one) => one.standard === "ISO 898-1").map((one) => one.designation);
  const alike = steels.filter((one) => one.split(".")[0] === figure.split(".")[0]);
  return alike.length > 0 ? alike : nearest(steels, (one) => Math.abs(Number(one) - Number(figure)));
}

function nearGrades(figure: number): string[] {
  const grades = allClasses.filter((one) => one.standard === "SAE J429").map((one) => one.designation);
  return nearest(grades, (one) => Math.abs(Number(one.slice("grade ".length)) - figure));
}

const nearest = (all: readonly string[], distance: (one: string) => number): string[] =>
  [...all].sort((a, b) => distance(a) - distance(b)).slice(0, 2);

function refuse(problem: ClassProblem, near: readonly string[] = []): ClassRefusal {
  return { problem, near };
}
