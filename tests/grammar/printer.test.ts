/** The usual form of a text: what it looks like, that it says the same, and that printing it again changes nothing. */
import { describe, expect, test } from "vitest";
import {
  type Document,
  formatDocument,
  formatLines,
  isBlock,
  type Node,
  parseLine,
  readDocument,
} from "../../grammar";
import { spellUnit } from "../../server/project/spelling";
import { randomBreak, withBreak } from "../support/breaks";
import { cleanExamples } from "../support/examples";
import { below, type Random, seeded } from "../support/random";

const format = (text: string): string => formatDocument(readDocument(text), spellUnit);

/** A line in a block of this head. */
function lineIn(head: string, line: string): string {
  return format(`${head} {\n${line}\n}`).split("\n")[1] ?? "";
}

describe("a line", () => {
  test.each([
    [
      "  tighten   bolts   with  wrench holding pin  with holder",
      "  tighten bolts  with wrench  holding pin with holder",
    ],
    ["remove bolts,cover ,  pin keep", "  remove bolts, cover, pin  keep"],
    ["wait 3h 30min", "  wait 3 h 30 min"],
    ["wait until oil below 40°C with probe", "  wait until oil below 40 °C  with probe"],
    ["loosen bolts by 1/6turn", "  loosen bolts  by 1/6 turn"],
    ["turn crank 2turn clockwise", "  turn crank 2 turns clockwise"],
    ["turn crank 1 1/2 turn", "  turn crank 1 1/2 turns"],
    ['"Text  as it   is"   // why', '  "Text  as it   is"  // why'],
    ["//why", "  //why"],
    ["remove  bolts{  ", "  remove bolts {"],
    ["rmove   bolts", "  rmove   bolts"],
  ])("%s", (line, expected) => {
    const text = format(`step "A" {\n${line}\n${line.includes("{") ? "}\n" : ""}}`);
    expect(text.split("\n")[1]).toBe(expected);
  });

  test.each([
    ["tighten 47Nm(35ft-lb)", "  tighten 47 N·m (35 lb·ft)"],
    ["tighten 47±3 N.m", "  tighten 47 ± 3 N·m"],
    ["tighten 47+/-3 N.m", "  tighten 47 ± 3 N·m"],
    ["tighten 47 +- 3 Nm", "  tighten 47 ± 3 N·m"],
    ["tighten 30 +3 −1 Nm", "  tighten 30 +3/-1 N·m"],
    ["tighten 30+3 / -1 Nm(22 +2 -1 ft-lb)", "  tighten 30 +3/-1 N·m (22 +2/-1 lb·ft)"],
    ["tighten 60 ° +5 deg −3deg", "  tighten 60° +5°/-3°"],
    ["tighten 30Nm±10%", "  tighten 30 N·m ± 10 %"],
    ["tighten 30Nm +10 %/-5 percent", "  tighten 30 N·m +10 %/-5 %"],
    ["tighten 60 °", "  tighten 60°"],
    ["stage final 90deg", "  stage   final 90°"],
    ["thread M12x1.25", "  thread  M12 x 1.25"],
    ["thread M8", "  thread  M8"],
    ["class 8.8", "  class   8.8"],
    ["holes 1,2,  4 length 25mm", "  holes   1, 2, 4  length 25 mm"],
    ["oiled oil on thread and under head", "  oiled   oil  on thread and under head"],
    ["renew every time", "  renew   every time"],
    ["only on late", "  only on late"],
    ["threads-into steel", "  threads-into steel"],
    ["grip 20 smoots", "  grip    20 smoots"],
    ["dry", "  dry"],
  ])("in a fastener: %s", (line, expected) => expect(lineIn('fastener f "F"', line)).toBe(expected));

  test("a tolerance in the usual form is left as it is, and says the same as what it was made of", () => {
    const meaning = (line: string): string =>
      JSON.stringify(parseLine(line.trim()).statement?.phrases, (key, value) =>
        /span|parts|^start$|^end$/i.test(key)
          ? undefined
          : key === "unit" && value
            ? spellUnit(value)?.print
            : value,
      );
    for (const upper of ["+3", "+.5", "+1/4", "+0", "-0.02"])
      for (const lower of ["-1", "−0.25", "-0", "-1 1/2", "-3 N·m"])
        for (const [from, between, to] of [
          ["30 ", "/", " Nm"],
          ["30", " ", "Nm"],
          ["30 N.m ", " / ", " %"],
        ]) {
          const line = `tighten ${from}${upper}${between}${lower}${lower.endsWith("m") ? "" : to}`;
          const once = lineIn('fastener f "F"', line);
          expect(lineIn('fastener f "F"', once.trim())).toBe(once);
          expect(meaning(once)).toBe(meaning(line).replaceAll("−", "-"));
          expect(parseLine(line).problems).toEqual([]);
        }
  });

  test("the keyword's column is that of the kind of block", () => {
    expect(lineIn('part p "P"', "behind guard")).toBe("  behind   guard");
    expect(lineIn('belt b "B"', "pitch 8mm")).toBe("  pitch     8 mm");
    expect(lineIn('shaft s "S"', "turns clockwise only")).toBe("  turns    clockwise only");
    expect(lineIn("warning burn", 'so "Wait."')).toBe('  so  "Wait."');
    expect(lineIn("tighten bolts", "stage snug with wrench")).toBe("  stage   snug  with wrench");
    expect(lineIn('procedure p "P"', 'document "A"')).toBe('  document "A"');
  });
});

