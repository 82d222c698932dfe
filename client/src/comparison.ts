/**
 * What has changed in meaning since the last commit: a list, the gravest first, with a jump to both sides of each change.
 * The server runs git for it, so it is offered only in a folder that is trusted.
 */
import * as vscode from "vscode";
import type { ChangePlace, ChangeShown, CompareAnswer } from "../../server/lsp/requests";
import type { Server } from "./server";

/** Texts as they were at the last commit are read under this scheme. */
const COMMITTED = "torquil-committed";

const RANKS: Readonly<Record<ChangeShown["rank"], { readonly title: string; readonly icon: string }>> = {
  safety: { title: "Safety", icon: "shield" },
  content: { title: "Content", icon: "tools" },
  wording: { title: "Wording", icon: "quote" },
  layout: { title: "Layout", icon: "whitespace" },
};

type Rank = keyof typeof RANKS;
type Item = { readonly rank: Rank; readonly changes: readonly ChangeShown[] } | ChangeShown;

/** Offers the command and keeps the list. */
export function offerComparison(server: Server): vscode.Disposable {
  const changed = new vscode.EventEmitter<undefined>();
  let shown: readonly ChangeShown[] = [];
  const view = vscode.window.createTreeView<Item>("torquil.changes", {
    treeDataProvider: {
      onDidChangeTreeData: changed.event,
      getChildren: (item) => (item ? ("changes" in item ? [...item.changes] : []) : groups(shown)),
      getTreeItem: (item) => ("changes" in item ? groupItem(item) : changeItem(item)),
    },
  });
  const take = (answer: CompareAnswer): void => {
    shown = answer.kind === "compared" ? answer.changes : [];
    view.message =
      answer.kind === "none"
        ? answer.message
        : shown.length === 0
          ? `Nothing has changed in meaning since the last commit (${answer.commit}).`
          : `Since the last commit (${answer.commit})`;
    changed.fire(undefined);
  };
  const compare = async (): Promise<void> => {
    const uri = documentMeant();
    if (!vscode.workspace.isTrusted || !uri) {
      void vscode.window.showInformationMessage(
        uri
          ? "Comparing runs git. Trust this folder first."
          : "Open a file of the project that is to be compared.",
      );
      return;
    }
    try {
      take(await server.ask("torquil/compare", { textDocument: { uri } }));
      await vscode.commands.executeCommand("torquil.changes.focus");
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      void vscode.window.showErrorMessage(`Not compared: ${why}`);
    }
  };
  const isProject = (): void => {
    void vscode.commands.executeCommand("setContext", "torquil.project", true);
  };
  isProject();
  return vscode.Disposable.from(
    view,
    changed,
    vscode.workspace.registerTextDocumentContentProvider(COMMITTED, {
      provideTextDocumentContent: async (uri) => {
        const document = { uri: vscode.Uri.parse(uri.query).toString() };
        return (await server.ask("torquil/revision", { textDocument: document })).text ?? "";
      },
    }),
    vscode.commands.registerCommand("torquil.compare", compare),
    vscode.commands.registerCommand("torquil.showChange", showBothSides),
  );
}

/** The file in the editor; else any file of the language that is open. */
function documentMeant(): string | undefined {
  const active = vscode.window.activeTextEditor?.document;
  const open = active?.languageId === "torquil" ? [active] : vscode.workspace.textDocuments;
  return open.find((d) => d.languageId === "torquil" && d.uri.scheme === "file")?.uri.toString();
}

function groups(changes: readonly ChangeShown[]): Item[] {
  return (Object.keys(RANKS) as Rank[]).flatMap((rank) => {
    const some = changes.filter((change) => change.rank === rank);
    return some.length === 0 ? [] : [{ rank, changes: some }];
  });
}

function groupItem({ rank, changes }: Extract<Item, { changes: unknown }>): vscode.TreeItem {
  const { title, icon } = RANKS[rank];
  const item = new vscode.TreeItem(title, vscode.TreeItemCollapsibleState.Expanded);
  item.description = changes.length === 1 ? "1 change" : `${changes.length} changes`;
  item.iconPath = new vscode.ThemeIcon(icon);
  return item;
}

function changeItem(change: ChangeShown): vscode.TreeItem {
  const { now, about } = change.short;
  const item = new vscode.TreeItem(now);
  item.description = [about, change.notes[0] ?? ""].filter((words) => words !== "").join(" · ");
  item.tooltip = [change.headline, ...change.notes].join("\n");
  item.command = { command: "torquil.showChange", title: "Show Both Sides", arguments: [change] };
  return item;
}

/** Shows the change on both sides; what is on one side only, there. */
async function showBothSides(change: ChangeShown): Promise<void> {
  const after = change.after ?? change.gap;
  if (change.before && after) {
    const name = vscode.workspace.asRelativePath(vscode.Uri.parse(after.uri));
    await vscode.commands.executeCommand(
      "vscode.diff",
      committed(change.before),
      vscode.Uri.parse(after.uri),
      `${name} (last commit ↔ now)`,
      { selection: selectionAt(after), preview: true },
    );
    return;
  }
  const only = change.before ? { ...change.before, uri: committed(change.before).toString() } : after;
  if (only)
    await vscode.window.showTextDocument(vscode.Uri.parse(only.uri), { selection: selectionAt(only) });
}

/** The address of a file as it was. */
function committed({ uri }: ChangePlace): vscode.Uri {
  const now = vscode.Uri.parse(uri);
  return now.with({ scheme: COMMITTED, query: uri });
}

const selectionAt = ({ line }: ChangePlace): vscode.Range => new vscode.Range(line, 0, line, 0);
