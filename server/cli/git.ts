/**
 * `torquil git`: makes `git diff` show what has changed in meaning, undoes that, and is what git then runs.
 */
import { comparePhrase } from "../phrases/compare";
import { gitAt } from "../project/git";
import { planInstall, planUninstall, type SetupPlan } from "../project/git-setup";
import { helpText, readArguments, type Usage } from "./arguments";
import { harmless } from "./display";
import { diffReport } from "./git-diff";
import type { Command, Io } from "./io";
import { notDone, wrongUse } from "./wrong-use";

export const usage: Usage = {
  form: "git install|uninstall",
  about: [
    "Makes “git diff” show what has changed in meaning in procedures and machines, or undoes that.",
    "It writes a few lines into .git/config and .gitattributes, and says which before it does.",
  ].join("\n"),
  options: { yes: { about: "Do not ask first." } },
  more: "Exit code: 0 done, 1 not done, since the answer was no, 2 wrong use, or files that cannot be written.",
  examples: [
    ["torquil git install", "Set up this repository; asks first."],
    ["torquil git uninstall --yes", "Undo it, and ask nothing."],
    ["git diff --no-ext-diff", "See lines, not meaning, once it is set up."],
  ],
};

/** What git runs for a file: `torquil git show-change` and its seven arguments. */
export const DRIVER = "show-change";

export const git: Command = async (args, io) => {
  if (args[0] === DRIVER) return showChange(args.slice(1), io);
  const read = readArguments(args, usage);
  if ("wrong" in read) return wrongUse(read.wrong, "git", io);
  const { given } = read;
  if (given.has("help")) {
    io.out(helpText(usage));
    return 0;
  }
  const [what, ...more] = given.paths;
  if ((what !== "install" && what !== "uninstall") || more.length > 0)
    return wrongUse("Say install or uninstall, and nothing else.", "git", io);
  const repository = gitAt(io.folder);
  if ("problem" in repository) return notDone(repository.problem, io);
  const plan =
    what === "install"
      ? planInstall(repository, io.files, ownCommand())
      : planUninstall(repository, io.files);
  if ("problem" in plan) return notDone(plan.problem, io);
  return carryOut(plan, what, given.has("yes"), io);
};

async function carryOut(
  plan: SetupPlan,
  what: "install" | "uninstall",
  yes: boolean,
  io: Io,
): Promise<number> {
  for (const { name, lines } of plan.files) {
    io.out(`${what === "install" ? "To be added to" : "To be taken out of"} ${name}:\n`);
    for (const line of lines) io.out(`  ${harmless(line)}\n`);
  }
  if (!yes) {
    if (!io.ask)
      return notDone(
        "Nobody can be asked here. With --yes it is done without asking; nothing is written.",
        io,
      );
    const answer = await io.ask(
      what === "install" ? "Write these lines? [y/N] " : "Take these lines out? [y/N] ",
    );
    if (!/^\s*y(es)?\s*$/i.test(answer)) {
      io.out("Nothing is written.\n");
      return 1;
    }
  }
  const problem = plan.apply();
  if (problem) return notDone(problem, io);
  io.out(
    what === "install"
      ? "Done. “git diff” now tells what has changed in meaning; “git diff --no-ext-diff” still shows lines.\n.gitattributes can be committed: whoever has not set this up sees lines, as before.\n"
      : "Done. “git diff” shows lines again.\n",
  );
  return 0;
}

/** How git calls this program again: with the Node and the file it runs from, each quoted for a shell. */
function ownCommand(): string {
  const quoted = (word: string): string => `'${word.replaceAll("\\", "/").replaceAll("'", "'\\''")}'`;
  return `${[process.execPath, process.argv[1] ?? ""].map(quoted).join(" ")} git ${DRIVER}`;
}

/** Git gives: the path, then the old file with its number and mode, then the new one's; with a rename, the new path. */
function showChange(args: readonly string[], io: Io): number {
  const [path, oldFile, , , newFile, , , renamed] = args;
  if (path === undefined) return wrongUse("This is run by git alone.", "git", io);
  // An unmerged file comes with its path only.
  io.out(
    oldFile === undefined || newFile === undefined
      ? `${harmless(path)}: ${comparePhrase("unmerged")}\n`
      : diffReport({ path, renamed, oldFile, newFile }, io),
  );
  return 0;
}
