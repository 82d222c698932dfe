/** What is read of one line: figures and their units, threads, dates, holes, texts, comments, and what is wrong with it. */
import { describe, expect, test } from "vitest";
import { parseLine, type RawFigure, type RawQuantity, type SlotContent } from "../../grammar";
import { LONGEST_LINE } from "../../grammar/line";

/** What the slots of a line hold. */
function contents(text: string): SlotContent[] {
  return (parseLine(text).statement?.phrases ?? []).flatMap((p) => p.slots.map((slot) => slot.content));
}

const figures = (all: readonly RawFigure[]): string =>
  all.map((f) => `${f.number}|${f.unit ?? ""}`).join(" ");

function words({ relation, first, second, tolerance, deviations, other }: RawQuantity): string {
  const more = [
    deviations ? figures(deviations) : "",
    second.length > 0 ? `to ${figures(second)}` : "",
    tolerance.length > 0 ? `± ${figures(tolerance)}` : "",
  ];
  const beside = other ? `(${words(other)})` : "";
  return [relation, figures(first), ...more, beside].filter((word) => word !== "").join(" ");
}

/** The first quantity of a line, its figures as number|unit. */
function quantity(text: string): string {
  const found = contents(text).find((content) => content.kind === "quantity");
  return found ? words(found.quantity) : `none: ${JSON.stringify(parseLine(text).problems)}`;
}

describe("quantities", () => {
  test.each([
    ["22 N·m", "exact 22|N·m"],
    ["22Nm", "exact 22|Nm"],
    ["22 N m", "exact 22|N m"],
    ["35 ft lb", "exact 35|ft lb"],
    ["35 ft-lb", "exact 35|ft-lb"],
    ["47 N·m (35 lb·ft)", "exact 47|N·m (exact 35|lb·ft)"],
    ["47 ± 3 N·m", "exact 47| ± 3|N·m"],
    ["47 +/- 3 N·m", "exact 47| ± 3|N·m"],
    ["30 +3/-1 N·m", "exact 30| +3| -1|N·m"],
    ["30 +3 −1 N·m", "exact 30| +3| -1|N·m"],
    ["30+3/-1Nm", "exact 30| +3| -1|Nm"],
    ["0.10 +.05/−0 mm", "exact 0.10| +.05| -0|mm"],
    ["20 -0.02/-0.04 mm", "exact 20| -0.02| -0.04|mm"],
    ["60° +5°/-3°", "exact 60|° +5|° -3|°"],
    ["30 N·m ± 10 %", "exact 30|N·m ± 10|%"],
    ["230 V +6/-10%", "exact 230|V +6| -10|%"],
    ["30 +3/-1 N·m (22 +2/-1 lb·ft)", "exact 30| +3| -1|N·m (exact 22| +2| -1|lb·ft)"],
    ["60°", "exact 60|°"],
    ["60 º", "exact 60|º"],
    ["1/6 turn", "exact 1/6|turn"],
    ["1 1/2 turns", "exact 1 1/2|turns"],
    ["20 to 25 N·m", "exact 20| to 25|N·m"],
    ["over 0.55 to 0.65 mm", "over 0.55| to 0.65|mm"],
    ["at least 0.5 mm", "at-least 0.5|mm"],
    ["at most .020 in", "at-most .020|in"],
    ["under 3 h 30 min", "under 3|h 30|min"],
    ["about 5 US fl oz", "about 5|US fl oz"],
    ["-10 to −5 °C", "exact -10| to -5|°C"],
    ["90 ℃", "exact 90|℃"],
    ["22\u00a0N·m", "exact 22|N·m"],
    ["22", "exact 22|"],
  ])("limit %s", (text, expected) => expect(quantity(`limit ${text}`)).toBe(expected));

  test("a unit that is also a word of the line is the word where a clause begins", () => {
    expect(quantity("wait 5 min  at most 1 h")).toBe("exact 5|min");
    expect(quantity("limit 0.1 in  held for 5 min")).toBe("exact 0.1|in");
    expect(parseLine("teeth 24").statement).not.toBeNull();
    expect(contents("pulley p  teeth 24  centre 0,0 mm  on crank")).toMatchObject([
      { kind: "names" },
      { kind: "count", count: 24 },
      { kind: "point" },
      { kind: "names" },
    ]);
  });
});

