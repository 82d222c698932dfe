/** Command lines as they stand in a help or a workflow file: taken apart, and held to the commands' own options. */
import { inProcess } from "./in-process";

/** The arguments behind `torquil` in a line of a shell: quotes taken away, what is redirected left out. */
export function argumentsIn(line: string): string[] {
  const [, rest = ""] = /(?:^|\s)torquil\s(.*)$/.exec(line) ?? [];
  const plain = rest.replace(/\s(?:\d?>|<|\|\|?|&&).*$/, "");
  return [...plain.matchAll(/(?:[^\s"']|"[^"]*"|'[^']*')+/g)].map(([word]) => word.replace(/["']/g, ""));
}

/** What is wrong with the way a command is used; null when it is taken. Nothing is read or written for it. */
export async function usageProblem(args: readonly string[]): Promise<string | null> {
  const [command = "", ...rest] = args;
  const asked = await inProcess([command, "--help", ...rest]);
  if (asked.code !== 0) return asked.err;
  // What options say to each other is looked at when the command runs; these run on a disk with nothing on it.
  if (!["new", "check", "compare", "format", "print"].includes(command) || args.includes("--stdin"))
    return null;
  const ran = await inProcess(args);
  return ran.err.includes("shows how it is used") ? ran.err : null;
}
