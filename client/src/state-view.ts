/**
 * The view that says how everything stands where the cursor is: what is off, loose, open, held, where shafts stand, what is
 * owed. It follows the cursor and the text; what is shown is the server's.
 */
import * as vscode from "vscode";
import type { StateAnswer } from "../../server/lsp/requests";
import type { Server } from "./server";
import { messageOf, nodesOf, type StateNode } from "./state-nodes";

const VIEW = "torquil.state";
/** The condition under which the view is there, as the manifest names it. */
const SHOWN = "torquil.textActive";
/** So many milliseconds without a movement are waited for. */
const PAUSE = 150;

/** Offers the view and the command that leads to it. */
export function offerState(server: Server): vscode.Disposable {
  const changed = new vscode.EventEmitter<undefined>();
  let nodes: readonly StateNode[] = [];
  let cursor = cursorOf(vscode.window.activeTextEditor);
  let timer: NodeJS.Timeout | undefined;
  let asking = new vscode.CancellationTokenSource();

  const view = vscode.window.createTreeView<StateNode>(VIEW, {
    treeDataProvider: {
      onDidChangeTreeData: changed.event,
      getChildren: (node) => [...(node?.children ?? nodes)],
      getTreeItem: itemOf,
    },
  });
  const take = (answer: StateAnswer): void => {
    const told = answer?.kind === "state";
    nodes = told ? nodesOf(answer) : answer?.place ? [lineNode(answer.place)] : [];
    // With neither rows nor a message the editor shows what the view is for.
    view.message = told ? messageOf(answer) : (answer?.message ?? "");
    changed.fire(undefined);
  };
  const refresh = async (): Promise<void> => {
    asking.cancel();
    asking = new vscode.CancellationTokenSource();
    const { token } = asking;
    if (!view.visible) return;
    if (!cursor) {
      take(null);
      return;
    }
    const params = { textDocument: { uri: cursor.uri }, position: { line: cursor.line, character: 0 } };
    try {
      const answer = await server.ask("torquil/state", params, token);
      if (!token.isCancellationRequested) take(answer);
    } catch (error) {
      // What was told before stays, with why there is nothing newer.
      if (!token.isCancellationRequested)
        view.message = error instanceof Error ? error.message : String(error);
    }
  };
  const refreshSoon = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void refresh(), PAUSE);
  };
  const look = (editor: vscode.TextEditor | undefined): void => {
    // Without an editor a panel or a list has the keyboard: what is shown of the text stays.
    if (!editor || editor.document.uri.scheme === "output") return;
    const now = cursorOf(editor);
    void vscode.commands.executeCommand("setContext", SHOWN, now !== undefined);
    if (now?.uri === cursor?.uri && now?.line === cursor?.line) return;
    cursor = now;
    refreshSoon();
  };
  void vscode.commands.executeCommand("setContext", SHOWN, cursor !== undefined);
  const listeners = vscode.Disposable.from(
    view,
    changed,
    view.onDidChangeVisibility(refreshSoon),
    vscode.window.onDidChangeActiveTextEditor(look),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => look(textEditor)),
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document.languageId === "torquil" && contentChanges.length > 0) refreshSoon();
    }),
    server.onRunning(refreshSoon),
    vscode.commands.registerCommand("torquil.showState", () =>
      vscode.commands.executeCommand(`${VIEW}.focus`),
    ),
  );
  return new vscode.Disposable(() => {
    clearTimeout(timer);
    asking.cancel();
    listeners.dispose();
  });
}

/** The line that the cursor is on. */
function cursorOf(editor: vscode.TextEditor | undefined): { uri: string; line: number } | undefined {
  if (editor?.document.languageId !== "torquil") return undefined;
  return { uri: editor.document.uri.toString(), line: editor.selection.active.line };
}

/** Leads to the line that keeps a procedure from being followed. */
function lineNode(place: NonNullable<StateNode["to"]>): StateNode {
  const name = vscode.workspace.asRelativePath(vscode.Uri.parse(place.uri));
  return {
    id: "line",
    label: `Line ${place.range.start.line + 1} of ${name}`,
    description: "",
    icon: "error",
    to: place,
    isOpen: false,
    children: [],
  };
}

const { Collapsed, Expanded, None } = vscode.TreeItemCollapsibleState;

function itemOf({ id, label, description, icon, to, isOpen, children }: StateNode): vscode.TreeItem {
  const item = new vscode.TreeItem(label, children.length === 0 ? None : isOpen ? Expanded : Collapsed);
  item.id = id;
  item.description = description;
  item.tooltip = description === "" ? label : `${label}: ${description}`;
  if (icon !== "") item.iconPath = new vscode.ThemeIcon(icon);
  if (to) {
    const { start } = to.range;
    const selection = new vscode.Range(start.line, start.character, start.line, start.character);
    item.command = {
      command: "vscode.open",
      title: "Go to the Line",
      arguments: [vscode.Uri.parse(to.uri), { selection }],
    };
  }
  return item;
}
