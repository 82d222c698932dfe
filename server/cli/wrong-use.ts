/**
 * What is said when a command is used wrongly.
 */
import { harmless } from "./display";
import type { Io } from "./io";

/** Tells why something cannot be done although it was asked for rightly; gives the exit code for that. */
export function notDone(sentence: string, io: Io): number {
  io.err(`${io.paintErr("error", "error")}: ${harmless(sentence)}\n`);
  return 2;
}

/** Tells what is wrong and where help is; gives the exit code for wrong use. */
export function wrongUse(sentence: string, command: string, io: Io): number {
  io.err(`${io.paintErr("error", "error")}: ${harmless(sentence)}\n`);
  io.err(`"torquil ${command === "" ? "" : `${command} `}--help" shows how it is used.\n`);
  return 2;
}
