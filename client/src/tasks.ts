/**
 * The task that checks a folder as a whole, with the command line that is in the package. Nothing of the folder is run.
 */
import * as vscode from "vscode";

/** The kind of task, as the manifest declares it. */
const TYPE = "torquil";
const MATCHER = "$torquil";

/** A task as its writer may put it down in tasks.json. */
interface Definition extends vscode.TaskDefinition {
  readonly task?: unknown;
  readonly paths?: unknown;
}

/** Offers the check of each folder; `program` is the command line's bundle. */
export function offerTasks(program: string): vscode.Disposable {
  return vscode.tasks.registerTaskProvider(TYPE, {
    provideTasks: () =>
      (vscode.workspace.workspaceFolders ?? [])
        .filter(({ uri }) => uri.scheme === "file")
        .map((folder) => checkTask(program, folder, { type: TYPE, task: "check" }, [])),
    resolveTask: (task) => {
      const { scope } = task;
      const definition: Definition = task.definition;
      if (definition.task !== "check" || typeof scope !== "object") return undefined;
      return checkTask(program, scope, task.definition, textsIn(definition.paths));
    },
  });
}

/** The paths stand behind what ends the options: none of them can be taken for one. */
function checkTask(
  program: string,
  folder: vscode.WorkspaceFolder,
  definition: vscode.TaskDefinition,
  paths: readonly string[],
): vscode.Task {
  const args = [program, "check", "--", ...(paths.length > 0 ? paths : ["."])];
  const execution = new vscode.ProcessExecution(process.execPath, args, {
    cwd: folder.uri.fsPath,
    // The editor's own program is Node when it is told so.
    env: { ELECTRON_RUN_AS_NODE: "1" },
  });
  const task = new vscode.Task(definition, folder, "check", "torquil", execution, MATCHER);
  task.group = vscode.TaskGroup.Build;
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Silent, clear: true };
  return task;
}

function textsIn(value: unknown): readonly string[] {
  return Array.isArray(value) ? value.filter((one) => typeof one === "string") : [];
}
