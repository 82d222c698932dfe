/** Inside the extension host: findings arrive as diagnostics, and their repairs change the text. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { test } from "./runner";
import { ask, findings, PROCEDURE, project, rangeOf, whole } from "./support";

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

test("a finding follows what is typed, without saving", async () => {
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
  const fix = await offered(procedure, found?.range, vscode.CodeActionKind.QuickFix, /5\.5/);
  assert.equal(fix.isPreferred, true);
  await carryOut(fix);
  assert.equal(procedure.getText(), COMMA.replace("5,5", "5.5"));
});

test("all safe repairs at once", async () => {
  const { procedure } = await project(COMMA.replace('"Steel ruler"', '"Steel ruler"  0,5 to 2 m'));
  await carryOut(await offered(procedure, whole(procedure), vscode.CodeActionKind.SourceFixAll, /./));
  assert.match(procedure.getText(), /5\.5 to 25 N·m/);
  assert.match(procedure.getText(), /0\.5 to 2 m/);
});

test("a tool that is missing is declared in the procedure", async () => {
  const { procedure } = await project(PROCEDURE.replace("discard", "discard  with seal-hook"));
  const [found] = await findings(procedure, "unknown-name");
  await carryOut(
    await offered(procedure, found?.range, vscode.CodeActionKind.QuickFix, /^Declare tool seal-hook/),
  );
  assert.match(procedure.getText(), /tool ruler "Steel ruler"\n {2}tool seal-hook "Seal hook"\n/);
  await findings(procedure);
});

test("what the machine's other procedures need as well is moved to the machine file", async () => {
  const GREASE = '  consumable grease "Seal grease"\n';
  const { machine, procedure } = await project(
    PROCEDURE.replace("  section", `${GREASE}\n  section`).replace(
      "      fit new seal\n",
      "      lubricate seal  with grease\n      fit new seal\n",
    ),
  );
  const at = rangeOf(procedure, "grease");
  await carryOut(await offered(procedure, at, vscode.CodeActionKind.Refactor, /^Move consumable grease/));
  assert.ok(!procedure.getText().includes(GREASE));
  assert.ok(machine.getText().includes(GREASE));
});

/** The code action of a kind whose title fits, at a place. */
async function offered(
  { uri }: vscode.TextDocument,
  at: vscode.Range | undefined,
  kind: vscode.CodeActionKind,
  title: RegExp,
): Promise<vscode.CodeAction> {
  const all = await ask<vscode.CodeAction[]>("executeCodeActionProvider", uri, at, kind.value, 20);
  const fits = all.find((action) => title.test(action.title));
  assert.ok(fits, `${title} is not among ${JSON.stringify(all.map((action) => action.title))}`);
  return fits;
}

/** Does what choosing a code action does. */
async function carryOut({ edit, command }: vscode.CodeAction): Promise<void> {
  assert.ok(edit || command, "the code action does nothing");
  if (edit) assert.ok(await vscode.workspace.applyEdit(edit));
  if (command) await vscode.commands.executeCommand(command.command, ...(command.arguments ?? []));
}
