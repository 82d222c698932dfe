/** Inside the extension host: rename over files, formatting, comments, and what the extension registers. */
import assert from "node:assert/strict";
import { basename } from "node:path";
import * as vscode from "vscode";
import { test } from "./runner";
import { ask, MACHINE, PROCEDURE, project, rangeOf } from "./support";

test("rename changes the name in the machine file and in the procedure", async () => {
  const { machine, procedure } = await project();
  const at = rangeOf(procedure, "remove cover-bolts").end.translate(0, -3);
  const edit = await ask<vscode.WorkspaceEdit>(
    "executeDocumentRenameProvider",
    procedure.uri,
    at,
    "lid-bolts",
  );
  assert.deepEqual(
    edit
      .entries()
      .map(([uri]) => basename(uri.fsPath))
      .sort(),
    ["cover.torquil", "wren-4.torquil"],
  );
  assert.ok(await vscode.workspace.applyEdit(edit));
  assert.equal(machine.getText(), MACHINE.replaceAll("cover-bolts", "lid-bolts"));
  assert.equal(procedure.getText(), PROCEDURE.replaceAll("cover-bolts", "lid-bolts"));
});

test("rename to a name that is taken is refused in words", async () => {
  const { procedure } = await project();
  const at = rangeOf(procedure, "remove cover-bolts").end.translate(0, -3);
  await assert.rejects(
    async () => ask("executeDocumentRenameProvider", procedure.uri, at, "cover"),
    (error) => error instanceof Error && /cover/.test(error.message) && !/\bat \w+ \(/.test(error.message),
  );
});

test("formatting puts the text in its usual form and changes nothing else", async () => {
  const { procedure } = await project(
    PROCEDURE.replace("5 to 25 N·m\n", "5 to 25 Nm\n").replace("  on wren-4", "on wren-4"),
  );
  const edits = await ask<vscode.TextEdit[]>("executeFormatDocumentProvider", procedure.uri, {
    tabSize: 2,
    insertSpaces: true,
  });
  const edit = new vscode.WorkspaceEdit();
  edit.set(procedure.uri, edits);
  await vscode.workspace.applyEdit(edit);
  assert.equal(procedure.getText(), PROCEDURE);
});

test("a line is commented out and back as the language has it", async () => {
  const { procedure } = await project();
  const editor = await vscode.window.showTextDocument(procedure);
  const { start } = rangeOf(procedure, "document");
  editor.selection = new vscode.Selection(start, start);
  await vscode.commands.executeCommand("editor.action.commentLine");
  assert.equal(procedure.getText(), PROCEDURE.replace("document", "// document"));
  await vscode.commands.executeCommand("editor.action.commentLine");
  assert.equal(procedure.getText(), PROCEDURE);
});

test("every command that the extension contributes is there, and the daily ones are among them", async () => {
  const extension = vscode.extensions.all.find(({ packageJSON }) =>
    packageJSON.contributes?.languages?.some(({ id }: { id: string }) => id === "torquil"),
  );
  assert.ok(extension?.isActive, "the extension is not active");
  const contributed: readonly { command: string; title: string }[] =
    extension.packageJSON.contributes.commands;
  const present = await vscode.commands.getCommands(true);
  assert.deepEqual(
    contributed.filter(({ command }) => !present.includes(command)),
    [],
  );
  const titles = contributed.map(({ title }) => title).join("\n");
  for (const wanted of [/Open the Sheet/, /PDF/, /Compare with the Last Commit/])
    assert.match(titles, wanted);
});

test("the extension sends nothing home and runs in a folder that is not trusted", async () => {
  const extension = vscode.extensions.all.find(({ id }) => /torquil/.test(id) && !/test/.test(id));
  assert.ok(extension);
  const support = extension.packageJSON.capabilities?.untrustedWorkspaces?.supported;
  assert.ok(support === true || support === "limited", String(support));
});
