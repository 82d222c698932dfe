/** Lines from files fit the terminal, and the marks stand under what is meant. */
import { expect, test } from "vitest";
import { columns, harmless, windowOn } from "../../server/cli/display";

/** A line and the marks under it. */
function shown(line: string, start: number, end: number, most = 60): string[] {
  const { text, before, marks } = windowOn(line, start, end, most);
  return [text, " ".repeat(before) + "^".repeat(marks)];
}

test("a text cannot steer the terminal", () => {
  expect(harmless("a\u001b[31m\u009b\u0007b\u202ec\u2028d\ufeff")).toBe(
    "a\ufffd[31m\ufffd\ufffdb\ufffdc\ufffdd\ufffd",
  );
  expect(harmless("one\ntwo", true)).toBe("one\ntwo");
  expect(harmless("one\ntwo")).toBe("one\ufffdtwo");
});

test("columns are counted as a terminal does", () => {
  expect([
    columns("N·m"),
    columns("日本"),
    columns("e\u0301"),
    columns("😀"),
    columns("ｱｲ"),
    columns("Ａ"),
  ]).toEqual([3, 4, 1, 2, 2, 2]);
});

test("marks stand under the place, behind tabs and wide signs too", () => {
  expect(shown('  part drum "Drum"', 7, 11)).toEqual(['  part drum "Drum"', "       ^^^^"]);
  expect(shown("\tpart drum", 6, 10)).toEqual(["    part drum", "         ^^^^"]);
  expect(shown('part "日本" x', 10, 11)).toEqual(['part "日本" x', "            ^"]);
});

test("an empty place, and one past the end, get one mark", () => {
  expect(shown("abc", 1, 1)).toEqual(["abc", " ^"]);
  expect(shown("abc", 9, 12)).toEqual(["abc", "   ^"]);
});

test("a long line is cut so that the place is seen", () => {
  const line = `${"x".repeat(1_000)}HERE${"y".repeat(1_000)}`;
  const [text = "", marks = ""] = shown(line, 1_000, 1_004);
  expect(text.length).toBeLessThanOrEqual(61);
  expect(text.startsWith("…")).toBe(true);
  expect(text.slice(marks.indexOf("^"), marks.lastIndexOf("^") + 1)).toBe("HERE");
  expect(shown("z".repeat(16_000_000), 0, 16_000_000)[1]).toBe("^".repeat(60));
});
