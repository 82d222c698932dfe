/**
 * What a command may reach of its surroundings: where it writes, what it reads, and where it stands.
 */
import { styleText } from "node:util";
import type { Files } from "../project";

/** Colours a text for one of the two streams, or leaves it as it is. */
export type Paint = (style: Style, text: string) => string;
export type Style = "error" | "warning" | "hint" | "strong" | "faint" | "good";

export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly paintOut: Paint;
  readonly paintErr: Paint;
  /** Shows how far long work is, on a terminal; an empty text takes the line away. */
  readonly progress: (text: string) => void;
  /** Columns of the terminal; 100 where there is none. */
  readonly width: number;
  /** The folder the command is run in, absolute, with forward slashes. */
  readonly folder: string;
  readonly files: Files;
  readonly readStdin: () => Promise<Uint8Array>;
  /** Asks the person at the terminal; absent where nobody sits there. */
  readonly ask?: (question: string) => Promise<string>;
  /** The time of day, for the one kind of report that has to name it. */
  readonly now: () => Date;
}

/** A command: its arguments to an exit code. 0 all well, 1 findings or differences, 2 wrong use or unreadable input. */
export type Command = (args: readonly string[], io: Io) => Promise<number>;

const STYLES: Readonly<Record<Style, Parameters<typeof styleText>[0]>> = {
  error: ["bold", "red"],
  warning: ["bold", "yellow"],
  hint: ["bold", "cyan"],
  strong: "bold",
  faint: "dim",
  good: "green",
};

/** A paint that colours, or one that does not. */
export function paintFor(colour: boolean): Paint {
  return (style, text) => {
    if (!colour || text === "") return text;
    // Whether to colour is decided already; without this, newer versions of Node would decide once more.
    return styleText(STYLES[style], text, { validateStream: false });
  };
}

/** Whether to colour, by the usual variables (force-color.org, no-color.org), else by whether it is a terminal. */
export function wantsColour(env: Readonly<Record<string, string | undefined>>, isTerminal: boolean): boolean {
  const forced = env.FORCE_COLOR;
  if (forced !== undefined) return forced !== "0" && forced !== "false";
  return !env.NO_COLOR && isTerminal && env.TERM !== "dumb";
}

/** "1 file", "3 files". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count.toLocaleString("en")} ${count === 1 ? one : many}`;
}
