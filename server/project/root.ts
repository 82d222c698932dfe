/**
 * Which folder is a file's project: the nearest with a `torquil.json`, else the nearest under version control.
 */
import { type Files, fileProblemText } from "./files";
import { joinPath, parentOf } from "./paths";
import { readSettings, SETTINGS_FILE, type Settings, type SettingsProblem } from "./settings";

/** The project's folder, for something that lies in this folder; null when no folder above it is one. */
export function findRoot(files: Files, folder: string): string | null {
  return nearestWith(files, folder, SETTINGS_FILE) ?? nearestWith(files, folder, ".git");
}

/** The settings of the project in a folder, and what is wrong with them; the usual ones where there is no file. */
export function loadSettings(
  files: Files,
  root: string,
): { readonly settings: Settings; readonly problems: readonly SettingsProblem[] } {
  const read = files.readText(joinPath(root, SETTINGS_FILE));
  if ("text" in read) return readSettings(read.text);
  const { settings } = readSettings("{}");
  if (read.problem.kind === "missing") return { settings, problems: [] };
  const { line = 0, character = 0 } = read.problem;
  return {
    settings,
    problems: [{ line, start: character, end: character, message: fileProblemText(read.problem) }],
  };
}

function nearestWith(files: Files, folder: string, name: string): string | null {
  for (let at = folder; ; at = parentOf(at)) {
    if (!("problem" in files.look(joinPath(at, name)))) return at;
    if (parentOf(at) === at) return null;
  }
}
