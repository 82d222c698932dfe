/** Short ways to write a sheet by hand. */
import type { Action, Dual, Panel, Ref, Run, Runs, Step, Work } from "../../server/sheet/blocks";

/** Runs from a text in which `*…*` is strong, `_…_` is emphasis and `‹…›` is a quantity. */
export function words(text: string): Runs {
  const styles: Record<string, Run["style"]> = { "*": "strong", _: "em", "‹": "quantity" };
  return text
    .split(/(\*[^*]+\*|_[^_]+_|‹[^›]+›)/)
    .filter((part) => part !== "")
    .map((part) => {
      const style = styles[part.charAt(0)];
      return style === undefined ? { text: part, style: "text" } : { text: part.slice(1, -1), style };
    });
}

export function ref(number: number): Ref {
  return { id: `step-${number}`, number: String(number) };
}

export function refs(...numbers: number[]): Ref[] {
  return numbers.map(ref);
}

export function dual(value: string, other?: string): Dual {
  return other === undefined ? { value } : { value, other };
}

export function act(id: string, sentence: string, more: Partial<Action> = {}): Action {
  return { kind: "action", id, sentence: words(sentence), ...more };
}

export function panel(
  id: string,
  signal: Panel["signal"],
  hazard: string,
  consequence: string,
  avoid: string,
): Panel {
  return {
    kind: "panel",
    id,
    signal,
    hazard: words(hazard),
    consequence: words(consequence),
    avoid: words(avoid),
  };
}

export function step(number: number, title: string, body: readonly Work[]): Step {
  return { kind: "step", id: `step-${number}`, number: String(number), title, body, outcomes: [] };
}

export const TORQUE_22: Dual = dual("22 N·m", "16 lb·ft");
