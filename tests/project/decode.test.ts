/** Bytes become texts only as UTF-8, and the first byte that does not belong is found. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { decodeText } from "../../server/project/decode";
import { LARGEST_FILE } from "../../server/project/files";

const bytes = (...parts: (string | number)[]): Uint8Array =>
  Buffer.concat(parts.map((part) => (typeof part === "string" ? Buffer.from(part) : Buffer.from([part]))));

function problemOf(given: Uint8Array) {
  const read = decodeText(given);
  return "problem" in read ? read.problem : undefined;
}

test("a sound text comes out as it is, its byte order mark with it", () => {
  for (const text of ["", "torquil 1\r\n", "\ufeffpart é “ß” 日本 😀\n", "a\rb"])
    expect(decodeText(bytes(text))).toEqual({ text });
});

test("a byte that is no UTF-8 is told with line and character", () => {
  expect(problemOf(bytes("one\ntwo é ", 0xe9, " three"))).toEqual({
    kind: "encoding",
    line: 1,
    character: 6,
    detail: "E9",
  });
  expect(problemOf(bytes("\ufeffab", 0xff))).toMatchObject({ kind: "encoding", line: 0, character: 2 });
  expect(problemOf(bytes("a\r\nb\rc 😀", 0xc3))).toMatchObject({ line: 2, character: 4, detail: "C3" });
});

test("forms that only look like UTF-8 are refused", () => {
  // Longer than needed, a surrogate, past the last code point, cut off.
  const wrong = [
    [0xc0, 0xaf],
    [0xe0, 0x80, 0xaf],
    [0xed, 0xa0, 0x80],
    [0xf4, 0x90, 0x80, 0x80],
    [0xe2, 0x82],
  ];
  for (const sequence of wrong)
    expect(problemOf(bytes("ab", ...sequence))).toMatchObject({ kind: "encoding", line: 0, character: 2 });
});

test("a zero byte, UTF-16 and more than 16 MB are told as what they are", () => {
  expect(problemOf(bytes("torquil 1\nab", 0, "c"))).toEqual({ kind: "binary", line: 1, character: 2 });
  expect(problemOf(bytes(0xff, 0xfe, "t", 0))).toMatchObject({ kind: "utf-16" });
  expect(problemOf(bytes(0xfe, 0xff, 0, "t"))).toMatchObject({ kind: "utf-16" });
  expect(problemOf(new Uint8Array(LARGEST_FILE + 1).fill(0x61))).toEqual({ kind: "too-large" });
  expect(problemOf(new Uint8Array(LARGEST_FILE).fill(0x61))).toBeUndefined();
});

test("whatever the bytes, the place is where the platform's own decoder stops", () => {
  const piece = fc.oneof(
    fc.uint8Array({ maxLength: 4 }),
    fc.string({ unit: "grapheme", maxLength: 4 }).map((text) => bytes(text)),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      const all = Buffer.concat(pieces).map((byte) => byte || 0x20);
      const problem = problemOf(all);
      if (problem?.kind !== "encoding") return;
      const upTo = (end: number, stream: boolean): string =>
        new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(all.subarray(0, end), { stream });
      const starts = Array.from(all.keys()).filter((at) => {
        try {
          const before = upTo(at, false).replace(/^\ufeff/, "");
          const lines = before.split(/\r\n|\n|\r(?!$)/);
          return lines.length - 1 === problem.line && lines.at(-1)?.length === problem.character;
        } catch {
          return false;
        }
      });
      // One of the places that this can mean is where reading on fails within a sequence's length.
      const fails = (at: number): boolean => {
        if (at + 4 >= all.length) return true;
        try {
          upTo(at + 4, true);
          return false;
        } catch {
          return true;
        }
      };
      expect(starts.some((at) => fails(at) && all[at] === Number.parseInt(problem.detail ?? "", 16))).toBe(
        true,
      );
    }),
    { numRuns: 500, seed: 20 },
  );
});
