/** What the tests inside the extension host share: the little project, opened afresh, and waiting for what comes. */
import { setTimeout as sleep } from "node:timers/promises";
import * as vscode from "vscode";
import { MACHINE, PROCEDURE } from "../texts";

export { MACHINE, PROCEDURE };

/** The little project, with changes made to its texts. */
export interface Project {
  readonly machine: vscode.TextDocument;
  readonly procedure: vscode.TextDocument;
}

/** Gives both files of the project the texts named, in the editor and on the disk. */
export async function project(procedure = PROCEDURE, machine = MACHINE): Promise<Project> {
  return {
    machine: await given("wren-4.torquil", machine),
    procedure: await given("cover.torquil", procedure),
  };
}

async function given(name: string, text: string): Promise<vscode.TextDocument> {
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (!folder) throw new Error("No folder is open.");
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, name));
  await vscode.window.showTextDocument(document);
  if (document.getText() !== text) {
    const edit = new vscode.WorkspaceEdit();
    edit.replace(document.uri, whole(document), text);
    await vscode.workspace.applyEdit(edit);
    await document.save();
  }
  return document;
}

/** The whole of a document. */
export const whole = (document: vscode.TextDocument): vscode.Range =>
  new vscode.Range(new vscode.Position(0, 0), document.lineAt(document.lineCount - 1).range.end);

/** Where words stand first in a document. */
export function rangeOf(document: vscode.TextDocument, words: string): vscode.Range {
  const at = document.getText().indexOf(words);
  if (at < 0) throw new Error(`"${words}" is not in ${document.fileName}.`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + words.length));
}

/** Asks again and again until something fits; fails with what was there last. */
export async function until<T>(ask: () => T | Promise<T>, fits: (found: T) => boolean): Promise<T> {
  const end = Date.now() + 30_000;
  for (;;) {
    const found = await ask();
    if (fits(found)) return found;
    if (Date.now() > end) throw new Error(`What was waited for did not come; last: ${JSON.stringify(found)}`);
    await sleep(30);
  }
}

/** The code of a diagnostic, whether or not it links to an explanation. */
export const codeOf = ({ code }: vscode.Diagnostic): string =>
  String(typeof code === "object" ? code.value : code);

/** Waits until the findings of a document have just these codes, in any order. */
export function findings(
  document: vscode.TextDocument,
  ...codes: readonly string[]
): Promise<readonly vscode.Diagnostic[]> {
  const wanted = [...codes].sort().join();
  return until(
    () => vscode.languages.getDiagnostics(document.uri),
    (found) => found.map(codeOf).sort().join() === wanted,
  );
}

/** Runs one of VS Code's commands that ask the providers. */
export const ask = <T>(command: string, ...words: readonly unknown[]): Thenable<T> =>
  vscode.commands.executeCommand<T>(`vscode.${command}`, ...words);
