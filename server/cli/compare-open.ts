/**
 * Opens what is compared: two files or folders, or a path at two revisions of its git repository. Projects are put in
 * pairs; one that is on one side only is compared with nothing.
 */
import type { Given } from "../features/compare";
import type { Project } from "../model";
import {
  absolutePath,
  createWorkspace,
  discover,
  type Files,
  joinPath,
  parentOf,
  SETTINGS_FILE,
  shownPath,
  type Workspace,
  within,
} from "../project";
import { flatSettings } from "../project/flat-settings";
import { type Git, gitAt } from "../project/git";
import type { Io } from "./io";
import { namerOf, type OpenProblem, openProblems, problemOfName } from "./open";

/** Two projects to compare. */
export interface Pair {
  readonly before: Opened;
  readonly after: Opened;
  /** Files that are the same whatever they are called. */
  readonly sameFiles: readonly (readonly [string, string])[];
  /** Whether a change in a file is told; the path that was named may be a part of the project. */
  readonly isMeant: (file: string) => boolean;
}

/** One side of a pair. */
export interface Opened {
  readonly given: Given;
  /** How a file is called, as seen from the folder of the command. */
  readonly nameOf: (file: string) => string;
}

/** What is compared, and how it is called. */
export interface Compared {
  readonly pairs: readonly Pair[];
  readonly names: { readonly before: string; readonly after: string };
  readonly problems: readonly OpenProblem[];
  /** Whether both sides are from a repository, where line ends may be kept otherwise than on the disk. */
  readonly fromGit: boolean;
}

/** What cannot be compared at all, in a sentence. */
export interface Wrong {
  readonly wrong: string;
}

const NOTHING: Given = { project: { files: new Map() }, settings: null };

/** The path that was named on one side. */
interface SideNamed {
  readonly files: Files;
  readonly path: string;
  readonly nameOf: (path: string) => string;
}

interface Root {
  readonly workspace: Workspace;
  readonly named: readonly string[];
}

/** Opens two files or two folders. */
export function openPaths(old: string, fresh: string, io: Io): Compared | Wrong {
  const sides = [old, fresh].map((path) => ({
    files: io.files,
    path: absolutePath(io.folder, path),
    nameOf: namerOf(io),
  }));
  const [before, after] = sides as [SideNamed, SideNamed];
  const kinds = sides.map(({ files, path }) => {
    const found = files.look(path);
    return "kind" in found ? found.kind : "file";
  });
  if (kinds[0] !== kinds[1])
    return {
      wrong: `A file and a folder cannot be compared. Name two files or two folders, not ${old} and ${fresh}.`,
    };
  const a = rootsOf(before, true);
  const b = rootsOf(after, true);
  const isFile = kinds[0] !== "folder";
  const pairs = paired(
    a.roots,
    b.roots,
    (root, side) => within(side === "before" ? before.path : after.path, root) ?? ".",
  );
  return {
    pairs: pairs.map(([one, other]) => pairOf(one, other, before, after, isFile)),
    names: { before: before.nameOf(before.path), after: after.nameOf(after.path) },
    problems: [...a.problems, ...b.problems],
    fromGit: false,
  };
}

/** Opens a path at two revisions; without a second one, as it lies in the work tree. */
export function openRevisions(
  path: string,
  since: string,
  until: string | undefined,
  io: Io,
): Compared | Wrong {
  const named = realPathOf(io.files, absolutePath(io.folder, path));
  const git = gitAt(existingFolder(io.files, named));
  if ("problem" in git) return { wrong: git.problem };
  return revisionsIn(git, named, since, until, io);
}

function revisionsIn(
  git: Git,
  path: string,
  since: string,
  until: string | undefined,
  io: Io,
): Compared | Wrong {
  const old = git.revision(since);
  if ("problem" in old) return { wrong: old.problem };
  const fresh = until === undefined ? { files: io.files } : git.revision(until);
  if ("problem" in fresh) return { wrong: fresh.problem };
  const nameOf = namerOf(io);
  const [before, after] = [old, fresh].map(({ files }): SideNamed => ({ files, path, nameOf })) as [
    SideNamed,
    SideNamed,
  ];
  const there = [before, after].map((side) => "kind" in side.files.look(path));
  if (!there[0] && !there[1]) return { wrong: `There is no ${nameOf(path)}, neither now nor at ${since}.` };
  const none = { roots: new Map<string, Root>(), problems: [] };
  // A change of a machine file touches procedures that were not named: the project is opened whole.
  const a = there[0] ? rootsOf(before, false) : none;
  const b = there[1] ? rootsOf(after, false) : none;
  const pairs = paired(a.roots, b.roots, (root) => root);
  return {
    pairs: pairs.map(([one, other]) => pairOf(one, other, before, after, false)),
    names: { before: since, after: until ?? "the work tree" },
    problems: [...a.problems, ...b.problems],
    fromGit: true,
  };
}

