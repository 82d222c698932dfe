/**
 * Prints a sheet into a file: the server makes the bytes, a person says where they go, and the file is written whole or
 * not at all.
 */
import * as vscode from "vscode";
import type { PrintAnswer, PrintParams, SheetParams } from "../../server/lsp/requests";
import type { Server } from "./server";
import type { SheetPanel } from "./sheet-panel";

type Form = PrintParams["form"];

const FORMS: Readonly<Record<Form, string>> = { pdf: "PDF", html: "Web page" };

/** Offers the commands that print what is written at the cursor, or what the panel shows. */
export function offerPrinting(server: Server, panel: SheetPanel): vscode.Disposable {
  const command = (id: string, form: Form): vscode.Disposable =>
    vscode.commands.registerCommand(id, async () => {
      try {
        await print(server, panel, form);
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        void vscode.window.showErrorMessage(`Not printed: ${why}`);
      }
    });
  return vscode.Disposable.from(command("torquil.printPdf", "pdf"), command("torquil.printHtml", "html"));
}

async function print(server: Server, panel: SheetPanel, form: Form): Promise<void> {
  const wanted = wantedBy(panel);
  if (!wanted) {
    void vscode.window.showInformationMessage(
      "Open a procedure first: the sheet of the one at the cursor is printed.",
    );
    return;
  }
  const made = await make(server, { ...wanted, form, draft: false });
  if (made.kind === "printed") return save(made.name, made.bytes, form, wanted.textDocument.uri);
  if (made.findings.length === 0) return refuse(made.message);
  const chosen = await vscode.window.showWarningMessage(
    made.message,
    { modal: true, detail: made.findings.join("\n") },
    "Print a Draft",
  );
  if (chosen === undefined) return;
  const draft = await make(server, { ...wanted, form, draft: true });
  if (draft.kind === "refused") return refuse(draft.message);
  await save(draft.name, draft.bytes, form, wanted.textDocument.uri);
}

/** The server's words say by themselves that nothing is printed. */
function refuse(message: string): void {
  void vscode.window.showErrorMessage(message);
}

/** What the cursor means, else what the panel shows. */
function wantedBy(panel: SheetPanel): SheetParams | undefined {
  const shown = panel.shown();
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId === "torquil") {
    const { line, character } = editor.selection.active;
    const textDocument = { uri: editor.document.uri.toString() };
    return { textDocument, position: { line, character }, ...(shown ? { shown } : {}) };
  }
  return shown && { textDocument: { uri: shown.uri }, shown };
}

async function make(server: Server, params: PrintParams): Promise<PrintAnswer> {
  const title = "Setting the sheet …";
  return vscode.window.withProgress({ location: vscode.ProgressLocation.Notification, title }, () =>
    server.ask("torquil/print", params),
  );
}

async function save(name: string, bytes: string, form: Form, source: string): Promise<void> {
  const place = await vscode.window.showSaveDialog({
    defaultUri: vscode.Uri.joinPath(folderFor(vscode.Uri.parse(source)), name),
    filters: { [FORMS[form]]: [form] },
    saveLabel: "Print",
  });
  if (!place) return;
  await writeWhole(place, Buffer.from(bytes, "base64"));
  const chosen = await vscode.window.showInformationMessage(`Printed: ${name}`, "Open");
  if (chosen === "Open") await vscode.env.openExternal(place);
}

/** Beside the text; a text that is on no disk goes into the folder that is open. */
function folderFor(source: vscode.Uri): vscode.Uri {
  if (source.scheme === "file") return vscode.Uri.joinPath(source, "..");
  return vscode.workspace.workspaceFolders?.[0]?.uri ?? vscode.Uri.file(process.env.HOME ?? "/");
}

/** Writes a file beside its place and then puts it there, so that no half file ever stands under its name. */
async function writeWhole(place: vscode.Uri, bytes: Uint8Array): Promise<void> {
  const half = place.with({ path: `${place.path}.${process.pid}.part` });
  try {
    await vscode.workspace.fs.writeFile(half, bytes);
    await vscode.workspace.fs.rename(half, place, { overwrite: true });
  } catch (error) {
    await vscode.workspace.fs.delete(half).then(undefined, () => undefined);
    throw error;
  }
}
