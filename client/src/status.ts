/**
 * Says in the editor's language status whether the server runs.
 */
import * as vscode from "vscode";
import { State } from "vscode-languageclient/node";
import { DOCUMENTS, type Server } from "./server";

/** Shows the server's state as long as it is not disposed of. */
export function showStatus(server: Server): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem("torquil.server", DOCUMENTS);
  item.name = "Torquil";
  item.command = { command: "torquil.restartServer", title: "Restart" };
  const show = (state: State): void => {
    item.busy = state === State.Starting;
    item.text =
      state === State.Running
        ? "Torquil is checking"
        : state === State.Starting
          ? "Torquil is starting"
          : "Torquil has stopped";
    item.severity =
      state === State.Stopped
        ? vscode.LanguageStatusSeverity.Error
        : vscode.LanguageStatusSeverity.Information;
  };
  show(State.Starting);
  return vscode.Disposable.from(item, server.onState(show));
}
