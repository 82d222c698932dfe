/** Runs commands in this process, on files in memory, for tests of what they say. */
import { type Io, paintFor } from "../../server/cli/io";
import { COMMANDS, run } from "../../server/cli/run";
import { type MemoryEntry, memoryFiles } from "../../server/project/memory";

/** What a command did. */
export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** How a command is run; everything may be left out. */
export interface Setting {
  readonly colour?: boolean;
  readonly width?: number;
  readonly stdin?: string | Uint8Array;
  readonly commands?: typeof COMMANDS;
}

/** Runs a command in the folder /home of files that are given by absolute path. */
export async function inProcess(
  args: readonly string[],
  entries: Readonly<Record<string, MemoryEntry>> = {},
  setting: Setting = {},
): Promise<Outcome & { readonly read: (path: string) => string | undefined }> {
  const files = memoryFiles(entries);
  let out = "";
  let err = "";
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    paintOut: paintFor(setting.colour ?? false),
    paintErr: paintFor(setting.colour ?? false),
    progress: () => undefined,
    width: setting.width ?? 100,
    folder: "/home",
    files,
    readStdin: async () => Buffer.from(setting.stdin ?? ""),
    now: () => new Date("2026-11-20T08:30:00Z"),
  };
  const code = await run(args, io, "1.2.3", setting.commands ?? COMMANDS);
  const read = (path: string): string | undefined => {
    const found = files.readText(path);
    return "text" in found ? found.text : undefined;
  };
  return { code, out, err, read };
}
