/** Inside the extension host: findings arrive as diagnostics, and their repairs change the text. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { test } from "./runner";
import { ask, codeOf, findings, PROCEDURE, project, rangeOf } from "./support";

const COMMA = PROCEDURE.replace("5 to 25 N·m\n", "5,5 to 25 N·m\n");

test("a file ending in .torquil is in the language, and a clean one has no finding", async () => {
  const { procedure } = await project(COMMA);
  assert.equal(procedure.languageId, "torquil");
  await findings(procedure, "decimal-comma");
  await project();
  await findings(procedure);
});

test("a finding has place, words, code and source, and goes when the text is repaired", async () => {
  const { procedure } = await project(COMMA);
  const [found] = await findings(procedure, "decimal-comma");
  assert.ok(found);
  assert.equal(procedure.getText(found.range), "5,5");
  assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
  assert.match(found.source ?? "", /torquil/i);
  assert.match(found.message, /5\.5/);
  await project();
  await findings(procedure);
});

test("a finding about the machine file comes while only the procedure's text is changed", async () => {
  const { procedure } = await project();
  await findings(procedure);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(procedure.uri, rangeOf(procedure, "fit cover\n"), "fit covr\n");
  await vscode.workspace.applyEdit(edit);
  const found = await findings(procedure, "unknown-name");
  assert.equal(procedure.getText(found[0]?.range), "covr");
});

test("a repair is offered as a quick fix and changes just that figure", async () => {
  const { procedure } = await project(COMMA);
  const [found] = await findings(procedure, "decimal-comma");
  const offered = await ask<vscode.CodeAction[]>(
    "executeCodeActionProvider",
    procedure.uri,
    found?.range,
    vscode.CodeActionKind.QuickFix.value,
    10,
  );
  const fix = offered.find(({ title }) => title.includes("5.5"));
  assert.ok(fix, JSON.stringify(offered.map(({ title }) => title)));
  assert.ok((fix.diagnostics ?? []).map(codeOf).includes("decimal-comma"));
  await carryOut(fix);
  assert.equal(procedure.getText(), COMMA.replace("5,5", "5.5"));
});

test("all safe repairs at once", async () => {
  const { procedure } = await project(COMMA.replace('"Steel ruler"', '"Steel ruler"  0,5 to 2 m'));
  const offered = await ask<vscode.CodeAction[]>(
    "executeCodeActionProvider",
    procedure.uri,
    new vscode.Range(0, 0, procedure.lineCount, 0),
    vscode.CodeActionKind.SourceFixAll.value,
    10,
  );
  const fix = offered[0];
  assert.ok(fix, "no source.fixAll was offered");
  await carryOut(fix);
  assert.match(procedure.getText(), /5\.5 to 25 N·m/);
  assert.match(procedure.getText(), /0\.5 to 2 m/);
});

/** Does what choosing a code action does. */
async function carryOut({ edit, command }: vscode.CodeAction): Promise<void> {
  assert.ok(edit || command, "the code action does nothing");
  if (edit) assert.ok(await vscode.workspace.applyEdit(edit));
  if (command) await vscode.commands.executeCommand(command.command, ...(command.arguments ?? []));
}
