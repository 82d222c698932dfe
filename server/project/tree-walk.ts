/**
 * Walks folders for procedure files: each file once, in the order of names, with the project it belongs to. Links are
 * followed as long as they stay in the project; one that leads out of it, or back to itself, is a problem.
 */
import picomatch from "picomatch";
import type { FileProblem, Files } from "./files";
import { joinPath, parentOf, within } from "./paths";
import { findRoot, loadSettings } from "./root";
import { SETTINGS_FILE } from "./settings";

/** The ending of the files that are looked for. */
export const ENDING = ".torquil";

const NEVER_ENTERED: ReadonlySet<string> = new Set(["node_modules", ".git", "dist"]);

/** A file that was found. Paths are absolute. */
export interface FoundFile {
  /** As it was come upon, links in it. */
  readonly path: string;
  /** Where it really lies. */
  readonly real: string;
  readonly root: string;
}

export interface PathProblem {
  readonly path: string;
  readonly problem: FileProblem;
}

export interface Walk {
  readonly files: readonly FoundFile[];
  readonly problems: readonly PathProblem[];
}

interface Project {
  readonly root: string;
  readonly hasSettings: boolean;
  readonly skips: (path: string) => boolean;
}

interface State {
  readonly files: Files;
  readonly found: FoundFile[];
  readonly problems: PathProblem[];
  readonly seen: Set<string>;
}

/**
 * Finds the procedure files below a folder.
 *
 * @param folder absolute; links in it may be there
 */
export function walkFolder(files: Files, folder: string): Walk {
  const real = files.realPath(folder);
  if ("problem" in real) return { files: [], problems: [{ path: folder, problem: real.problem }] };
  const state: State = { files, found: [], problems: [], seen: new Set() };
  enter(state, folder, real.path, projectOf(files, findRoot(files, real.path) ?? real.path));
  return { files: state.found, problems: state.problems };
}

/** Where a file named by its path lies, and in which project; a file that a link leads out of its project is a problem. */
export function placeFile(
  files: Files,
  path: string,
): { readonly file: FoundFile } | { readonly problem: FileProblem } {
  const real = files.realPath(path);
  const folder = files.realPath(parentOf(path));
  if ("problem" in real) return real;
  if ("problem" in folder) return folder;
  const root = findRoot(files, folder.path) ?? folder.path;
  if (within(root, real.path) === null) return { problem: { kind: "outside" } };
  return { file: { path, real: real.path, root } };
}

function projectOf(files: Files, root: string): Project {
  const hasSettings = !("problem" in files.look(joinPath(root, SETTINGS_FILE)));
  const { skip } = loadSettings(files, root).settings;
  const matches = skip.length > 0 ? picomatch([...skip], { dot: true }) : () => false;
  return { root, hasSettings, skips: (path) => matches(within(root, path) ?? path) };
}

function enter(state: State, path: string, real: string, outer: Project): void {
  if (state.seen.has(real)) return;
  state.seen.add(real);
  const listed = state.files.list(real);
  if ("problem" in listed) {
    state.problems.push({ path, problem: listed.problem });
    return;
  }
  const names = new Set(listed.entries.map((entry) => entry.name));
  const begins = names.has(SETTINGS_FILE) || (!outer.hasSettings && names.has(".git"));
  const project = begins && real !== outer.root ? projectOf(state.files, real) : outer;
  for (const { name, kind } of listed.entries) {
    const below = { path: joinPath(path, name), real: joinPath(real, name) };
    if (NEVER_ENTERED.has(name) || project.skips(below.real)) continue;
    if (kind === "folder") enter(state, below.path, below.real, project);
    else if (kind === "link") followLink(state, below.path, below.real, project);
    else if (name.endsWith(ENDING)) add(state, below.path, below.real, project.root);
  }
}

function followLink(state: State, path: string, link: string, project: Project): void {
  const { files, problems } = state;
  const target = files.realPath(link);
  if ("problem" in target) {
    // A link to nothing matters only where a procedure should be.
    if (path.endsWith(ENDING) || target.problem.kind !== "missing")
      problems.push({ path, problem: target.problem });
    return;
  }
  const found = files.look(target.path);
  const isFolder = "kind" in found && found.kind === "folder";
  if (!isFolder && !path.endsWith(ENDING)) return;
  if (within(project.root, target.path) === null) problems.push({ path, problem: { kind: "outside" } });
  else if (!isFolder) add(state, path, target.path, project.root);
  else if (within(target.path, link) !== null) problems.push({ path, problem: { kind: "link-loop" } });
  else enter(state, path, target.path, projectOf(files, findRoot(files, target.path) ?? project.root));
}

function add(state: State, path: string, real: string, root: string): void {
  if (state.seen.has(real)) return;
  state.seen.add(real);
  state.found.push({ path, real, root });
}
