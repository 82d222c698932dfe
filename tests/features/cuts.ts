/**
 * Clean procedures cut short: the text up to a step or section, or up to a line that takes something off, with the braces
 * that are open there closed. What came off before is owed at the end.
 */
import { dirname } from "node:path";
import { examplesIn } from "../support/examples";

/** A cut text with what it uses, by path. */
export interface Cut {
  /** The file, and the line behind which it was cut, from 1. */
  readonly where: string;
  readonly path: string;
  readonly texts: Readonly<Record<string, string>>;
}

const CLOSES_PART = /^\s{2,4}\}\s*$/;
const TAKES_OFF = /^\s+(remove|disconnect|drain|support|raise|insert|open|isolate|start)\b/;

/** The clean files with a procedure: the examples, and those that the judge spoils. */
export function cleanFiles(): readonly { readonly path: string; readonly texts: Record<string, string> }[] {
  const examples = examplesIn("examples").filter(({ path }) => !path.startsWith("examples/faulty/"));
  const all = [...examples, ...examplesIn("tests/judge/clean")];
  return all
    .filter(({ text }) => /^procedure /m.test(text))
    .map(({ path }) => ({
      path,
      texts: Object.fromEntries(
        all.filter((other) => dirname(other.path) === dirname(path)).map((other) => [other.path, other.text]),
      ),
    }));
}

/** The cuts of a file: behind each section and step, and behind each line of work that takes something off. */
export function cutsOf(path: string, texts: Readonly<Record<string, string>>): readonly Cut[] {
  const lines = (texts[path] ?? "").split("\n");
  const head = lines.findIndex((line) => /^procedure /.test(line));
  const work = lines.findIndex((line, i) => i > head && /^ {2}(section|step|check|follow)\b/.test(line));
  const end = lines.findIndex((line, i) => i > head && line === "}");
  const cuts: Cut[] = [];
  for (let last = work; last < end - 1; last++) {
    const line = lines[last] ?? "";
    if (!CLOSES_PART.test(line) && !TAKES_OFF.test(line)) continue;
    if (line.trimEnd().endsWith("{") || endsTheJob(lines, last)) continue;
    const text = closed(withoutLost(lines.slice(0, last + 1)));
    cuts.push({ where: `${path}:${last + 1}`, path, texts: { ...texts, [path]: text } });
  }
  return cuts;
}

/** Whether the block that a line stands in goes on to end the job: cut there it would be another procedure. */
function endsTheJob(lines: readonly string[], at: number): boolean {
  const rest = lines.slice(at + 1);
  const end = rest.findIndex((line) => /^\s*(?:end job|go to|repeat|check again)\b/.test(line));
  return end >= 0 && rest.slice(0, end).every((line) => line.trim() !== "}");
}

/** Lines of the head without what they say of steps and checks that were cut away. */
function withoutLost(lines: readonly string[]): readonly string[] {
  const named = new Set(lines.flatMap((line) => /^\s+(?:step|check) ([^\s"]+)/.exec(line)?.[1] ?? []));
  const asked = new Set(
    lines.flatMap((line) => /^\s+(?:symptom|option|bulletin) (\S+)/.exec(line)?.[1] ?? []),
  );
  return lines.flatMap((line) => {
    const before = / {2}ask before (\S+)/.exec(line)?.[1];
    const [, item, onlyIf] = /^\s+item (\S+) .* {2}only if (\S+)/.exec(line) ?? [];
    if (item && onlyIf && !named.has(onlyIf) && !asked.has(onlyIf)) {
      // What is gone already must be renewed, whatever the check would have said.
      const isGone = lines.some((one) => one.includes("discard") && new RegExp(`\\b${item}\\b`).test(one));
      return isGone ? [line.replace(/ {2}only if .*$/, "")] : [];
    }
    return before === undefined || named.has(before) ? [line] : [line.replace(/ {2}ask before \S+/, "")];
  });
}

/** Some lines with the braces that are open behind them closed. */
function closed(lines: readonly string[]): string {
  const open: string[] = [];
  for (const line of lines) {
    const code = line
      .replace(/"(?:[^"\\]|\\.)*"/g, "")
      .replace(/\/\/.*/, "")
      .trimEnd();
    if (code.endsWith("{")) open.push(/^\s*/.exec(line)?.[0] ?? "");
    else if (code.trim() === "}") open.pop();
  }
  return [...lines, ...open.reverse().map((indent) => `${indent}}`), ""].join("\n");
}
