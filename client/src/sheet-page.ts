/**
 * The page that a sheet is shown in. Its content policy lets it run its own script, and reach nothing.
 */
import { randomBytes } from "node:crypto";
import * as vscode from "vscode";

/** The empty page; what is to be shown is sent to it. */
export function sheetPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const nonce = randomBytes(24).toString("base64url");
  const media = (name: string): string =>
    webview.asWebviewUri(vscode.Uri.joinPath(extension, "media", name)).toString();
  const policy = [
    "default-src 'none'",
    "img-src data:",
    `style-src ${webview.cspSource} 'nonce-${nonce}'`,
    `script-src 'nonce-${nonce}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Torquil</title>
<style nonce="${nonce}" id="style"></style>
<link rel="stylesheet" href="${media("sheet.css")}">
</head>
<body>
<div id="notice" role="status" hidden></div>
<div id="none" hidden><p></p><ul></ul></div>
<main></main>
<script nonce="${nonce}" src="${media("sheet.js")}"></script>
</body>
</html>`;
}
