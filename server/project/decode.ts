/**
 * Bytes → text: UTF-8 and nothing else, with the place of the first byte that does not belong.
 */
import { type FileProblem, LARGEST_FILE } from "./files";

const strict = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder("utf-8", { ignoreBOM: true });

/** The text that bytes stand for; a byte order mark stays. */
export function decodeText(bytes: Uint8Array): { readonly text: string } | { readonly problem: FileProblem } {
  if (bytes.length > LARGEST_FILE) return { problem: { kind: "too-large" } };
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    return { problem: { kind: "utf-16", line: 0, character: 0 } };
  const zero = bytes.indexOf(0);
  if (zero >= 0) return { problem: { kind: "binary", ...placeOf(bytes, zero) } };
  try {
    return { text: strict.decode(bytes) };
  } catch {
    const at = firstBadByte(bytes);
    const detail = (bytes[at] ?? 0).toString(16).toUpperCase().padStart(2, "0");
    return { problem: { kind: "encoding", ...placeOf(bytes, at), detail } };
  }
}

/** Line and character of a byte, both from 0. */
function placeOf(bytes: Uint8Array, at: number): { line: number; character: number } {
  let line = 0;
  let start = 0;
  for (let i = 0; i < at; i++) {
    if (bytes[i] === 0x0a || (bytes[i] === 0x0d && bytes[i + 1] !== 0x0a)) {
      line++;
      start = i + 1;
    }
  }
  const before = lenient.decode(bytes.subarray(start, at));
  return { line, character: before.length - (line === 0 && before.startsWith("\ufeff") ? 1 : 0) };
}

/** The first byte of the first sequence that is no UTF-8, by the table of well-formed sequences of the Unicode Standard (3.9, table 3-7). */
function firstBadByte(bytes: Uint8Array): number {
  let at = 0;
  while (at < bytes.length) {
    const length = sequenceLength(bytes, at);
    if (length === 0) return at;
    at += length;
  }
  return Math.max(0, bytes.length - 1);
}

function sequenceLength(bytes: Uint8Array, at: number): number {
  const lead = bytes[at] as number;
  if (lead < 0x80) return 1;
  const length = lead < 0xc2 ? 0 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : lead < 0xf5 ? 4 : 0;
  for (let i = 1; i < length; i++) {
    const byte = bytes[at + i] ?? 0;
    const [low, high] = i === 1 ? secondByte(lead) : [0x80, 0xbf];
    if (byte < low || byte > high) return 0;
  }
  return length;
}

/** What may follow a lead byte: no longer forms than needed, no surrogates, nothing past U+10FFFF. */
function secondByte(lead: number): readonly [number, number] {
  if (lead === 0xe0) return [0xa0, 0xbf];
  if (lead === 0xed) return [0x80, 0x9f];
  if (lead === 0xf0) return [0x90, 0xbf];
  return lead === 0xf4 ? [0x80, 0x8f] : [0x80, 0xbf];
}
