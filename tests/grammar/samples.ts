/**
 * Lines made from the table of constructs: every form, with and without its optional parts, each of several in turn.
 */
import type { Element, SlotElement } from "../../grammar";

const FIGURES: Readonly<Record<string, string>> = {
  torque: "22 N·m",
  angle: "90°",
  time: "3 h 30 min",
  length: "25 mm",
  mass: "4 kg",
  volume: "4.2 L",
  temperature: "40 °C",
};

/** Something that may stand in a place; names are `names` in turn, so that they can be keywords too. */
function slotSample({ kind, accepts }: SlotElement, names: readonly string[]): string {
  const [first = "alpha", second = "beta"] = names;
  switch (kind) {
    case "NAME":
      return first;
    case "NAMES":
      return `${first}, ${second}`;
    case "TEXT":
      return '"A \\"text\\""';
    case "QUANTITY":
      return FIGURES[accepts[0] ?? ""] ?? "0.05 to 0.15 mm";
    case "COUNT":
      return "3";
    case "NUMBER":
      return "1/2";
    case "HOLES":
      return "1, 4 to 6";
    case "POINT":
      return "110 mm, 240 mm";
    case "DATE":
      return "2026-11-20";
    case "THREAD":
      return "M12 x 1.25";
    case "GRADE":
      return "A2-70";
    case "OUTCOME":
      return "not met";
    case "CHOICE":
      return accepts[0] ?? "";
  }
}

/** Samples of a form: with all its optional parts and with none, each option of a choice in turn. */
export function samplesOf(elements: readonly Element[], names: readonly string[] = []): string[] {
  const all = new Set<string>();
  for (const optional of [true, false])
    for (let option = 0; option < 4; option++) all.add(sample(elements, names, optional, option));
  return [...all];
}

function sample(
  elements: readonly Element[],
  names: readonly string[],
  optional: boolean,
  option: number,
): string {
  const inner = (more: readonly Element[] = []): string => sample(more, names, optional, option);
  const word = (element: Element): string => {
    switch (element.type) {
      case "word":
        return element.word;
      case "slot":
        return slotSample(element, names);
      case "optional":
        return optional ? inner(element.elements) : "";
      case "choice":
        return inner(element.options[option % element.options.length]);
    }
  };
  return elements
    .map(word)
    .filter((text) => text !== "")
    .join(" ");
}
