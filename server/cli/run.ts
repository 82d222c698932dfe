/**
 * From the words of a command line to the command meant. Commands are loaded when they are wanted, so that help is quick.
 */
import { nearest } from "../../grammar/nearest";
import type { Command, Io } from "./io";
import { wrongUse } from "./wrong-use";

interface Entry {
  readonly about: string;
  readonly load: () => Promise<Command>;
}

/** The commands, in the order of the help. */
export const COMMANDS: Readonly<Record<string, Entry>> = {
  new: {
    about: "Begin a project that checks clean.",
    load: async () => (await import("./new")).newProject,
  },
  check: {
    about: "Say what is wrong in procedures and machines.",
    load: async () => (await import("./check")).check,
  },
  format: {
    about: "Lay the text of files out in the usual way.",
    load: async () => (await import("./format")).format,
  },
  print: {
    about: "Print procedures as sheets: PDF, or a web page.",
    load: async () => (await import("./print")).print,
  },
  compare: {
    about: "Say what has changed in meaning between two revisions.",
    load: async () => (await import("./compare")).compare,
  },
  git: {
    about: "Make git diff show what has changed in meaning.",
    load: async () => (await import("./git")).git,
  },
  state: {
    about: "Say how everything stands at a step.",
    load: async () => (await import("./state")).state,
  },
  refit: {
    about: "Write the steps that put back what is off at the end.",
    load: async () => (await import("./refit")).refit,
  },
  ways: {
    about: "Say how many ways lead through a procedure, and what parts them.",
    load: async () => (await import("./ways")).ways,
  },
  explain: {
    about: "Explain a code, with an example.",
    load: async () => (await import("./explain")).explain,
  },
};

/** Runs a command line. An unexpected error is told as what it is, a mistake of ours, without its stack. */
export async function run(
  args: readonly string[],
  io: Io,
  version: string,
  commands = COMMANDS,
): Promise<number> {
  const [first, ...rest] = args;
  if (first === undefined) {
    io.err(overview(commands));
    return 2;
  }
  if (first === "--version") {
    io.out(`torquil ${version}\n`);
    return 0;
  }
  if (first === "--help" || first === "-h" || first === "help") return help(rest, io, version, commands);
  const entry = Object.hasOwn(commands, first) ? commands[first] : undefined;
  if (!entry) return wrongUse(unknown(first, commands), "", io);
  if (rest.length === 1 && rest[0] === "--version") return run(rest, io, version, commands);
  return (await entry.load())(rest, io);
}

async function help(
  rest: readonly string[],
  io: Io,
  version: string,
  commands: typeof COMMANDS,
): Promise<number> {
  const named = rest[0];
  if (named !== undefined && !named.startsWith("-")) return run([named, "--help"], io, version, commands);
  io.out(overview(commands));
  return 0;
}

function unknown(word: string, commands: typeof COMMANDS): string {
  const isOption = word.startsWith("-");
  const near = nearest(word.replace(/^-+/, ""), [
    ...Object.keys(commands),
    "help",
    ...(isOption ? ["version"] : []),
  ]);
  const written = near && isOption && !Object.hasOwn(commands, near) ? `--${near}` : near;
  return `There is no ${isOption ? "option" : "command"} ${word}.${written ? ` Did you mean ${written}?` : ""}`;
}

function overview(commands: typeof COMMANDS): string {
  const wide = Math.max(...Object.keys(commands).map((name) => name.length));
  const rows = Object.entries(commands).map(([name, { about }]) => `  ${name.padEnd(wide)}  ${about}`);
  return [
    "torquil COMMAND [paths…] [options]",
    "",
    "A language for repair procedures: checks them, and prints them as sheets.",
    "",
    "Commands:",
    ...rows,
    "",
    "Exit codes, of every command:",
    "  0  all is well",
    "  1  something was found: errors, differences, a sheet that cannot be printed",
    "  2  wrong use, or something that cannot be read or written; 2 beats 1",
    "",
    '"torquil COMMAND --help" tells more of one, with examples; "torquil --version" tells the version.',
    "",
  ].join("\n");
}
