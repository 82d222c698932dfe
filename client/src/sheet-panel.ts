/**
 * The sheet beside the text: one panel that follows the text and the cursor, and leads back to the line when something
 * on it is clicked. What it shows is the server's; while the server has nothing better, the last sheet stays.
 */
import * as vscode from "vscode";
import type { ProcedureAt, SheetAnswer, SheetShown } from "../../server/lsp/requests";
import type { Server } from "./server";
import { sheetPage } from "./sheet-page";

/** The kind of panel, by which the editor knows it when it comes back. */
export const SHEET = "torquil.sheet";

/** So many milliseconds without a change are waited for. */
const PAUSE = 120;
/** Other files than texts need longer until the server knows of them. */
const LONG_PAUSE = 600;

/** What the panel's page says. */
type FromPage =
  | { readonly type: "ready" }
  | { readonly type: "go"; readonly file: number; readonly line: number }
  | { readonly type: "choose"; readonly of: ProcedureAt };

export interface SheetPanel extends vscode.Disposable {
  /** Opens the panel beside the text, or shows it. */
  readonly open: () => void;
  /** The procedure that is shown, while the panel is open. */
  readonly shown: () => ProcedureAt | undefined;
}

/** Makes the panel ready to be opened, and to come back when the editor does. */
export function createSheetPanel(server: Server, extension: vscode.Uri): SheetPanel {
  let panel: vscode.WebviewPanel | undefined;
  let sheet: SheetShown | undefined;
  let of: ProcedureAt | undefined;
  let timer: NodeJS.Timeout | undefined;
  let asking = new vscode.CancellationTokenSource();
  let text = textOf(vscode.window.activeTextEditor);

  const post = (message: object): void => void panel?.webview.postMessage(message);
  const refreshSoon = (pause: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void refresh(), pause);
  };
  const refresh = async (): Promise<void> => {
    if (!panel) return;
    asking.cancel();
    asking = new vscode.CancellationTokenSource();
    const { token } = asking;
    const uri = text?.uri.toString() ?? of?.uri;
    if (uri === undefined) return;
    try {
      const position = text && { line: text.line, character: 0 };
      const answer = await server.ask(
        "torquil/sheet",
        { textDocument: { uri }, ...(position ? { position } : {}), ...(of ? { shown: of } : {}) },
        token,
      );
      if (!token.isCancellationRequested) take(answer, uri);
    } catch (error) {
      if (!token.isCancellationRequested) post({ type: "notice", text: wordsOf(error) });
    }
  };
  const take = (answer: SheetAnswer, uri: string): void => {
    if (answer.kind === "none") {
      // A text that cannot be read has no procedure for the moment: what was shown of it stays.
      if (sheet && sheet.of.uri === uri) post({ type: "notice", text: answer.message });
      else {
        sheet = undefined;
        post({ ...answer, type: "none" });
      }
      return;
    }
    const same = sheet?.of.uri === answer.of.uri && sheet.of.procedure === answer.of.procedure;
    of = answer.of;
    if (panel) panel.title = answer.title;
    if (answer.unread && same && sheet && !sheet.unread) {
      post({ type: "notice", text: `${answer.notice} It is shown as it was before.` });
      return;
    }
    // The editor has its own way to write an address.
    sheet = { ...answer, files: answer.files.map((file) => vscode.Uri.parse(file).toString()) };
    post({ ...answer, type: "sheet" });
    tellCursor();
  };
  const tellCursor = (): void => {
    const file = text ? (sheet?.files.indexOf(text.uri.toString()) ?? -1) : -1;
    const follows = vscode.workspace.getConfiguration("torquil").get("sheet.followCursor", true);
    post({ type: "cursor", file, line: text?.line ?? 0, follows });
  };
  const cursorMoved = (editor: vscode.TextEditor | undefined): void => {
    const now = textOf(editor);
    if (!now) return;
    text = now;
    tellCursor();
    if (!isOfSheet(now, sheet)) refreshSoon(PAUSE);
  };
  const hear = (message: FromPage): void => {
    if (message.type === "ready") void refresh();
    if (message.type === "choose") {
      of = message.of;
      text = undefined;
      void refresh();
    }
    const file = message.type === "go" ? sheet?.files[message.file] : undefined;
    if (message.type === "go" && file !== undefined)
      void goTo(vscode.Uri.parse(file), message.line, text?.column);
  };
  const fill = (into: vscode.WebviewPanel): void => {
    panel = into;
    into.webview.options = {
      enableScripts: true,
      localResourceRoots: [vscode.Uri.joinPath(extension, "media")],
    };
    into.iconPath = {
      light: vscode.Uri.joinPath(extension, "icons/torquil-light.svg"),
      dark: vscode.Uri.joinPath(extension, "icons/torquil-dark.svg"),
    };
    into.webview.onDidReceiveMessage(hear);
    into.onDidDispose(() => {
      panel = sheet = undefined;
      asking.cancel();
    });
    into.webview.html = sheetPage(into.webview, extension);
  };

  const listeners = vscode.Disposable.from(
    vscode.window.onDidChangeActiveTextEditor(cursorMoved),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => cursorMoved(textEditor)),
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (document.languageId === "torquil" && contentChanges.length > 0) refreshSoon(PAUSE);
    }),
    vscode.workspace.onDidSaveTextDocument(() => refreshSoon(LONG_PAUSE)),
    server.onRunning(() => void refresh()),
    vscode.window.registerWebviewPanelSerializer(SHEET, {
      deserializeWebviewPanel: async (back, state: { of?: ProcedureAt } | undefined) => {
        of = state?.of;
        fill(back);
      },
    }),
  );
  return {
    open: () => {
      text = textOf(vscode.window.activeTextEditor) ?? text;
      if (panel) {
        panel.reveal(undefined, true);
        void refresh();
        return;
      }
      fill(
        vscode.window.createWebviewPanel(SHEET, "Sheet", {
          viewColumn: vscode.ViewColumn.Beside,
          preserveFocus: true,
        }),
      );
    },
    shown: () => (panel ? of : undefined),
    dispose: () => {
      clearTimeout(timer);
      asking.cancel();
      listeners.dispose();
      panel?.dispose();
    },
  };
}