describe("a text", () => {
  test("is indented by its blocks, and has no blank line too many", () => {
    const text =
      '\n\ntorquil 1\n\n\n\nmachine m "M" {\n\n part a "A"{\n dry\n\n\n weight 4kg\n   // last\n\n}\n\n\n}\n\n\n';
    const usual =
      'torquil 1\n\nmachine m "M" {\n  part a "A" {\n    dry\n\n    weight   4 kg\n    // last\n  }\n}\n';
    expect(format(text)).toBe(usual);
  });

  test("ends with one line end; nothing stays nothing", () => {
    expect(format("torquil 1")).toBe("torquil 1\n");
    expect(format("")).toBe("");
    expect(format("\n  \n\n")).toBe("");
    expect(format("\ufeff")).toBe("\ufeff");
  });

  test("keeps its byte order mark and its kind of line end", () => {
    expect(format('\ufeffmachine m "M" {\r\npart a "A"\r\n}')).toBe(
      '\ufeffmachine m "M" {\r\n  part a "A"\r\n}\r\n',
    );
  });

  test("whose braces do not balance keeps the indentation of every line", () => {
    const text = 'machine m "M" {\n   part  a "A"\n\n\n     dry\n';
    expect(format(text)).toBe('machine m "M" {\n   part a "A"\n\n     dry\n');
  });

  test("a stretch of lines alone", () => {
    const document = readDocument('machine m "M" {\npart  a "A"\n\n\npart  b "B"\n}');
    expect(formatLines(document, 1, 3, spellUnit)).toEqual(['  part a "A"', ""]);
  });
});

/** What a text says, as plain text: heads and lines in their blocks, without places, units in their usual spelling. */
function sayings(document: Document): string[] {
  const said = (_: string, value: unknown): unknown => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
    const { span: _span, unitSpan: _unitSpan, parts: _parts, ...rest } = value as Record<string, unknown>;
    const unit = typeof rest.unit === "string" ? { unit: spellUnit(rest.unit)?.print ?? rest.unit } : {};
    const word = typeof rest.word === "string" ? { word: rest.word.replace(/\s*[x×]\s*/, " x ") } : {};
    return { ...rest, ...unit, ...word };
  };
  const walk = (nodes: readonly Node[], depth: number): string[] =>
    nodes.flatMap((node) => {
      if (isBlock(node))
        return [...walk(node.head ? [node.head] : [], depth), ...walk(node.children, depth + 1)];
      const { kind, statement, text, prose, comment } = node;
      if (kind === "blank") return [];
      const remark = comment ? text.slice(comment.start).trimEnd() : "";
      const code = statement
        ? JSON.stringify(statement, said)
        : kind === "broken"
          ? text.slice(0, comment?.start).trim()
          : prose;
      return [`${depth} ${kind} ${code} ${remark}`];
    });
  return walk(document.tree.children, 0);
}

/** Other white space at the ends of a line and between its words, outside texts and comments. */
function respaced(random: Random, line: string): string {
  const [code = "", ...rest] = line.split(/(?=["/])/);
  const spaces = (): string => " ".repeat(1 + below(random, 3));
  return (
    " ".repeat(below(random, 6)) +
    code.trimStart().replace(/ +/g, spaces) +
    rest.join("") +
    " ".repeat(below(random, 3))
  );
}

describe.each(cleanExamples().map(({ path, text }, i) => [path, text, i] as const))("%s", (_, text, i) => {
  test("says the same, whatever white space or break it has, and printing it again changes nothing", () => {
    const random = seeded(77 + i);
    for (let turn = 0; turn < 60; turn++) {
      const lines = text.split("\n").map((line) => (turn % 2 === 0 ? line : respaced(random, line)));
      const broken = turn % 3 === 0 ? lines : withBreak(lines, randomBreak(random, lines));
      const before = readDocument(broken.join("\n"));
      const printed = formatDocument(before, spellUnit);
      const after = readDocument(printed);
      if (before.tree.balanced) expect(sayings(after)).toEqual(sayings(before));
      else
        expect(after.lines.filter((l) => l.kind !== "blank")).toHaveLength(
          before.lines.filter((l) => l.kind !== "blank").length,
        );
      expect(formatDocument(after, spellUnit)).toBe(printed);
    }
  });

  test("a longer name changes no other line", () => {
    const printed = format(text).split("\n");
    const random = seeded(177 + i);
    for (let turn = 0; turn < 60; turn++) {
      const at = below(random, printed.length);
      const longer = (printed[at] as string).replace(/\b[a-z]+-[a-z]+\b/, "a-much-longer-name-than-before");
      const other = printed.map((line, k) => (k === at ? longer : line));
      expect(
        format(other.join("\n"))
          .split("\n")
          .filter((_line, k) => k !== at),
      ).toEqual(printed.filter((_line, k) => k !== at));
    }
  });
});
