/**
 * The settings of a project: `torquil.json` read, every fault in it told with its place. Comments are allowed in it.
 */
import { findNodeAtLocation, getNodeValue, type Node, parseTree, printParseErrorCode } from "jsonc-parser";
import type { z } from "zod";
import { nearest } from "../../grammar";
import type { Language } from "../phrases/sheet";
import { DEFAULT_RULE_SETTINGS, type RuleSettings } from "../rules";
import { type SettingsFile, settingsSchema } from "./settings-schema";

/** The name of the settings file; the folder it lies in is the project's. */
export const SETTINGS_FILE = "torquil.json";

export interface Settings {
  readonly rules: RuleSettings;
  readonly paper: "a4" | "letter";
  /** The language of the words that sheets add. */
  readonly language: Language;
  readonly units: "both" | "metric" | "imperial";
  /** Patterns of what is not looked at, from the project's folder. */
  readonly skip: readonly string[];
  /** The baseline file, as a path from the project's folder; null where there is none. */
  readonly baseline: string | null;
}

export const DEFAULT_SETTINGS: Settings = {
  rules: DEFAULT_RULE_SETTINGS,
  paper: "a4",
  language: "en",
  units: "both",
  skip: [],
  baseline: null,
};

/** A fault in the settings file. Line and characters count from 0, in UTF-16. */
export interface SettingsProblem {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

/** Reads the text of a settings file. With any problem the settings are the usual ones. Never throws. */
export function readSettings(text: string): {
  readonly settings: Settings;
  readonly problems: readonly SettingsProblem[];
} {
  const body = text.replace(/^\ufeff/, " ");
  const parsed = parseJson(body);
  if ("problem" in parsed) return { settings: DEFAULT_SETTINGS, problems: [parsed.problem] };
  const repeated = repeatedKeys(parsed.tree).map((key) =>
    problemAt(body, key, `${quoted(key)} stands here twice. Keep one.`),
  );
  const checked = settingsSchema.safeParse(getNodeValue(parsed.tree));
  const faults = checked.success
    ? []
    : checked.error.issues.flatMap((issue) => problemsOf(body, parsed.tree, issue));
  const problems = [...repeated, ...faults].sort((a, b) => a.line - b.line || a.start - b.start);
  if (!checked.success || problems.length > 0) return { settings: DEFAULT_SETTINGS, problems };
  return { settings: settingsOf(checked.data), problems };
}

function settingsOf(file: SettingsFile): Settings {
  const language = file.language ?? DEFAULT_SETTINGS.language;
  const rules = { severities: file.severities ?? {}, hazards: file.hazards ?? [], language } as RuleSettings;
  return {
    rules,
    paper: file.paper ?? DEFAULT_SETTINGS.paper,
    language,
    units: file.units ?? DEFAULT_SETTINGS.units,
    skip: file.skip ?? DEFAULT_SETTINGS.skip,
    baseline: file.baseline ?? DEFAULT_SETTINGS.baseline,
  };
}

const JSON_WORDS: Readonly<Record<string, string>> = {
  PropertyNameExpected: "A key in double quotes is expected here.",
  ValueExpected: "A value is expected here.",
  ColonExpected: "A colon is missing before this.",
  CommaExpected: "A comma is missing before this.",
  CloseBraceExpected: "A closing } is missing here.",
  CloseBracketExpected: "A closing ] is missing here.",
  EndOfFileExpected: "The file should end before this.",
  InvalidCommentToken: "This comment cannot be read.",
  UnexpectedEndOfComment: "This comment is not closed.",
  UnexpectedEndOfString: "The closing quote is missing.",
  InvalidUnicode: "After \\u come four digits or letters a to f.",
  InvalidEscapeCharacter: 'This \\ cannot be read: write \\\\ for a backslash, \\" for a quote.',
  InvalidCharacter: "This character cannot stand here.",
};

/** The tree of a JSON text with comments, or its first fault. */
function parseJson(text: string): { readonly tree: Node } | { readonly problem: SettingsProblem } {
  if (text.trim() === "")
    return {
      problem: { line: 0, start: 0, end: 0, message: "This file is empty. Write {} for the usual settings." },
    };
  const errors: Parameters<typeof parseTree>[1] = [];
  let tree: Node | undefined;
  try {
    tree = parseTree(text, errors, { allowTrailingComma: true });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      problem: { line: 0, start: 0, end: 0, message: "There are too many brackets inside each other." },
    };
  }
  const first = errors?.[0];
  if (first)
    return {
      problem: problemAt(
        text,
        first,
        JSON_WORDS[printParseErrorCode(first.error)] ?? "This cannot be read as JSON.",
      ),
    };
  if (!tree)
    return {
      problem: {
        line: 0,
        start: 0,
        end: 0,
        message: "There is nothing but comments here. Write {} for the usual settings.",
      },
    };
  return { tree };
}

