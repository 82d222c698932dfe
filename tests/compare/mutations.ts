/** Random changes of texts as writers make them: figures, words, moved, taken out and doubled lines and blocks, names, slips. */
import { below, pick, type Random } from "../support/random";

type Texts = Readonly<Record<string, string>>;
type Change = (lines: readonly string[], random: Random) => readonly string[];

/** Where the block or line that begins at a line ends; not included. */
function endOf(lines: readonly string[], start: number): number {
  let depth = 0;
  for (let i = start; i < lines.length; i++) {
    const code = (lines[i] ?? "").replace(/"[^"]*"|\/\/.*/g, "");
    depth += code.split("{").length - code.split("}").length;
    if (depth <= 0) return i + 1;
  }
  return lines.length;
}

/** A line, or a whole block, that begins somewhere. */
function stretch(lines: readonly string[], random: Random): readonly [number, number] {
  for (let tries = 0; tries < 30; tries++) {
    const start = below(random, lines.length);
    const text = (lines[start] ?? "").trim();
    if (text !== "" && text !== "}") return [start, endOf(lines, start)];
  }
  return [0, 1];
}

const replaceOne =
  (pattern: RegExp, by: (found: string, random: Random) => string): Change =>
  (lines, random) => {
    const places = lines.flatMap((line, i) => [...line.matchAll(pattern)].map((match) => ({ i, match })));
    if (places.length === 0) return lines;
    const { i, match } = pick(random, places);
    const line = lines[i] ?? "";
    const changed =
      line.slice(0, match.index) + by(match[0], random) + line.slice(match.index + match[0].length);
    return lines.map((one, at) => (at === i ? changed : one));
  };

const CHANGES: readonly Change[] = [
  replaceOne(/(?<= )\d+(?= (N·m|mm|°C|kg|min|L)\b)/g, (_, random) => String(1 + below(random, 90))),
  replaceOne(/(?<="[^"]* )\p{L}+(?=[^"]*")/gu, (_, random) => pick(random, ["slowly", "now", "well", "dry"])),
  replaceOne(
    /\b(new|old|keep|discard|crosswise|dry|clockwise|anticlockwise|warning|notice)\b/g,
    (_, random) => pick(random, ["new", "keep", "discard", "crosswise", "dry", "danger", "caution"]),
  ),
  replaceOne(/ {2}(with|by|never|holding) [\w-]+/g, () => ""),
  // Moved, taken out, doubled, swapped with another.
  (lines, random) => {
    const [from, to] = stretch(lines, random);
    const rest = [...lines.slice(0, from), ...lines.slice(to)];
    const at = below(random, rest.length + 1);
    return [...rest.slice(0, at), ...lines.slice(from, to), ...rest.slice(at)];
  },
  (lines, random) => {
    const [from, to] = stretch(lines, random);
    return to - from > lines.length / 3 ? lines : [...lines.slice(0, from), ...lines.slice(to)];
  },
  (lines, random) => {
    const [from, to] = stretch(lines, random);
    const at = below(random, lines.length + 1);
    return to - from > lines.length / 3
      ? lines
      : [...lines.slice(0, at), ...lines.slice(from, to), ...lines.slice(at)];
  },
  (lines, random) => {
    const [from, to] = stretch(lines, random);
    const next = endOf(lines, to);
    return [
      ...lines.slice(0, from),
      ...lines.slice(to, next),
      ...lines.slice(from, to),
      ...lines.slice(next),
    ];
  },
  // A name becomes another wherever it stands.
  (lines, random) => {
    const names = lines.flatMap(
      (line) => /^\s*(?:part|fastener|tool|temporary|step|check) ([\w-]+) "/.exec(line)?.[1] ?? [],
    );
    if (names.length === 0) return lines;
    const name = pick(random, names);
    return lines.map((line) => line.replaceAll(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, "g"), `${name}-b`));
  },
  // Slips: a line torn off, a brace too many, indentation lost.
  (lines, random) => {
    const at = below(random, lines.length);
    return lines.map((line, i) => (i === at ? line.slice(0, below(random, line.length + 1)) : line));
  },
  (lines, random) => {
    const at = below(random, lines.length);
    return [...lines.slice(0, at), pick(random, ["}", "{", "// a remark", "", "part"]), ...lines.slice(at)];
  },
  (lines, random) => {
    const at = below(random, lines.length);
    return lines.map((line, i) => (i === at ? `  ${line.trimStart()}` : line));
  },
];

/** Texts after so many random changes. */
export function mutated(texts: Texts, random: Random, count: number): Record<string, string> {
  const changed: Record<string, string> = { ...texts };
  for (let i = 0; i < count; i++) {
    const file = pick(random, Object.keys(changed));
    const lines = (changed[file] ?? "").split("\n");
    changed[file] = pick(random, CHANGES)(lines, random).join("\n");
  }
  return changed;
}
