/**
 * A project kept open: its settings, its texts from disk and editor, and what the checker finds in them.
 *
 * What it gives depends only on the disk as last looked at, and on the texts laid over it. Files are named by their
 * path from the project's folder. Nothing is worked out before it is asked for.
 */
import { type Document, documentText, readDocument } from "../../grammar";
import { buildProject, type Project, type Resolve } from "../model";
import { declare } from "../model/declare";
import { checkProject, type Finding } from "../rules";
import type { FileProblem, Files } from "./files";
import { joinPath, nameOf, parentOf, within } from "./paths";
import { createResolve } from "./resolve";
import { loadSettings } from "./root";
import { readSettings, SETTINGS_FILE, type Settings, type SettingsProblem } from "./settings";
import { walkFolder } from "./tree-walk";

/** A file of the project that cannot be read. `file` is its path from the project's folder. */
export interface ReadProblem {
  readonly file: string;
  readonly problem: FileProblem;
}

export interface Workspace {
  /** The project's folder, absolute, links followed. */
  readonly root: string;
  /** The name of an absolute path in this project, also of one that is not there yet; null when it lies outside. */
  readonly fileAt: (path: string) => string | null;
  /** Lays a text over a file, as an editor does that has it open; the file need not exist. Settings take a text too. */
  readonly setOverlay: (file: string, content: Document | string) => void;
  /** Takes the text away again: what is on the disk counts. */
  readonly remove: (file: string) => void;
  /** Looks at the disk again: at the files named and at which there are; without names, at all. */
  readonly refresh: (changed?: readonly string[]) => void;
  readonly settings: () => Settings;
  readonly settingsProblems: () => readonly SettingsProblem[];
  /** Files that cannot be read, and links that lead astray. */
  readonly problems: () => readonly ReadProblem[];
  readonly project: () => Project;
  /** What is found in each file of the project. */
  readonly check: () => Map<string, Finding[]>;
}

type Loaded = { readonly document: Document } | { readonly problem: FileProblem };
type Found = Map<string, Finding[]>;

interface Opened {
  readonly project: Project;
  readonly problems: readonly ReadProblem[];
}

/**
 * Opens a project. Nothing is read yet.
 *
 * @param root the project's folder, absolute
 * @param named the files to open, with all that they use; without it, every file in the folder
 */
