/**
 * From what a person names — files, folders, patterns — to the files meant, project by project.
 */
import picomatch from "picomatch";
import { nearest } from "../../grammar";
import { type FileProblem, type Files, fileProblemText } from "./files";
import { absolutePath, nameOf, parentOf, within } from "./paths";
import { ENDING, type FoundFile, placeFile, walkFolder } from "./tree-walk";

/** A project, and those of its files that were named; paths of the files are from its root. */
export interface NamedProject {
  readonly root: string;
  readonly files: readonly string[];
}

/** Something named that cannot be taken: an absolute path, or a pattern as it was given. */
export interface NameProblem {
  readonly path: string;
  readonly message: string;
  readonly line?: number;
  readonly character?: number;
}

export interface Discovery {
  readonly projects: readonly NamedProject[];
  readonly problems: readonly NameProblem[];
}

/** Finds what is meant by each name, as seen from a folder. Each file comes once, in the order of the names. */
export function discover(files: Files, folder: string, names: readonly string[]): Discovery {
  const projects = new Map<string, Set<string>>();
  const problems: NameProblem[] = [];
  for (const name of names) {
    const { found, wrong } = meant(files, folder, name);
    problems.push(...wrong);
    for (const file of found) {
      const inRoot = projects.get(file.root) ?? new Set();
      projects.set(file.root, inRoot.add(within(file.root, file.real) ?? file.real));
    }
  }
  return { projects: [...projects].map(([root, paths]) => ({ root, files: [...paths] })), problems };
}

interface Meant {
  readonly found: readonly FoundFile[];
  readonly wrong: readonly NameProblem[];
}

function meant(files: Files, folder: string, name: string): Meant {
  const path = absolutePath(folder, name);
  const there = files.look(path);
  if ("kind" in there) {
    if (there.kind === "folder") return belowFolder(files, path);
    if (there.kind === "other") return wrong(path, { kind: "not-a-file" });
    if (!path.endsWith(ENDING))
      return problem(path, `This is not a procedure file: their names end in ${ENDING}.`);
    const placed = placeFile(files, path);
    return "file" in placed ? { found: [placed.file], wrong: [] } : wrong(path, placed.problem);
  }
  if (there.problem.kind !== "missing") return wrong(path, there.problem);
  return matching(files, folder, name) ?? missing(files, path);
}

function belowFolder(files: Files, path: string): Meant {
  const walk = walkFolder(files, path);
  const problems = walk.problems.map((one) => ({ ...one, ...words(one.problem) }));
  if (walk.files.length > 0 || problems.length > 0) return { found: walk.files, wrong: problems };
  return problem(path, `There is no ${ENDING} file in this folder.`);
}

/** The files a pattern matches, by their own path or that of a folder they lie in; undefined when it is no pattern. */
function matching(files: Files, folder: string, pattern: string): Meant | undefined {
  const { isGlob, base, glob } = picomatch.scan(pattern);
  if (!isGlob) return undefined;
  const start = absolutePath(folder, base === "" ? "." : base);
  if ("problem" in files.look(start)) return undefined;
  const matches = picomatch(glob);
  const walk = walkFolder(files, start);
  const isMeant = (path: string): boolean => {
    const parts = (within(start, path) ?? "").split("/");
    return parts.some((_, i) => matches(parts.slice(0, i + 1).join("/")));
  };
  const found = walk.files.filter((file) => isMeant(file.path));
  const problems = walk.problems
    .filter(({ path }) => isMeant(path))
    .map((one) => ({ ...one, ...words(one.problem) }));
  if (found.length > 0 || problems.length > 0) return { found, wrong: problems };
  return problem(pattern, `No ${ENDING} file matches this pattern.`);
}

function missing(files: Files, path: string): Meant {
  const beside = files.list(parentOf(path));
  const names = "entries" in beside ? beside.entries.map((entry) => entry.name) : [];
  // The ending that all of them share must not count for likeness.
  const stem = (name: string): string => (name.endsWith(ENDING) ? name.slice(0, -ENDING.length) : name);
  const near = nearest(stem(nameOf(path)), names.map(stem));
  const meant = names.find((name) => stem(name) === near);
  return problem(path, `${fileProblemText({ kind: "missing" })}${meant ? ` Did you mean ${meant}?` : ""}`);
}

function wrong(path: string, what: FileProblem): Meant {
  return { found: [], wrong: [{ path, ...words(what) }] };
}

function problem(path: string, message: string): Meant {
  return { found: [], wrong: [{ path, message }] };
}

function words(what: FileProblem): { message: string; line?: number; character?: number } {
  const { line, character } = what;
  return {
    message: fileProblemText(what),
    ...(line === undefined ? {} : { line }),
    ...(character === undefined ? {} : { character }),
  };
}
