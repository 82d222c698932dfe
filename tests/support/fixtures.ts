/**
 * Fixtures of the rules, written in the language itself: sections parted by `//// name`, and under a line the findings
 * meant for it.
 *
 *     //// a section of one file
 *     //// the same section  file skua.torquil     a second file of its project
 *     //// every  file skua.torquil                a file in the project of every section
 *
 *     remove nuts
 *     // error: unknown-name as "no thing named nuts" way "the gauge reads over", hint: other-code
 *
 * Annotations are taken out before the text is read, so they move no line and no allowance covers them. `as` asks for a
 * part of the message, `way` for a part of the way. A path with "unreadable" in it stands for a file that cannot be read.
 */
import { buildProject } from "../../server/model";
import {
  checkProject,
  DEFAULT_RULE_SETTINGS,
  type Finding,
  type RuleSettings,
  wordsOf,
} from "../../server/rules";
import { documentsOf, resolver } from "./project";

/** The file of a section where none is named. */
export const MAIN = "main.torquil";

/** A finding meant for a line. */
export interface Expected {
  readonly file: string;
  /** From 0, in the text without its annotations. */
  readonly line: number;
  readonly severity: string;
  readonly code: string;
  readonly as: string;
  readonly way: string;
}

export interface Section {
  readonly name: string;
  /** Texts by path, annotations taken out. */
  readonly texts: Readonly<Record<string, string>>;
  readonly expected: readonly Expected[];
}

const HEAD = /^\/\/\/\/ (.+?)(?: {2,}file (\S+))?\s*$/;
const ANNOTATION = /^\s*\/\/ ((?:error|warning|hint): .+)$/;
const ITEM = /(error|warning|hint): ([a-z-]+)(?: as "([^"]*)")?(?: way "([^"]*)")?(?:, |$)/g;

/** Reads a fixture file. Throws on a section without a head and on an annotation that is not well made. */
export function readFixtures(text: string): Section[] {
  const parts = partsOf(text);
  const common = parts.filter((p) => p.name === "every");
  const names = [...new Set(parts.filter((p) => p.name !== "every").map((p) => p.name))];
  return names.map((name) => {
    const own = parts.filter((p) => p.name === name).concat(common);
    return {
      name,
      texts: Object.fromEntries(own.map((p) => [p.file, p.lines.join("\n")])),
      expected: own.flatMap((p) => p.expected),
    };
  });
}

interface Part {
  readonly name: string;
  readonly file: string;
  readonly lines: string[];
  readonly expected: Expected[];
}

function partsOf(text: string): Part[] {
  const parts: Part[] = [];
  for (const line of text.split("\n")) {
    const head = HEAD.exec(line);
    if (head) {
      parts.push({ name: head[1] as string, file: head[2] ?? MAIN, lines: [], expected: [] });
      continue;
    }
    const part = parts[parts.length - 1];
    const annotation = ANNOTATION.exec(line);
    if (part && annotation) part.expected.push(...annotated(annotation[1] as string, part));
    else if (part) part.lines.push(line);
    else if (line.trim() !== "" && !line.startsWith("//"))
      throw new Error(`text before the first section: ${line}`);
  }
  return parts;
}

function annotated(text: string, { file, lines }: Part): Expected[] {
  const found = [...text.matchAll(ITEM)];
  if (found.map((m) => m[0]).join("") !== text) throw new Error(`annotation not understood: ${text}`);
  return found.map(([, severity = "", code = "", as = "", way = ""]) => ({
    file,
    line: lines.length - 1,
    severity,
    code,
    as,
    way,
  }));
}

/** Every finding in a project of these texts. */
export function findingsIn(
  texts: Readonly<Record<string, string>>,
  settings: RuleSettings = DEFAULT_RULE_SETTINGS,
): Finding[] {
  const documents = documentsOf(texts);
  const inProject = resolver(new Set(documents.keys()));
  const project = buildProject(documents, (from, path) =>
    path.includes("unreadable") ? { problem: "unreadable" } : inProject(from, path),
  );
  return [...checkProject(project, settings).values()].flat();
}

/** What is found and what was meant, as lines that can be compared; equal when the section holds. */
export function compared({ texts, expected }: Section): { found: string[]; meant: string[] } {
  const left = [...expected];
  const found = findingsIn(texts).map((finding) => {
    const at = left.findIndex(
      (e) =>
        e.file === finding.place.file &&
        e.line === finding.place.line &&
        e.code === finding.code &&
        e.severity === finding.severity,
    );
    const meant = at < 0 ? undefined : left.splice(at, 1)[0];
    const message = wordsOf(finding, finding.message);
    const way = finding.way.join(", then ");
    const extra =
      meant && message.includes(meant.as) && way.includes(meant.way)
        ? suffix(meant.as, meant.way)
        : suffix(message, way);
    return described(finding.place.file, finding.place.line, finding.severity, finding.code, extra);
  });
  const meant = expected.map((e) => described(e.file, e.line, e.severity, e.code, suffix(e.as, e.way)));
  return { found: found.sort(), meant: meant.sort() };
}

function described(file: string, line: number, severity: string, code: string, extra: string): string {
  return `${file}:${line + 1} ${severity}: ${code}${extra}`;
}

function suffix(as: string, way: string): string {
  return `${as ? ` as "${as}"` : ""}${way ? ` way "${way}"` : ""}`;
}