describe("other places", () => {
  test.each([
    ["thread M8", "M8"],
    ["thread M12x1.25", "M12x1.25"],
    ["thread M12 × 1.25", "M12 × 1.25"],
    ["thread M2.5", "M2.5"],
    ["thread 1/2-13", "1/2-13"],
    ["thread 1 1/8-7 UNC", "1 1/8-7 UNC"],
    ["thread #10-24 UNC", "#10-24 UNC"],
    ["class 8.8", "8.8"],
    ["class A2-70", "A2-70"],
    ['class "grade 8"', "grade 8"],
    ["ratio 1/2 of crank", "1/2"],
  ])("%s", (text, expected) => {
    const [content] = contents(text);
    expect(content && ("word" in content ? content.word : "text" in content && content.text)).toBe(expected);
  });

  test("a date, and hole numbers in lists and ranges, up and down", () => {
    expect(contents('revision C 2026-11-20 "Why"')).toMatchObject([
      {},
      { word: "2026-11-20" },
      { text: "Why" },
    ]);
    expect(contents("order 1,3, 2")).toEqual([{ kind: "holes", holes: [1, 3, 2] }]);
    expect(contents("order 1 to 4, 8 to 6")).toEqual([{ kind: "holes", holes: [1, 2, 3, 4, 8, 7, 6] }]);
    const [many] = contents("order 1 to 999999999");
    expect(many?.kind === "holes" && many.holes.length).toBeLessThan(2000);
  });

  test("counts are whole, in figures or in words", () => {
    expect(contents("count 14")).toEqual([{ kind: "count", count: 14 }]);
    expect(contents("count twelve")).toEqual([{ kind: "count", count: 12 }]);
    expect(contents("count one")).toEqual([{ kind: "count", count: 1 }]);
    for (const wrong of ["1.5", "1/2", "-3", "thirteen"])
      expect(parseLine(`count ${wrong}`).problems[0]).toMatchObject({
        message: "expected-found",
        args: { expected: "COUNT" },
      });
  });

  test("quotes and backslashes within a text", () => {
    expect(parseLine('"Say \\"stop\\" \\\\ now"')).toMatchObject({
      kind: "prose",
      prose: 'Say "stop" \\ now',
    });
    expect(parseLine('"ends in a backslash\\')).toMatchObject({ kind: "broken", opens: false });
  });

  test("a comment ends with the line, whatever is in it", () => {
    expect(parseLine('step "A" { // } "')).toMatchObject({
      kind: "statement",
      opens: true,
      comment: { start: 11, end: 17 },
    });
    expect(parseLine("  // only this")).toMatchObject({ kind: "comment", indent: 2 });
    expect(parseLine("dry // first\u2028second")).toMatchObject({ kind: "statement", head: "+dry" });
    expect(parseLine('"http://x" // y')).toMatchObject({ kind: "prose", prose: "http://x" });
  });
});

