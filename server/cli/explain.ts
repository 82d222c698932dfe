/**
 * `torquil explain`: the page of the catalogue on a code, or the list of all codes.
 */
import { nearest } from "../../grammar";
import { ALL_CODES } from "../project";
import { GROUPS, PAGES, type Page, pageByCode } from "../rules";
import { helpText, readArguments, type Usage } from "./arguments";
import { firstSentence } from "./display";
import type { Command, Paint } from "./io";
import { wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "explain [CODE…]",
  about:
    "Explains what a code means, why it matters, and what to write instead. Without a code, lists them all.",
  options: {},
  more: "Exit code: 0 explained, 2 there is no such code.",
  examples: [
    ["torquil explain", "List all codes, with a line about each."],
    ["torquil explain finger-tight-left", "The page on one code."],
  ],
};

export const explain: Command = async (args, io) => {
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "explain", io);
  if (read.given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const codes = read.given.paths;
  for (const code of codes) {
    if (ALL_CODES.includes(code)) continue;
    const near = nearest(code.toLowerCase(), ALL_CODES);
    return wrongUse(
      `There is no code "${code}". ${near ? `Did you mean ${near}?` : '"torquil explain" lists them.'}`,
      "explain",
      io,
    );
  }
  if (codes.length === 0) io.out(catalogue(io.paintOut));
  else io.out(codes.map((code) => explanation(code, io.paintOut)).join("\n"));
  return 0;
};

/** The codes by group, each with the first sentence of its page. */
function catalogue(paint: Paint): string {
  const wide = Math.max(...ALL_CODES.map((code) => code.length));
  const rows = (page: Page): string[] =>
    [page.code, ...(page.alsoCodes ?? [])].map(
      (code) => `  ${code.padEnd(wide)}  ${firstSentence(page.docs.what)}`,
    );
  const groups = GROUPS.map((group) => ({ group, pages: PAGES.filter((page) => page.group === group) }));
  return groups
    .filter(({ pages }) => pages.length > 0)
    .map(({ group, pages }) => `${paint("strong", headline(group))}\n${pages.flatMap(rows).join("\n")}\n`)
    .join("\n");
}

function explanation(code: string, paint: Paint): string {
  const page = pageByCode(code) as Page;
  const { what, why, example, instead } = page.docs;
  return [
    `${paint("strong", code)} – ${paint(page.severity, page.severity)}, ${page.group}`,
    "",
    what,
    why,
    "",
    paint("strong", "What is reported"),
    setIn(example),
    "",
    paint("strong", "What to write instead"),
    setIn(instead),
    "",
    paint(
      "faint",
      `In torquil.json: "severities": { "${code}": "off" }. For one line: allow ${code} "reason" above it.`,
    ),
    "",
  ].join("\n");
}

function setIn(text: string): string {
  const lines = text.replace(/\n+$/, "").split("\n");
  return lines.map((line) => (line === "" ? "" : `    ${line}`)).join("\n");
}

function headline(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