export function createWorkspace(files: Files, root: string, named?: readonly string[]): Workspace {
  const real = files.realPath(root);
  const home = "path" in real ? real.path : root;
  const overlays = new Map<string, Document>();
  const loaded = new Map<string, Loaded>();
  const resolved = new Map<string, ReturnType<Resolve>>();
  const lookUp = createResolve(files, home, (file) => overlays.has(file));
  let settingsText: string | null = null;
  let settings: ReturnType<typeof readSettings> | null = null;
  let settingsAreOld = true;
  let listing: { files: readonly string[]; problems: readonly ReadProblem[] } | null = null;
  let opened: Opened | null = null;
  let before: Project | undefined;
  let findings: Found | null = null;

  const changed = (): void => {
    if (opened) before = opened.project;
    opened = null;
    findings = null;
  };
  const resolve: Resolve = (from, path) => {
    const key = `${parentOf(from)}\0${path}`;
    const known = resolved.get(key) ?? lookUp(from, path);
    resolved.set(key, known);
    return known;
  };
  const load = (file: string): Loaded => {
    const open = overlays.get(file);
    if (open) return { document: open };
    const known = loaded.get(file) ?? readFile(files, home, file);
    loaded.set(file, known);
    return known;
  };
  const readAgain = (file: string): void => {
    const old = loaded.get(file);
    const fresh = readFile(files, home, file);
    if (old && !sameText(old, fresh)) loaded.set(file, fresh);
  };
  const list = (): NonNullable<typeof listing> => {
    listing ??= named ? { files: named, problems: [] } : filesBelow(files, home);
    return listing;
  };
  const readSettingsNow = (): NonNullable<typeof settings> => {
    if (settingsAreOld || !settings) {
      const fresh = settingsText === null ? loadSettings(files, home) : readSettings(settingsText);
      // The same settings stay the same value, so that what was checked by them stands.
      if (JSON.stringify(fresh) !== JSON.stringify(settings)) settings = fresh;
      settingsAreOld = false;
    }
    return settings as NonNullable<typeof settings>;
  };
  const open = (): Opened => {
    if (opened) return opened;
    const { documents, problems } = reachable([...list().files, ...overlays.keys()], load, resolve);
    opened = { project: buildProject(documents, resolve, before), problems };
    return opened;
  };

  return {
    root: home,
    fileAt: (path) => fileAt(files, home, path),
    setOverlay: (file, content) => {
      if (file === SETTINGS_FILE) {
        settingsText = typeof content === "string" ? content : documentText(content);
        settingsAreOld = true;
      } else {
        if (!overlays.has(file)) resolved.clear();
        overlays.set(file, typeof content === "string" ? readDocument(content) : content);
      }
      changed();
    },
    remove: (file) => {
      if (file === SETTINGS_FILE) {
        settingsText = null;
        settingsAreOld = true;
      } else if (overlays.delete(file)) {
        resolved.clear();
        readAgain(file);
      }
      changed();
    },
    refresh: (paths) => {
      for (const file of paths ?? [...loaded.keys()]) readAgain(file);
      resolved.clear();
      listing = null;
      settingsAreOld = true;
      changed();
    },
    settings: () => readSettingsNow().settings,
    settingsProblems: () => readSettingsNow().problems,
    problems: () => [...list().problems, ...open().problems].sort((a, b) => (a.file < b.file ? -1 : 1)),
    project: () => open().project,
    check: () => {
      findings ??= checkProject(open().project, readSettingsNow().settings.rules);
      return findings;
    },
  };
}

function readFile(files: Files, root: string, file: string): Loaded {
  const read = files.readText(joinPath(root, file));
  return "text" in read ? { document: readDocument(read.text) } : read;
}

function sameText(a: Loaded, b: Loaded): boolean {
  if ("problem" in a || "problem" in b) return JSON.stringify(a) === JSON.stringify(b);
  return documentText(a.document) === documentText(b.document);
}

function filesBelow(files: Files, root: string): { files: string[]; problems: ReadProblem[] } {
  const walk = walkFolder(files, root);
  return {
    files: walk.files
      .filter((file) => file.root === root)
      .map((file) => within(root, file.real) ?? file.real),
    problems: walk.problems.map(({ path, problem }) => ({ file: within(root, path) ?? path, problem })),
  };
}

/** The documents of some files and of all that they use, in the order of their paths, and those that cannot be read. */
function reachable(
  start: readonly string[],
  load: (file: string) => Loaded,
  resolve: Resolve,
): { documents: Map<string, Document>; problems: ReadProblem[] } {
  const documents: [string, Document][] = [];
  const problems: ReadProblem[] = [];
  // A set that is gone through also gives what is added to it meanwhile.
  const reached = new Set(start);
  for (const file of reached) {
    const one = load(file);
    if ("problem" in one) {
      problems.push({ file, problem: one.problem });
      continue;
    }
    documents.push([file, one.document]);
    for (const link of declare(file, one.document).links) {
      const target = link.kind === "use" ? resolve(file, link.path) : { problem: "missing" as const };
      if ("file" in target) reached.add(target.file);
    }
  }
  return { documents: new Map(documents.sort(([a], [b]) => (a < b ? -1 : 1))), problems };
}

function fileAt(files: Files, root: string, path: string): string | null {
  const real = files.realPath(path);
  if ("path" in real) return within(root, real.path);
  const folder = files.realPath(parentOf(path));
  return within(root, "path" in folder ? joinPath(folder.path, nameOf(path)) : path);
}
