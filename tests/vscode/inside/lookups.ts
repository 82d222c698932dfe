/** Inside the extension host: hover, completion, symbols, links, folding, hints and colours. */
import assert from "node:assert/strict";
import { basename } from "node:path";
import * as vscode from "vscode";
import { test } from "./runner";
import { ask, findings, PROCEDURE, project, rangeOf, until, whole } from "./support";

const WORDS_OF = (hovers: readonly vscode.Hover[]): string =>
  hovers
    .flatMap(({ contents }) => contents)
    .map((content) => (typeof content === "string" ? content : content.value))
    .join("\n");

test("hover over a fastener shows what is tightened and how, in both units", async () => {
  const { procedure } = await project();
  const at = rangeOf(procedure, "tighten cover-bolts").end.translate(0, -3);
  const words = WORDS_OF(await ask("executeHoverProvider", procedure.uri, at));
  assert.match(words, /Cover bolts/);
  assert.match(words, /12 N·m/);
  assert.match(words, /lb·(ft|in)/);
});

test("definition leads to the machine file, references back to both", async () => {
  const { machine, procedure } = await project();
  const at = rangeOf(procedure, "remove cover-bolts").end.translate(0, -3);
  const to = await ask<(vscode.Location | vscode.LocationLink)[]>(
    "executeDefinitionProvider",
    procedure.uri,
    at,
  );
  const [first] = to.map((place) =>
    "targetUri" in place ? { uri: place.targetUri, range: place.targetRange } : place,
  );
  assert.equal(first?.uri.fsPath, machine.fileName);
  assert.match(machine.lineAt(first?.range.start.line ?? 0).text, /fastener cover-bolts/);
  const uses = await ask<vscode.Location[]>("executeReferenceProvider", procedure.uri, at);
  assert.deepEqual([...new Set(uses.map(({ uri }) => basename(uri.fsPath)))].sort(), [
    "cover.torquil",
    "wren-4.torquil",
  ]);
});

test("the outline has the procedure, its section and its steps within each other", async () => {
  const { procedure } = await project();
  const [top] = await ask<vscode.DocumentSymbol[]>("executeDocumentSymbolProvider", procedure.uri);
  assert.match(top?.name ?? "", /Renew the cover seal/);
  const section = top?.children.find(({ name }) => name.includes("Open"));
  assert.deepEqual(
    section?.children.map(({ name }) => name.replace(/^step /, "")),
    ["Take the cover off", "Take the seal out"],
  );
});

test("symbols of the whole project are found by a part of the name", async () => {
  const { procedure } = await project();
  await findings(procedure);
  const found = await ask<vscode.SymbolInformation[]>("executeWorkspaceSymbolProvider", "cover-bo");
  const bolts = found.find(({ name }) => name.includes("cover-bolts"));
  assert.equal(basename(bolts?.location.uri.fsPath ?? ""), "wren-4.torquil");
});

test("blocks fold", async () => {
  const { procedure } = await project();
  const ranges = await ask<vscode.FoldingRange[]>("executeFoldingRangeProvider", procedure.uri);
  const start = rangeOf(procedure, 'step "Put the cover on"').start.line;
  assert.ok(ranges.some((range) => range.start === start && range.end >= start + 3));
});

test("the path of a use line is a link to that file", async () => {
  const { machine, procedure } = await project();
  const links = await ask<vscode.DocumentLink[]>("executeLinkProvider", procedure.uri);
  const link = links.find(({ range }) => procedure.getText(range).includes("wren-4.torquil"));
  assert.equal(link?.target?.fsPath, machine.fileName);
});

test("hints show a torque in the other unit and a step's printed number", async () => {
  const { machine, procedure } = await project();
  const labels = async (document: vscode.TextDocument): Promise<string> => {
    const hints = await ask<vscode.InlayHint[]>("executeInlayHintProvider", document.uri, whole(document));
    return hints
      .map(({ label }) => (typeof label === "string" ? label : label.map(({ value }) => value).join("")))
      .join("|");
  };
  assert.match(await labels(machine), /lb·(ft|in)/);
  assert.match(await labels(procedure), /1\.2|\b2\b/);
});

test("names are coloured by what they name", async () => {
  const { procedure } = await project();
  const legend = await ask<vscode.SemanticTokensLegend>("provideDocumentSemanticTokensLegend", procedure.uri);
  const tokens = await ask<vscode.SemanticTokens>("provideDocumentSemanticTokens", procedure.uri);
  assert.ok(legend && tokens, "no semantic tokens");
  const seen = new Map<string, string>();
  let line = 0;
  let column = 0;
  for (let i = 0; i < tokens.data.length; i += 5) {
    const [down = 0, right = 0, length = 0, type = 0] = tokens.data.slice(i, i + 5);
    column = down ? right : column + right;
    line += down;
    seen.set(
      procedure.getText(new vscode.Range(line, column, line, column + length)),
      legend.tokenTypes[type] ?? "",
    );
  }
  assert.ok(seen.has("cover-bolts") && seen.has("wrench"), JSON.stringify([...seen]));
  assert.notEqual(seen.get("cover-bolts"), seen.get("wrench"));
});

test("completion offers the names that fit: a fastener after tighten, no tool", async () => {
  const { procedure } = await project(PROCEDURE.replace("tighten cover-bolts  with", "tighten   with"));
  const at = rangeOf(procedure, "tighten   with").start.translate(0, "tighten ".length);
  const labels = (await completions(procedure, at)).map(labelOf);
  assert.ok(labels.includes("cover-bolts"), labels.join());
  assert.ok(!labels.includes("wrench"), labels.join());
});

for (const [what, where, words] of [
  ["step", "procedure", /^step\b/],
  ["check", "procedure", /^check\b/],
  ["a caution", "procedure", /^(caution|warning|danger|notice)\b/],
  ["tightening", "procedure", /^tighten\b/],
  ["fastener", "machine", /^fastener\b/],
] as const) {
  test(`completion brings a snippet for ${what}, and what it writes can be read`, async () => {
    const { machine, procedure } = await project();
    const document = where === "machine" ? machine : procedure;
    const within =
      what === "tightening" || what === "a caution"
        ? "      remove cover-bolts"
        : '    step "Put the cover on"';
    const before = rangeOf(document, where === "machine" ? "  fastener cover-bolts" : within).start.line;
    const editor = await vscode.window.showTextDocument(document);
    await editor.edit((edit) => edit.insert(new vscode.Position(before, 0), "\n"));
    const at = new vscode.Position(before, 0);
    const snippet = await until(
      async () =>
        (await completions(document, at)).find(
          (item) => words.test(labelOf(item)) && item.insertText instanceof vscode.SnippetString,
        ),
      (item) => item !== undefined,
    );
    assert.ok(snippet?.insertText instanceof vscode.SnippetString);
    assert.match(snippet.insertText.value, /\$\{?\d/, "the snippet has no place to fill in");
    await editor.insertSnippet(snippet.insertText, at);
    assert.ok(document.lineCount > 20);
    await until(
      () => vscode.languages.getDiagnostics(document.uri),
      (found) =>
        !found.some(({ code }) => /not-understood|out-of-place|block-not/.test(JSON.stringify(code))),
    );
  });
}

const labelOf = ({ label }: vscode.CompletionItem): string =>
  typeof label === "string" ? label : label.label;

async function completions(
  document: vscode.TextDocument,
  at: vscode.Position,
): Promise<readonly vscode.CompletionItem[]> {
  const list = await ask<vscode.CompletionList>(
    "executeCompletionItemProvider",
    document.uri,
    at,
    undefined,
    50,
  );
  return list.items;
}
