/**
 * A comparison as a person reads it on a terminal, and as Markdown for a pull request: safety first.
 */
import { told, type Word, type Words } from "../features/compare";
import { type ComparePhrase, comparePhrase } from "../phrases/compare";
import { byRank, type CompareReport, placesText, type Shown } from "./compare-report";
import { harmless } from "./display";
import { counted, type Paint, type Style } from "./io";

const STYLES: Readonly<Record<string, Style>> = {
  safety: "error",
  content: "warning",
  wording: "hint",
  layout: "faint",
};

/** The report for a terminal. */
export function compareText(report: CompareReport, paint: Paint): string {
  const groups = byRank(report);
  if (groups.length === 0) return `${comparePhrase("none.text")}\n`;
  return groups
    .map(([rank, all]) => {
      const head = paint(
        STYLES[rank] ?? "strong",
        `${comparePhrase(`rank.${rank}`)}, ${counted(all.length, "change")}`,
      );
      return `${head}\n\n${all.map((one) => changeText(one, paint)).join("\n")}`;
    })
    .join("\n");
}

function changeText(one: Shown, paint: Paint): string {
  const { headline, where, does, touches } = told(one.change);
  const place = placesText(one);
  const under = [
    ...(where ? [plain(where)] : []),
    ...[...does, ...touches].map(plain),
    ...(place === "" ? [] : [paint("faint", harmless(place))]),
  ];
  return [`  ${paint("strong", plain(headline))}`, ...under.map((line) => `    ${line}`), ""].join("\n");
}

/** What the writer wrote stands in quotes. */
function plain(words: Words): string {
  return words.map(({ kind, text }) => (kind === "ours" ? text : `“${harmless(text)}”`)).join("");
}

/** The report as Markdown. */
export function compareMarkdown(report: CompareReport): string {
  const title = `## Changes from ${code(report.names.before)} to ${code(report.names.after)}`;
  const groups = byRank(report);
  if (groups.length === 0) return `${title}\n\n${comparePhrase("none.text")}\n`;
  const parts = groups.map(([rank, all]) => {
    const head = `### ${comparePhrase(`rank.${rank}` as ComparePhrase)} (${counted(all.length, "change")})`;
    return `${head}\n\n${all.map(changeMarkdown).join("\n")}\n`;
  });
  return `${title}\n\n${parts.join("\n")}`;
}

function changeMarkdown(one: Shown): string {
  const { headline, where, does, touches } = told(one.change);
  const place = placesText(one);
  const under = [...(where ? [where] : []), ...does, ...touches].map(marked);
  return [
    `- ${marked(headline)}`,
    ...under.map((line) => `  - ${line}`),
    ...(place === "" ? [] : [`  - ${code(place)}`]),
  ].join("\n");
}

/** Titles stand out, lines of the writer's are code; nothing the writer wrote is taken for Markdown. */
function marked(words: Words): string {
  return words.map(mark).join("");
}

function mark({ kind, text }: Word): string {
  if (kind === "ours") return text;
  return kind === "line" ? code(text) : `*${escaped(text)}*`;
}

function escaped(text: string): string {
  return harmless(text).replace(/[\\`*_[\]<>|~&]/g, (sign) => `\\${sign}`);
}

/** A text as code, whatever backquotes are in it. */
function code(text: string): string {
  const plainText = harmless(text);
  const longest = Math.max(0, ...(plainText.match(/`+/g) ?? []).map((run) => run.length));
  if (plainText === "") return "“”";
  const fence = "`".repeat(longest + 1);
  return longest === 0 ? `${fence}${plainText}${fence}` : `${fence} ${plainText} ${fence}`;
}