/** Where the cursor is in a text of the language. */
interface Cursor {
  readonly uri: vscode.Uri;
  readonly line: number;
  readonly column: vscode.ViewColumn | undefined;
}

function textOf(editor: vscode.TextEditor | undefined): Cursor | undefined {
  if (editor?.document.languageId !== "torquil") return undefined;
  return { uri: editor.document.uri, line: editor.selection.active.line, column: editor.viewColumn };
}

/** Whether a place means the sheet that is shown: it stands in its procedure, or in another file that it rests on. */
function isOfSheet({ uri, line }: Cursor, sheet: SheetShown | undefined): boolean {
  if (!sheet) return false;
  const at = uri.toString();
  if (at !== sheet.of.uri) return sheet.files.includes(at);
  return sheet.lines.first <= line && line <= sheet.lines.last;
}

/** Shows a line where its text is open already, else in the column of the text last seen. */
async function goTo(uri: vscode.Uri, line: number, column: vscode.ViewColumn | undefined): Promise<void> {
  const open = vscode.window.visibleTextEditors.find((one) => one.document.uri.toString() === uri.toString());
  try {
    const document = await vscode.workspace.openTextDocument(uri);
    const at = document.lineAt(Math.min(line, document.lineCount - 1));
    const start = new vscode.Position(at.lineNumber, at.firstNonWhitespaceCharacterIndex);
    await vscode.window.showTextDocument(document, {
      viewColumn: open?.viewColumn ?? column ?? vscode.ViewColumn.One,
      selection: new vscode.Range(start, start),
    });
  } catch {
    void vscode.window.showWarningMessage(
      `${uri.fsPath} cannot be opened: it may have been moved or deleted.`,
    );
  }
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
