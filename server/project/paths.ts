/**
 * Paths as the house writes them: absolute ones and those inside a project, with forward slashes on every system.
 */
import { posix, resolve } from "node:path";

const WINDOWS = process.platform === "win32";

/** A path as the system or a person gave it, made absolute from a folder, with forward slashes. */
export function absolutePath(folder: string, path: string): string {
  const whole = resolve(folder, path);
  return WINDOWS ? whole.replace(/\\/g, "/") : whole;
}

/** A path in a folder; `.` and `..` are worked out. */
export function joinPath(folder: string, path: string): string {
  return posix.join(folder, path);
}

/** The folder a path lies in; of the topmost folder, itself. */
export function parentOf(path: string): string {
  return posix.dirname(path);
}

/** The last part of a path. */
export function nameOf(path: string): string {
  return posix.basename(path);
}

/** A path as seen from a folder it lies in, `.` for the folder itself; null when it lies elsewhere. */
export function within(folder: string, path: string): string | null {
  if (path === folder) return ".";
  const start = folder.endsWith("/") ? folder : `${folder}/`;
  return path.startsWith(start) ? path.slice(start.length) : null;
}

/** The way from a folder to a path, over `..` where it lies elsewhere. Both are absolute. */
export function relativePath(folder: string, path: string): string {
  return posix.relative(folder, path);
}

/** A path as a person in a folder would write it: from there when it lies in it, else whole. */
export function shownPath(folder: string, path: string): string {
  return within(folder, path) ?? path;
}
