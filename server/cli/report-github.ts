/**
 * The report of `check` as workflow commands, by which GitHub Actions shows findings beside the lines of a pull request.
 *
 * Escaping as in the Actions toolkit (`command.ts`): `%`, CR and LF in the text, `:` and `,` too in a property.
 */
import { findingText, type Severity } from "../rules";
import type { Checked } from "./report";

const COMMANDS: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", hint: "notice" };

/** One line a finding. */
export function githubReport({ shown, problems }: Checked): string {
  const found = shown.map(({ finding, project }) => {
    const { place, severity, code } = finding;
    const file = project.nameOf(place.file);
    return command(COMMANDS[severity], { file, ...region(place), title: code }, findingText(finding));
  });
  const unread = problems.map(({ name, place, message }) =>
    command("error", { file: name, ...(place ? region(place) : {}), title: "cannot be read" }, message),
  );
  return [...unread, ...found].join("");
}

/** Lines and columns count from 1; the last column belongs to the place. */
function region({ line, start, end }: { line: number; start: number; end: number }): Record<string, string> {
  return {
    line: String(line + 1),
    endLine: String(line + 1),
    col: String(start + 1),
    endColumn: String(Math.max(start, end - 1) + 1),
  };
}

function command(name: string, properties: Readonly<Record<string, string>>, text: string): string {
  const given = Object.entries(properties).map(([key, value]) => `${key}=${escapeProperty(value)}`);
  return `::${name} ${given.join(",")}::${escapeText(text)}\n`;
}

function escapeText(text: string): string {
  return text.replace(/%/g, "%25").replace(/\r/g, "%0D").replace(/\n/g, "%0A");
}

function escapeProperty(text: string): string {
  return escapeText(text).replace(/:/g, "%3A").replace(/,/g, "%2C");
}
