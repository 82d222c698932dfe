/**
 * Small makers for what stands in a line or a cell: words, quantities, boxes, places to write, references.
 */
import { type Language, type SheetWord, say } from "../phrases/sheet";
import type { Dual, Item, Ref, Runs, Stage } from "./blocks";
import type { Atom, Field, Tick } from "./nodes";

/** Schemes a link may have; everything else is printed as text. */
const SAFE_LINK = /^(https?:\/\/|mailto:)/i;

export function text(words: string): Atom {
  return { kind: "run", text: words, style: "text" };
}

export function strong(words: string): Atom {
  return { kind: "run", text: words, style: "strong" };
}

export const LINE_BREAK: Atom = { kind: "break" };

/** The writer's runs, links with an unsafe address made into text. */
export function runs(written: Runs | undefined): Atom[] {
  return (written ?? []).map((run): Atom => {
    if (run.style !== "link") return { kind: "run", text: run.text, style: run.style };
    return run.href !== undefined && SAFE_LINK.test(run.href)
      ? { kind: "run", text: run.text, style: "link", href: run.href }
      : text(run.text);
  });
}

export function quantity(words: string): Atom {
  return { kind: "run", text: words, style: "quantity" };
}

/** A quantity in both units: `22 N·m (16 lb·ft)`. */
export function dual(value: Dual | undefined): Atom[] {
  if (value === undefined) return [];
  return value.other === undefined
    ? [quantity(value.value)]
    : [quantity(value.value), text(" "), quantity(`(${value.other})`)];
}

/** A quantity in one string, both units. */
export function dualText(value: Dual): string {
  return value.other === undefined ? value.value : `${value.value} (${value.other})`;
}

export function tick(id: string, name: string, label = "", size: Tick["size"] = "small"): Tick {
  return { kind: "tick", id, label, name, size };
}

/** Boxes, one a label. The ids are the item's id with the place in the row. */
export function ticks(id: string, name: string, labels: readonly string[]): Tick[] {
  return labels.map((label, index) => tick(`${id}.box${index + 1}`, `${name} ${label}`.trim(), label));
}

/** The atoms with room between them. */
export function spaced(atoms: readonly Atom[]): Atom[] {
  return atoms.flatMap((atom) => [text("  "), atom]);
}

/** A place to write that fills its cell. */
export function cell(id: string, name: string, input: Field["input"] = "text"): Field {
  return { kind: "field", id, name, size: "cell", input, unit: "" };
}

/** The numbers of steps, each leading there: `4, 12`. */
export function stepNumbers(refs: readonly Ref[]): Atom[] {
  const seen = refs.filter((ref, index) => refs.findIndex((other) => other.id === ref.id) === index);
  return seen.flatMap((ref, index): Atom[] => [
    ...(index > 0 ? [text(", ")] : []),
    { kind: "ref", text: ref.number, to: ref.id },
  ]);
}

/** Says a phrase in which steps are named (`{step}`, `{back}`), each leading to its step. */
export function sayWithSteps(
  language: Language,
  id: SheetWord,
  steps: Readonly<Record<string, Ref>>,
): Atom[] {
  const parts = say(language, id).split(/(\{\w+\})/);
  return parts
    .filter((part) => part !== "")
    .map((part): Atom => {
      const ref = steps[part.slice(1, -1)];
      return ref === undefined || !part.startsWith("{")
        ? strong(part)
        : { kind: "ref", text: say(language, "step", { number: ref.number }), to: ref.id };
    });
}

/** One stage of tightening as it stands in a line: its name, its value, and the wrench's setting where that differs. */
export function stage(language: Language, of: Stage): Atom[] {
  return [
    ...(of.name === undefined ? [] : [{ kind: "badge", text: of.name, look: "outline" } as const, text(" ")]),
    { kind: "chip", value: of.value.value, other: of.value.other ?? "" },
    ...(of.setting === undefined
      ? []
      : [text("  "), ...parted(say(language, "setting"), dualText(of.setting))]),
  ];
}

/** A phrase around a quantity that stands in it as `{value}`. */
function parted(words: string, value: string): Atom[] {
  return words
    .split(/(\{value\})/)
    .filter(Boolean)
    .map((part) => (part === "{value}" ? quantity(value) : text(part)));
}

/** What a node takes over from the item it stands for. */
export function base(item: Item): { id: string; changed: boolean } {
  return { id: item.id, changed: item.changed === true };
}

/** The words of atoms as plain text, for names that a screen reader says. */
export function plain(atoms: readonly Atom[]): string {
  return atoms
    .map((atom) => (atom.kind === "run" || atom.kind === "ref" ? atom.text : ""))
    .join("")
    .trim();
}
