/**
 * Where the command `torquil` begins: it gives the commands their surroundings, and the process its exit code.
 */

import { diskFiles } from "../project/disk";
import { absolutePath } from "../project/paths";
import { version } from "../project/version";
import { type Io, paintFor, wantsColour } from "./io";
import { run } from "./run";

function surroundings(): Io {
  const { stdin, stdout, stderr, env } = process;
  return {
    out: (text) => void stdout.write(text),
    err: (text) => void stderr.write(text),
    paintOut: paintFor(wantsColour(env, stdout.isTTY === true)),
    paintErr: paintFor(wantsColour(env, stderr.isTTY === true)),
    progress: (text) => void (stderr.isTTY && stderr.write(`\r\u001b[K${text}`)),
    width: stdout.columns || 100,
    folder: folderOfProcess(),
    files: diskFiles(),
    readStdin,
    ...(stdin.isTTY && stdout.isTTY ? { ask } : {}),
    now: () => new Date(),
  };
}

function folderOfProcess(): string {
  try {
    return absolutePath(process.cwd(), ".");
  } catch {
    return give("The folder you are in is no longer there. Change to another, and try again.");
  }
}

async function readStdin(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks);
}

async function ask(question: string): Promise<string> {
  const { createInterface } = await import("node:readline/promises");
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  try {
    return await terminal.question(question);
  } finally {
    terminal.close();
  }
}

/** Ends the process with a sentence for the person. */
function give(sentence: string): never {
  process.stderr.write(`${sentence}\n`);
  process.exit(2);
}

function mistake(error: unknown): never {
  const details = error instanceof Error ? (error.stack ?? error.message) : String(error);
  const brief = error instanceof Error ? error.message.split("\n")[0] : String(error);
  const told = process.env.TORQUIL_DEBUG ? details : `Set TORQUIL_DEBUG=1 to see where. (${brief})`;
  return give(`This is a mistake in Torquil, not in your files. Nothing was half written.\n${told}`);
}

// A reader that has seen enough, such as `head`, closes the pipe: that is no fault of anybody.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit();
  mistake(error);
});
process.on("uncaughtException", mistake);
process.on("unhandledRejection", mistake);

const args = process.argv.slice(2);
if (args[0] === "--press" && process.send) (await import("../press/press")).servePress();
else process.exitCode = await run(args, surroundings(), version());
