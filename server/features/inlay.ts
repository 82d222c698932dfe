/**
 * What an editor may write between the words of the writer, without its being part of the text: figures in the other
 * unit, and the numbers that steps and checks have on the sheet.
 */
import { constructs, type Line } from "../../grammar";
import { keptBy } from "../facts";
import { readQuantity } from "../facts/quantity";
import { type FileModel, numbersByLine, type Procedure } from "../model";
import { linkPhrase as say } from "../phrases/links";
import { formatQuantity, inOtherUnits } from "../units/format";

/** One such remark, to stand behind the sign at its place. */
export interface InlayHint {
  readonly line: number;
  readonly character: number;
  readonly text: string;
  readonly tooltip: string;
}

/** Which remarks are wanted. */
export interface InlayOptions {
  readonly otherUnit: boolean;
  readonly stepNumbers: boolean;
}

const numbersOf = keptBy((procedure: Procedure) => numbersByLine(procedure));

/** The remarks on some lines of a file, both included, in the order of its text. */
export function inlayHints(
  file: FileModel,
  first: number,
  last: number,
  { otherUnit, stepNumbers }: InlayOptions,
): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  const { lines } = file.document;
  for (let row = Math.max(0, first); row <= Math.min(last, lines.length - 1); row++) {
    const line = lines[row] as Line;
    if (line.kind !== "statement") continue;
    if (stepNumbers) hints.push(...numberAt(file, line, row));
    if (otherUnit) hints.push(...otherUnitsOn(line, row));
  }
  return hints;
}

function otherUnitsOn(line: Line, row: number): InlayHint[] {
  const slots = line.statement?.phrases.flatMap((phrase) => phrase.slots) ?? [];
  return slots.flatMap(({ content, accepts, span }) => {
    if (content.kind !== "quantity") return [];
    const { quantity } = readQuantity(content.quantity, accepts, span);
    const other = quantity && quantity.other === null ? inOtherUnits(quantity) : null;
    if (!other) return [];
    const text = `(${formatQuantity(other, { plain: true })})`;
    return [{ line: row, character: span.end, text, tooltip: say("other-unit") }];
  });
}

/** The number stands behind the word `step` or `check`. */
function numberAt(file: FileModel, line: Line, row: number): InlayHint[] {
  if (line.head !== "step" && line.head !== "check") return [];
  const around = file.procedures.find(
    ({ thing }) => thing.line < row && row < thing.line + thing.entry.lineCount,
  );
  const number = around && numbersOf(around).get(row);
  if (!around || number === undefined) return [];
  const character = line.indent + (constructs.get(line.head)?.id.length ?? 0);
  const tooltip = say("number", { procedure: around.thing.title || around.thing.name });
  return [{ line: row, character, text: String(number), tooltip }];
}