function realPathOf(files: Files, path: string): string {
  const real = files.realPath(path);
  if ("path" in real) return real.path;
  const parent = parentOf(path);
  return parent === path ? path : joinPath(realPathOf(files, parent), path.slice(parent.length + 1));
}

function existingFolder(files: Files, path: string): string {
  const found = files.look(path);
  return "kind" in found && found.kind === "folder"
    ? path
    : parentOf(path) === path
      ? path
      : existingFolder(files, parentOf(path));
}

/** The projects in which what was named lies, by their folder. */
function rootsOf(
  side: SideNamed,
  onlyNamed: boolean,
): { roots: Map<string, Root>; problems: readonly OpenProblem[] } {
  const { projects, problems } = discover(side.files, side.path, [side.path]);
  const roots = new Map(
    projects.map(({ root, files }): [string, Root] => {
      const workspace = createWorkspace(side.files, root, onlyNamed ? files : undefined);
      return [root, { workspace, named: files }];
    }),
  );
  const isEmptyFolder = projects.length === 0 && isFolder(side);
  const wrong = isEmptyFolder ? [] : problems.map((problem) => problemOfName(problem, side.nameOf));
  const inside = [...roots.values()].flatMap(({ workspace, named }) =>
    openProblems({ workspace, named, nameOf: (file) => side.nameOf(joinPath(workspace.root, file)) }),
  );
  return { roots, problems: [...wrong, ...inside] };
}

function isFolder({ files, path }: SideNamed): boolean {
  const found = files.look(path);
  return "kind" in found && found.kind === "folder";
}

/** Puts projects in pairs by what their folders are called; a single one on each side is a pair anyway. */
function paired(
  before: ReadonlyMap<string, Root>,
  after: ReadonlyMap<string, Root>,
  keyOf: (root: string, side: "before" | "after") => string,
): readonly (readonly [Root | null, Root | null])[] {
  const [one] = before.values();
  const [other] = after.values();
  if (one && other && before.size === 1 && after.size === 1) return [[one, other]];
  const old = new Map([...before].map(([root, opened]) => [keyOf(root, "before"), opened]));
  const fresh = new Map([...after].map(([root, opened]) => [keyOf(root, "after"), opened]));
  const keys = [...new Set([...old.keys(), ...fresh.keys()])].sort();
  return keys.map((key) => [old.get(key) ?? null, fresh.get(key) ?? null]);
}

function pairOf(
  one: Root | null,
  other: Root | null,
  before: SideNamed,
  after: SideNamed,
  isFile: boolean,
): Pair {
  const settings = !isFile && one !== null && other !== null;
  const base = (side: SideNamed): string => (isFile ? parentOf(side.path) : side.path);
  const sameFiles =
    isFile && one?.named[0] && other?.named[0] ? [[one.named[0], other.named[0]] as const] : [];
  const meant = new Set([...reachedFrom(one), ...reachedFrom(other)]);
  return {
    before: openedOf(one, before, base(before), settings),
    after: openedOf(other, after, base(after), settings),
    sameFiles,
    isMeant: (file) => meant.has(file),
  };
}

function openedOf(root: Root | null, side: SideNamed, base: string, settings: boolean): Opened {
  if (!root) return { given: NOTHING, nameOf: (file) => file };
  const { workspace } = root;
  const at = (file: string): string => joinPath(workspace.root, file);
  const read = side.files.readText(at(SETTINGS_FILE));
  return {
    given: {
      project: workspace.project(),
      settings: settings
        ? {
            file: SETTINGS_FILE,
            values: flatSettings(workspace.settings()),
            text: "text" in read ? read.text : null,
          }
        : null,
      nameOf: (file) => shownPath(base, at(file)),
    },
    nameOf: (file) => side.nameOf(at(file)),
  };
}

/** What was named, all it uses, and the settings. */
function reachedFrom(root: Root | null): ReadonlySet<string> {
  if (!root) return new Set();
  const { files }: Project = root.workspace.project();
  const reached = new Set([...root.named, SETTINGS_FILE]);
  // A set that is gone through also gives what is added to it meanwhile.
  for (const one of reached)
    for (const { kind, file } of files.get(one)?.links ?? [])
      if (kind === "use" && file !== null) reached.add(file);
  return reached;
}
