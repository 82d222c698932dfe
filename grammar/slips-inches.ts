/**
 * How sizes and threads are written on drawings, and how they are written here: `1/2"` for inches, `LH` behind a thread, a bolt's
 * length behind its pitch.
 */
import type { IToken } from "chevrotain";
import type { Problem } from "./statement";
import * as t from "./tokens";

/**
 * The slip of a line whose reading stopped at `found` (null: at its end); undefined where it is another.
 *
 * @param may the words that may follow on the line
 */
export function drawingSlip(
  tokens: readonly IToken[],
  found: IToken | null,
  may: ReadonlySet<string>,
): Problem | undefined {
  return inchMark(tokens, found) ?? (found ? behindThread(tokens, found, may) : undefined);
}

/** A quote right behind a number: the lexer takes it for the beginning of a text. */
function inchMark(tokens: readonly IToken[], found: IToken | null): Problem | undefined {
  const stop = found ? tokens.indexOf(found) : tokens.length;
  const at = tokens.findIndex(
    (token, i) =>
      i > 0 &&
      i >= stop - 1 &&
      /^"/.test(token.image) &&
      tokens[i - 1]?.tokenType === t.Numeral &&
      t.tokenEnd(tokens[i - 1] as IToken) === token.startOffset,
  );
  const [number, mark] = [tokens[at - 1], tokens[at]];
  if (!number || !mark) return undefined;
  const span = { start: number.startOffset, end: mark.startOffset + 1 };
  const instead = `${number.image} in`;
  const replace = { span, text: instead };
  return { message: "inch-mark", args: { found: `${number.image}"`, instead }, span, replace };
}

function behindThread(
  tokens: readonly IToken[],
  found: IToken,
  may: ReadonlySet<string>,
): Problem | undefined {
  const before = tokens[tokens.indexOf(found) - 1];
  if (before?.tokenType !== t.Thread && !/^M\d/.test(before?.image ?? "")) return undefined;
  const span = { start: found.startOffset, end: t.tokenEnd(found) };
  const args = { found: found.image, thread: before?.image ?? "" };
  if (/^(?:LH|L\.?H\.?|left(?:-handed)?)$/i.test(found.image))
    return {
      message: "left-hand-mark",
      args,
      span,
      ...(may.has("left-hand") ? { replace: { span, text: "left-hand" } } : {}),
    };
  const length = tokens[tokens.indexOf(found) + 1];
  if (!/^[x×]\d*$/i.test(found.image) || (found.image.length === 1 && length?.tokenType !== t.Numeral))
    return undefined;
  return { message: "length-behind-thread", args, span };
}
