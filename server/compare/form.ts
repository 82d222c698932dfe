/**
 * The normal form of a project: what its files say, without how it is laid out. Every line is a node, every clause of a
 * line one of its children, whether it stood behind the line's head or alone in the block. Plain data.
 */

/** A quantity as it is printed, and what it means, in SI units. */
export interface QuantityValue {
  readonly kind: "quantity";
  /** In the usual spelling, with its other unit where the writer gave one. */
  readonly text: string;
  /** `unread` where it could not be read. */
  readonly shape: string;
  readonly low: number | null;
  readonly high: number | null;
  /** The value meant: `30 +3/-1` and `32 +1/-3` have the same limits. Null for a range or a bound. */
  readonly nominal: number | null;
  /** Which ends are within. */
  readonly ends: readonly [boolean, boolean];
  /** The last written digit, in SI units; 0 for what is exact. */
  readonly step: number;
  /** Of its unit: `metric`, `imperial`, `both`; empty where it could not be read. */
  readonly system: string;
}

/** What stands in a place of a line. */
export type Value =
  | { readonly kind: "names"; readonly names: readonly string[] }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "count"; readonly count: number | null }
  | { readonly kind: "holes"; readonly holes: readonly number[] }
  | { readonly kind: "point"; readonly at: readonly (QuantityValue | null)[] }
  | QuantityValue;

/** A place of a line, filled in. */
export interface SlotForm {
  readonly role: string;
  readonly value: Value;
}

/** What a node says by itself. */
export interface Own {
  /** A construct's id, or a clause's with `+` before it; `prose`; `unread` for a line that could not be read. */
  readonly kind: string;
  /** The fixed words said: `new`, `still`, `back`. */
  readonly words: readonly string[];
  readonly slots: readonly SlotForm[];
}

/** A node of the normal form. Clauses come first, by their kind; the rest stands in the order of the text. */
export interface Form extends Own {
  readonly children: readonly Form[];
}

/** The kinds of node that no line has: the project, a file of it, its settings and one of them. */
export const PROJECT = "project";
export const FILE = "file";
export const SETTINGS = "settings";
export const SETTING = "setting";
export const PROSE = "prose";
export const UNREAD = "unread";

/** Whether a node is a clause. */
export const isClause = (node: { readonly kind: string }): boolean => node.kind.startsWith("+");

/** What a node says by itself, without what stands in it. */
export function ownOf({ kind, words, slots }: Own): Own {
  return { kind, words, slots };
}

/** Whether two values are the same data. */
export function sameData(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** The text in a place; empty where there is none. */
export function textOf(own: Own, role: string): string {
  const value = own.slots.find((slot) => slot.role === role)?.value;
  return value?.kind === "text" ? value.text : "";
}

/** The names in a place. */
export function namesOf(own: Own, role: string): readonly string[] {
  const value = own.slots.find((slot) => slot.role === role)?.value;
  return value?.kind === "names" ? value.names : [];
}
