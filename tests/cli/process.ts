/** Runs the bundle as a process of its own, as a person or a build would, in a folder that is thrown away. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, bundles, isStale } from "../../server/tools/build.mjs";
import type { Outcome } from "./in-process";

/** The bundle that is run. */
export const BUNDLE = fileURLToPath(new URL("../../dist/torquil.js", import.meta.url));

/** Builds the bundle when it is older than its sources. */
export async function buildBundle(): Promise<void> {
  if (isStale(bundles.torquil)) await build(bundles.torquil);
}

/** What stands in a folder: a text, bytes, a link, or `null` for an empty folder. */
export type Content = string | Uint8Array | { readonly link: string } | null;

/** Makes a folder with some contents, by path; the caller takes it away. */
export function folderWith(contents: Readonly<Record<string, Content>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "torquil-cli-")));
  for (const [path, content] of Object.entries(contents)) {
    const place = join(folder, path);
    mkdirSync(content === null ? place : dirname(place), { recursive: true });
    if (content === null) continue;
    if (typeof content === "object" && "link" in content) symlinkSync(content.link, place);
    else writeFileSync(place, content);
  }
  return folder;
}

/** Takes a folder away. */
export function discard(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}

/** How the process is run. */
export interface Surroundings {
  readonly env?: Readonly<Record<string, string>>;
  readonly input?: string | Uint8Array;
  /** The system lets the process write no file longer than so many blocks of 512 or 1,024 bytes. */
  readonly fileBlocks?: number;
}

/** Runs the bundle in a folder. The code is null when it did not end within twenty seconds. */
export function torquil(
  folder: string,
  args: readonly string[],
  { env, input, fileBlocks }: Surroundings = {},
): Outcome {
  const { NO_COLOR: _, FORCE_COLOR: __, TORQUIL_DEBUG: ___, ...plain } = process.env;
  const limited = ["-c", `ulimit -f ${fileBlocks}; exec "$@"`, "sh", process.execPath, BUNDLE, ...args];
  const [program, given] = fileBlocks === undefined ? [process.execPath, [BUNDLE, ...args]] : ["sh", limited];
  const done = spawnSync(program, given, {
    cwd: folder,
    env: { ...plain, ...env },
    encoding: "utf8",
    timeout: 20_000,
    maxBuffer: 1 << 28,
    ...(input === undefined ? {} : { input }),
  });
  return { code: done.status ?? Number.NaN, out: done.stdout, err: done.stderr };
}
