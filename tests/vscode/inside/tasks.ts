/** Inside the extension host: the task that checks a folder, and what becomes of its output. */
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import * as vscode from "vscode";
import { test } from "./runner";
import { codeOf, PROCEDURE, project, until } from "./support";

test("the task checks the folder and its lines become findings of files that are not open", async () => {
  const { procedure } = await project();
  const [task] = await vscode.tasks.fetchTasks({ type: "torquil" });
  assert.ok(task, "no task is offered");
  const faulty = vscode.Uri.file(join(procedure.fileName, "../faulty.torquil"));
  writeFileSync(faulty.fsPath, PROCEDURE.replace("cover-seal", "other-seal").replace("5 to 25", "5,5 to 25"));
  const ended = new Promise<number | undefined>((done) => {
    vscode.tasks.onDidEndTaskProcess(({ execution, exitCode }) => {
      if (execution.task.name === task.name) done(exitCode);
    });
  });
  await vscode.tasks.executeTask(task);
  assert.equal(await ended, 1, "a check that finds an error ends with 1");
  await until(
    () => vscode.languages.getDiagnostics(faulty),
    (found) => found.some((one) => codeOf(one) === "decimal-comma"),
  );
  await vscode.workspace.fs.delete(faulty);
});