describe("problems", () => {
  /** The message of a broken line, the stretch it points at, and the line repaired. */
  function problem(text: string): [string, string, string | undefined] {
    const line = parseLine(text);
    const [first] = line.problems;
    if (!first) return ["none", "", undefined];
    const { span, replace } = first;
    const repaired =
      replace && text.slice(0, replace.span.start) + replace.text + text.slice(replace.span.end);
    return [first.message, text.slice(span.start, span.end), repaired];
  }

  test.each([
    ["limit 0,05 to 0,15 mm", "decimal-comma", "0,05", "limit 0.05 to 0.15 mm"],
    ["limit 30 +3,5/-1,5 mm", "decimal-comma", "+3,5", "limit 30 +3.5/-1.5 mm"],
    ["limit 20-25 mm", "range-by-dash", "20-25", "limit 20 to 25 mm"],
    ["limit 20–25 mm", "range-by-dash", "20–25", "limit 20 to 25 mm"],
    ["limit 20 – 25 mm", "range-by-dash", "20 – 25", "limit 20 to 25 mm"],
    ["spanner 1-1/8 in", "mixed-fraction", "1-1/8", "spanner 1 1/8 in"],
    ['spanner 1/2"', "inch-mark", '1/2"', "spanner 1/2 in"],
    ['fastener a "A"  spanner 1/2" {', "inch-mark", '1/2"', 'fastener a "A"  spanner 1/2 in {'],
    ["thread M14 x 1.5 LH", "left-hand-mark", "LH", undefined],
    ['fastener a "A"  thread M14 LH', "left-hand-mark", "LH", 'fastener a "A"  thread M14 left-hand'],
    ['fastener a "A"  thread M10 x 1.5 x 40', "length-behind-thread", "x", undefined],
    ["limit 30 + 3 / - 1 mm", "deviations", "+ 3 / - 1", "limit 30 +3/-1 mm"],
    ["limit 30 +3/–1 mm  held for 5 min", "deviations", "+3/–1", "limit 30 +3/-1 mm  held for 5 min"],
    ["limit 30 ±3/-1 mm", "deviations", "±3/-1", "limit 30 +3/-1 mm"],
    ["limit 30 +3, -1 mm", "deviations", "+3, -1", "limit 30 +3/-1 mm"],
    ["limit 30 +3/0 mm", "deviations", "+3/0", "limit 30 +3/-0 mm"],
    ["limit 30 0/-3 mm", "deviations", "0/-3", "limit 30 +0/-3 mm"],
    ["limit 30 ± 10 % mm", "share-before-unit", "30 ± 10 % mm", "limit 30 mm ± 10 %"],
    ["limit 30 +10/-5% mm", "share-before-unit", "30 +10/-5% mm", "limit 30 mm +10/-5%"],
    ["limit (30 ± 3) mm", "tolerance-in-brackets", "(30 ± 3)", "limit 30 ± 3 mm"],
    ["limit 30 +3 mm", "one-deviation", "+3 mm", undefined],
    ["limit 30 mm -3 mm", "one-deviation", "-3 mm", undefined],
    ["limit at least 30 ± 3 mm", "second-limit", "±", undefined],
    ["limit 30 to 40 ± 3 mm", "second-limit", "±", undefined],
    ["limit 30 ± 3 to 40 mm", "second-limit", "to", undefined],
    ["limit about 30 +3/-1 mm", "second-limit", "+3", undefined],
    ["limit 30 +3/-1 mm  hold for 5 min", "not-understood-near", "hold", "limit 30 +3/-1 mm  held for 5 min"],
    ["limit +3 mm", "stray-sign", "+3", undefined],
    ["remove belt / cover", "stray-sign", "/", undefined],
    ["weight 4,5 kg", "decimal-comma", "4,5", "weight 4.5 kg"],
    ["tigthen bolts", "unknown-word-near", "tigthen", "tighten bolts"],
    ["xylophone bolts", "unknown-word", "xylophone", undefined],
    ['step "Belt {', "quote-not-closed", '"Belt {', 'step "Belt" {'],
    ['step "Belt {  // off', "quote-not-closed", '"Belt {  // off', 'step "Belt" {  // off'],
    ['"Push the shaft', "quote-not-closed", '"Push the shaft', '"Push the shaft"'],
    ['"Push" the shaft', "after-prose", "the", undefined],
    ['"Push" {', "after-prose", "{", undefined],
    ["{", "head-missing", "{", undefined],
    ["} remove belt", "brace-not-alone", "}", undefined],
    ["remove belt }", "brace-not-alone", "}", undefined],
    ["; remove belt", "stray-sign", ";", undefined],
    ["remove belt; fit pin", "stray-sign", ";", undefined],
    ["42 remove belt", "stray-sign", "42", undefined],
    ["remove", "expected-end", "", undefined],
    ['remove "Belt"', "expected-found", '"Belt"', undefined],
    ["check agian", "expected-end", "", undefined],
    ["only fix late", "expected-found", "fix", undefined],
    ["remove belt  wiht tray", "not-understood-near", "wiht", "remove belt  with tray"],
    ["remove belt  zzz", "not-understood", "zzz", undefined],
    ['document "A" 12', "nothing-more", "12", undefined],
    ["remove belt  only", "not-understood", "only", undefined],
    ["item seal 1  only", "expected-end", "", undefined],
  ])("%s", (text, message, at, repaired) => {
    expect(problem(text)).toEqual([message, at, repaired]);
    if (repaired !== undefined) expect(parseLine(repaired).problems).toEqual([]);
  });

  test("a broken line keeps what it opens and every word that could be a name", () => {
    const line = parseLine('  warnig stored-energy pin-2 "text" {');
    expect(line).toMatchObject({ kind: "broken", opens: true, indent: 2 });
    expect(line.perhaps.map(({ name }) => name)).toEqual(["warnig", "stored-energy", "pin-2"]);
  });

  test("what was expected is said for the words to be made of it", () => {
    expect(parseLine("check").problems[0]?.args.expected).toBe("TEXT");
    expect(parseLine("tighten").problems[0]?.args.expected).toBe("NAMES fastener part");
    expect(parseLine("item seal 1  only").problems[0]?.args.expected).toBe("word if or word on");
  });

  test("a line that is too long is one problem", () => {
    const long = `remove ${"a".repeat(LONGEST_LINE)}`;
    expect(problem(long)[0]).toBe("line-too-long");
    expect(parseLine(long.slice(0, LONGEST_LINE)).kind).toBe("statement");
  });
});

test("equal texts are the same line", () => {
  expect(parseLine("  remove belt")).toBe(parseLine(`  remove ${"belt"}`));
});
