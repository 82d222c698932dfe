/**
 * Where the editor starts and ends the extension. Each part is set up here, and each knows only the server and the editor.
 */
import * as vscode from "vscode";
import { offerComparison } from "./comparison";
import { offerPrinting } from "./print";
import { createServer, type Server } from "./server";
import { createSheetPanel } from "./sheet-panel";
import { offerState } from "./state-view";
import { showStatus } from "./status";
import { offerTasks } from "./tasks";

let server: Server | undefined;

/** Called by the editor when a text of the language is opened, a project's folder, or a sheet comes back. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const log = vscode.window.createOutputChannel("Torquil");
  const running = createServer(context.asAbsolutePath("dist/server.mjs"), log);
  const panel = createSheetPanel(running, context.extensionUri);
  server = running;
  context.subscriptions.push(
    log,
    panel,
    showStatus(running),
    offerPrinting(running, panel),
    offerComparison(running),
    offerState(running),
    offerTasks(context.asAbsolutePath("dist/torquil.mjs")),
    vscode.commands.registerCommand("torquil.openSheet", panel.open),
    vscode.commands.registerCommand("torquil.restartServer", running.restart),
    vscode.commands.registerCommand("torquil.showLog", () => log.show()),
  );
  await running.start();
}

/** Called by the editor before it ends the extension. */
export async function deactivate(): Promise<void> {
  await server?.stop();
}
