/**
 * A finding as a person reads it: what is wrong, the line it stands on, the other places, the way, what to write.
 */
import { type Finding, wordsOf } from "../rules";
import { harmless, windowOn } from "./display";
import type { Paint } from "./io";

/** A place to show: lines and characters from 0. */
export interface Shown {
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

/** What is needed to show a finding. */
export interface Showing {
  readonly paint: Paint;
  readonly width: number;
  /** How a file of the project is called, as seen from where the person is. */
  readonly nameOf: (file: string) => string;
  /** The text of a line; undefined where there is none. */
  readonly lineOf: (file: string, line: number) => string | undefined;
}

/** A whole finding; ends with an empty line. */
export function findingFrame(finding: Finding, showing: Showing): string {
  const { paint } = showing;
  const { place, severity, code } = finding;
  const head = headLine(
    showing.nameOf(place.file),
    place,
    severity,
    wordsOf(finding, finding.message),
    showing,
  );
  const parts = [`${head} ${paint("faint", `[${code}]`)}`, codeFrame(place.file, place, showing, severity)];
  for (const { place: other, message } of finding.related) {
    const at = placeText(showing.nameOf(other.file), other);
    parts.push(`  ${paint("strong", "see")} ${at}: ${harmless(wordsOf(finding, message))}`);
    parts.push(codeFrame(other.file, other, showing, "strong"));
  }
  if (finding.way.length > 0)
    parts.push(`  ${paint("strong", "way")} ${harmless(finding.way.join(", then "))}`);
  if (finding.hint) parts.push(`  ${paint("strong", "help")} ${indented(wordsOf(finding, finding.hint))}`);
  return `${parts.filter((part) => part !== "").join("\n")}\n\n`;
}

/** A problem with a file, as one line with the place in front. */
export function problemLine(
  name: string,
  place: Shown | null,
  message: string,
  showing: Pick<Showing, "paint">,
): string {
  return `${headLine(name, place, "error", message, showing)}\n`;
}

/** `belt.torquil:12:5: error: …`; a text of several lines is set in under it. */
function headLine(
  name: string,
  place: Shown | null,
  severity: Finding["severity"],
  message: string,
  { paint }: Pick<Showing, "paint">,
): string {
  return `${paint("strong", placeText(name, place))}: ${paint(severity, severity)}: ${indented(message)}`;
}

function placeText(name: string, place: Shown | null): string {
  return place ? `${harmless(name)}:${place.line + 1}:${place.start + 1}` : harmless(name);
}

function indented(text: string): string {
  return harmless(text, true).replace(/\n/g, "\n    ");
}

/** The line with the place marked under it; empty where the line is not known. */
export function codeFrame(
  file: string,
  place: Shown,
  { paint, width, lineOf }: Omit<Showing, "nameOf">,
  style: Parameters<Paint>[0],
): string {
  const line = lineOf(file, place.line);
  if (line === undefined) return "";
  const number = String(place.line + 1).padStart(5);
  const { text, before, marks } = windowOn(line, place.start, place.end, Math.max(20, width - 10));
  const bar = paint("faint", "|");
  return [
    `${paint("faint", number)} ${bar} ${text}`,
    `      ${bar} ${" ".repeat(before)}${paint(style, "^".repeat(marks))}`,
  ].join("\n");
}