function repeatedKeys(node: Node): Node[] {
  const keys = node.type === "object" ? (node.children ?? []).map((property) => property.children?.[0]) : [];
  const seen = new Set<unknown>();
  const own = keys.filter((key): key is Node => {
    const again = key !== undefined && seen.has(key.value);
    seen.add(key?.value);
    return again;
  });
  return [...own, ...(node.children ?? []).flatMap(repeatedKeys)];
}

type Issue = z.core.$ZodIssue;

/** A fault that zod found, at its place in the text. */
function problemsOf(text: string, tree: Node, issue: Issue): SettingsProblem[] {
  const node = nodeAt(tree, issue.path);
  if (issue.code !== "unrecognized_keys") return [problemAt(text, node, wordsOf(issue, node))];
  const known = knownKeys(issue.path);
  return issue.keys.map((key) => {
    const property = node.children?.find((child) => child.children?.[0]?.value === key);
    const near = nearest(key, known);
    const way = near ? `Did you mean "${near}"?` : known.length <= 12 ? `There are ${listed(known)}.` : "";
    const what =
      issue.path[0] === "severities" ? `There is no code "${key}".` : `There is no setting "${key}" here.`;
    return problemAt(text, property?.children?.[0] ?? node, `${what} ${way}`.trim());
  });
}

/** The deepest node on a path that is there: a value that is missing is told at what should hold it. */
function nodeAt(tree: Node, path: readonly PropertyKey[]): Node {
  for (let length = path.length; length > 0; length--) {
    const node = findNodeAtLocation(tree, path.slice(0, length) as (string | number)[]);
    if (node) return node;
  }
  return tree;
}

function wordsOf(issue: Issue, node: Node): string {
  const last = issue.path.at(-1);
  if (issue.code === "invalid_type" && node.parent && node.value !== last && isMissing(issue, node))
    return `"${String(last)}" is missing here.`;
  if (issue.code === "invalid_value") {
    const words = issue.values.map(String);
    const near = typeof node.value === "string" ? nearest(node.value, words) : undefined;
    const way = near ? `Did you mean "${near}"?` : words.length <= 12 ? `Write ${listed(words)}.` : "";
    return `${quoted(node)} cannot stand here. ${way}`.trim();
  }
  if (issue.code === "invalid_type")
    return `${EXPECTED[issue.expected] ?? "Something else"} is expected here.`;
  if (issue.code === "too_small")
    return issue.origin === "array" ? "At least one is needed here." : "This must not be empty.";
  if (issue.code === "invalid_format")
    return "A name has letters, digits and hyphens, and begins with a letter.";
  return "This cannot stand here.";
}

const EXPECTED: Readonly<Record<string, string>> = {
  string: "A text in double quotes",
  object: "An object in braces, { … },",
  array: "A list in brackets, [ … ],",
};

/** Whether the value itself is not there, so that the node is the object around it. */
function isMissing(issue: Issue, node: Node): boolean {
  const key = issue.path.at(-1);
  return node.type === "object" && !node.children?.some((child) => child.children?.[0]?.value === key);
}

/** The keys an object on this path may have. */
function knownKeys(path: readonly PropertyKey[]): string[] {
  const shape = settingsSchema.shape;
  if (path.length === 0) return Object.keys(shape);
  if (path[0] === "severities") return Object.keys(shape.severities.unwrap().shape);
  return path[0] === "hazards" ? Object.keys(shape.hazards.unwrap().element.shape) : [];
}

function quoted(node: Node): string {
  return node.type === "object" || node.type === "array" ? "This" : JSON.stringify(node.value);
}

function listed(words: readonly string[]): string {
  const all = words.map((word) => `"${word}"`);
  return all.length < 2 ? all.join("") : `${all.slice(0, -1).join(", ")} or ${all.at(-1)}`;
}

function problemAt(
  text: string,
  at: { readonly offset: number; readonly length: number },
  message: string,
): SettingsProblem {
  const lines = text.slice(0, at.offset).split(/\r\n|\n|\r/);
  const start = lines.at(-1)?.length ?? 0;
  const [inLine = ""] = text.slice(at.offset, at.offset + at.length).split(/\r\n|\n|\r/);
  return { line: lines.length - 1, start, end: start + inLine.length, message };
}
