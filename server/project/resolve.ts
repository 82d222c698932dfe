/**
 * Where a path in a file leads: from the file's own folder, with forward slashes on every system, never outside the
 * project's folder, links included.
 */
import type { Resolve } from "../model";
import type { Files } from "./files";
import { joinPath, parentOf, within } from "./paths";

/**
 * Makes the way to look paths up in a project.
 *
 * @param root the project's folder, absolute, links followed
 * @param isOpen whether a path in the project has a text although the disk may not have it
 */
export function createResolve(files: Files, root: string, isOpen: (file: string) => boolean): Resolve {
  return (from, path) => {
    if (/^(\/|[A-Za-z]:)/.test(path)) return { problem: "outside" };
    // A backslash parts folders on some systems only: the same text must mean the same everywhere.
    if (path === "" || /[\\\0]/.test(path)) return { problem: "missing" };
    const target = joinPath(joinPath(root, parentOf(from)), path);
    const named = within(root, target);
    if (named === null) return { problem: "outside" };
    if (isOpen(named)) return { file: named };
    const real = files.realPath(target);
    if ("problem" in real) return { problem: real.problem.kind === "missing" ? "missing" : "unreadable" };
    const file = within(root, real.path);
    if (file === null) return { problem: "outside" };
    const found = files.look(real.path);
    return "problem" in found || found.kind !== "file" ? { problem: "unreadable" } : { file };
  };
}
