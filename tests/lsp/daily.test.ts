/** What a writer uses every day, asked of the server as an editor asks: with all that clients can do, and with little. */
import { afterEach, beforeAll, expect, test } from "vitest";
import type {
  ClientCapabilities,
  CodeAction,
  CompletionItem,
  CompletionList,
  DocumentHighlight,
  DocumentLink,
  InlayHint,
  SelectionRange,
  SymbolInformation,
  WorkspaceEdit,
} from "vscode-languageserver/node";
import { bundleServer, type Client, connect, type Folder, makeFolder } from "./client";
import { find, MACHINE, PROCEDURE } from "./texts";

let client: Client;
let folder: Folder;

beforeAll(async () => {
  await bundleServer();
});
afterEach(async () => {
  expect(await client.stop()).toBe(0);
  expect(client.errors()).toBe("");
  folder.dispose();
});

const ABLE: ClientCapabilities = {
  workspace: { workspaceEdit: { documentChanges: true }, symbol: {} },
  textDocument: {
    rename: { prepareSupport: true },
    documentLink: { tooltipSupport: true },
    codeAction: { disabledSupport: true, resolveSupport: { properties: ["edit"] } },
    completion: {
      completionItem: {
        snippetSupport: true,
        insertTextModeSupport: { valueSet: [1, 2] },
        documentationFormat: ["markdown", "plaintext"],
        resolveSupport: { properties: ["documentation"] },
      },
    },
  },
};

async function start(capabilities: ClientCapabilities = ABLE, procedure = PROCEDURE): Promise<string> {
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": procedure });
  client = await connect(capabilities, [folder.uri("")]);
  const uri = folder.uri("cover.torquil");
  await client.open(uri, procedure, 3);
  return uri;
}

const ask = <T>(method: string, params: unknown): Promise<T> => client.connection.sendRequest(method, params);
const at = (uri: string, text: string, what: string, by = 1) => {
  const { line, from } = find(text, what);
  return { textDocument: { uri }, position: { line, character: from + by } };
};

test("a name is changed in both files, the open one under its version", async () => {
  const uri = await start();
  const where = at(uri, PROCEDURE, "cover-bolts, cover");
  const prepared = await ask<{ placeholder: string }>("textDocument/prepareRename", where);
  expect(prepared.placeholder).toBe("cover-bolts");
  const edit = await ask<WorkspaceEdit>("textDocument/rename", { ...where, newName: "lid-bolts" });
  const changes = edit.documentChanges as {
    textDocument: { uri: string; version: number | null };
    edits: unknown[];
  }[];
  expect(changes.map((c) => [c.textDocument.uri, c.textDocument.version, c.edits.length])).toEqual([
    [uri, 3, 3],
    [folder.uri("wren-4.torquil"), null, 1],
  ]);
});

test("what cannot be renamed is refused in words", async () => {
  const uri = await start();
  const prepare = (what: string): Promise<unknown> =>
    ask("textDocument/prepareRename", at(uri, PROCEDURE, what));
  await expect(prepare("remove cover-bolts")).rejects.toThrow("is a word of the language");
  await expect(prepare("wren-4.torquil")).rejects.toThrow("This is a path");
  const rename = (newName: string): Promise<unknown> =>
    ask("textDocument/rename", { ...at(uri, PROCEDURE, "cover-bolts, cover"), newName });
  await expect(rename("cover")).rejects.toThrow("“cover” is taken");
  await expect(rename("7 up")).rejects.toThrow("is no name");
});

test("highlights, links, selections", async () => {
  const uri = await start();
  const marks = await ask<DocumentHighlight[]>(
    "textDocument/documentHighlight",
    at(uri, PROCEDURE, "wrench "),
  );
  expect(marks.map((m) => m.kind)).toEqual([3, 2]);
  const links = await ask<DocumentLink[]>("textDocument/documentLink", { textDocument: { uri } });
  expect(links).toMatchObject([{ target: folder.uri("wren-4.torquil"), tooltip: "Open wren-4.torquil" }]);
  const { textDocument, position } = at(uri, PROCEDURE, "snug");
  const params = { textDocument, positions: [position, { line: 4000, character: 7 }] };
  const [own, none] = await ask<SelectionRange[]>("textDocument/selectionRange", params);
  expect(own?.range.end.character).toBe(own ? own.range.start.character + "snug".length : 0);
  expect(own?.parent?.parent).toBeDefined();
  expect(none?.range.start).toEqual({ line: 4000, character: 7 });
});

test("what is declared is found in files that are not open", async () => {
  await start();
  const found = await ask<SymbolInformation[]>("workspace/symbol", { query: "covbol" });
  expect(found[0]).toMatchObject({
    name: "cover-bolts — Cover bolts",
    location: { uri: folder.uri("wren-4.torquil") },
    containerName: "Wren 4 water pump",
  });
  expect(await ask("workspace/symbol", { query: "nothing-like-it" })).toEqual([]);
});

const hintsIn = async (uri: string): Promise<unknown[]> => {
  const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  return (await ask<InlayHint[]>("textDocument/inlayHint", { textDocument: { uri }, range })).map(
    (h) => h.label,
  );
};

test("hints in the text, switched off by the client's settings", async () => {
  const uri = await start();
  expect(await hintsIn(uri)).toEqual(["(4 to 18 lb·ft)", "1", "2"]);
  const settings = { torquil: { inlayHints: { otherUnit: false } } };
  await client.connection.sendNotification("workspace/didChangeConfiguration", { settings });
  expect(await hintsIn(uri)).toEqual(["1", "2"]);
  for (const odd of [null, 7, { torquil: 7 }, { torquil: { inlayHints: { otherUnit: "no" } } }])
    await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: odd });
  expect(await hintsIn(uri)).toEqual(["(4 to 18 lb·ft)", "1", "2"]);
});

test("a client that can be asked for its settings is asked, and told to ask again for hints", async () => {
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  let said: unknown = { inlayHints: { stepNumbers: false } };
  let refreshed: () => void = () => {};
  const refresh = new Promise<void>((done) => {
    refreshed = done;
  });
  client = await connect(
    {
      workspace: {
        configuration: true,
        didChangeConfiguration: { dynamicRegistration: true },
        inlayHint: { refreshSupport: true },
      },
    },
    [folder.uri("")],
    (connection) => {
      connection.onRequest("workspace/configuration", () => [said]);
      connection.onRequest("workspace/inlayHint/refresh", () => {
        refreshed();
        return null;
      });
    },
  );
  await refresh;
  const uri = folder.uri("cover.torquil");
  await client.open(uri, PROCEDURE);
  expect(await hintsIn(uri)).toEqual(["(4 to 18 lb·ft)"]);
  expect(client.asked.map((a) => JSON.stringify(a.params)).join()).toContain("didChangeConfiguration");
  said = null;
  await client.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
  await expect.poll(() => hintsIn(uri)).toEqual(["(4 to 18 lb·ft)", "1", "2"]);
});

const SECTION = '  section "All of it" {\n';

test("forms to fill in with stops; what there is to read comes when it is asked for", async () => {
  const text = PROCEDURE.replace(SECTION, `${SECTION}    st\n`);
  const uri = await start(ABLE, text);
  const position = { line: find(text, "    st").line, character: 6 };
  const list = await ask<CompletionList>("textDocument/completion", { textDocument: { uri }, position });
  const step = list.items.find((i) => i.label.startsWith("step …") || i.label.startsWith('step "'));
  expect(step).toMatchObject({ insertTextFormat: 2, insertTextMode: 2, filterText: "step", kind: 15 });
  expect(step?.textEdit?.newText).toMatch(/^step "\$\{1:Title\}" \{\n {2}\$\{2\|remove,/);
  expect(step?.documentation).toBeUndefined();
  const full = await ask<CompletionItem>("completionItem/resolve", step);
  expect(full.documentation).toMatchObject({ kind: "markdown", value: "A step: acts done together." });
  // What is not of the last list is given back as it came.
  const stray = { label: "x", data: { list: 999, rank: 0 } };
  expect(await ask("completionItem/resolve", stray)).toEqual(stray);
  expect(await ask("completionItem/resolve", { label: "y" })).toEqual({ label: "y" });
});

test("the facts of a thing are read beside its name", async () => {
  const text = PROCEDURE.replace("remove cover-bolts, cover", "remove ");
  const uri = await start(ABLE, text);
  const { line, to } = find(text, "      remove ");
  const params = { textDocument: { uri }, position: { line, character: to } };
  const list = await ask<CompletionList>("textDocument/completion", params);
  const bolts = list.items.find((i) => i.label === "cover-bolts");
  const full = await ask<CompletionItem>("completionItem/resolve", bolts);
  expect(JSON.stringify(full.documentation)).toContain("12 N·m");
});

test("a client without stops gets the form as plain text, indented as its line is", async () => {
  const text = PROCEDURE.replace(SECTION, `${SECTION}    st\n`);
  const uri = await start({}, text);
  const position = { line: find(text, "    st").line, character: 6 };
  const list = await ask<CompletionList>("textDocument/completion", { textDocument: { uri }, position });
  const step = list.items.find((i) => i.label.startsWith('step "'));
  expect(step?.textEdit?.newText).toBe('step "Title" {\n      remove thing\n    }');
  expect(step?.insertTextFormat).toBeUndefined();
  expect(step?.documentation).toMatchObject({ kind: "plaintext", value: "A step: acts done together." });
});

test("actions: their edits when they are chosen; what cannot be done says why", async () => {
  const text = PROCEDURE.replace("  tool wrench", '  consumable cleaner "Cleaner"\n  tool wrench').replace(
    "remove cover-bolts, cover",
    "remove cover-bolts, cover, thing",
  );
  const uri = await start(ABLE, text);
  const actionsAt = (what: string): Promise<CodeAction[]> => {
    const { line, to } = find(text, what);
    const end = { line, character: to };
    return ask("textDocument/codeAction", {
      textDocument: { uri },
      range: { start: end, end },
      context: { diagnostics: [] },
    });
  };
  const declare = (await actionsAt(", thing")).find((a) => a.title.startsWith("Declare part thing"));
  expect(declare?.edit).toBeUndefined();
  // Another list that the editor asks for meanwhile takes nothing away.
  await actionsAt("tool gauge");
  const chosen = await ask<CodeAction>("codeAction/resolve", declare);
  expect(JSON.stringify(chosen.edit)).toContain('part thing \\"Thing\\"');
  const move = (await actionsAt("consumable cl")).find((a) => a.kind === "refactor.move");
  expect(move).toMatchObject({ title: "Move consumable cleaner to the machine" });
  await client.change(uri, 4, text.replace("  on wren-4\n", "").replace('use "wren-4.torquil"\n', ""));
  await expect(ask("codeAction/resolve", move)).rejects.toThrow("The text has changed");
});

const METHODS: readonly string[] = [
  "textDocument/hover",
  "textDocument/completion",
  "textDocument/definition",
  "textDocument/documentHighlight",
  "textDocument/prepareRename",
];

test("no position, however odd, is too much for anything that is asked there", async () => {
  const odd = `${PROCEDURE}\n{ { "\nremove ,,\n\u{1F529} é\u0301 “x”\n${"x".repeat(3000)}\n}}}\nuse "\nallow\n`;
  const uri = await start(ABLE, odd);
  const lines = odd.split("\n");
  for (const [line, text] of [...lines.entries(), [9999, ""] as const, [4294967295, ""] as const]) {
    for (const character of new Set([0, Math.floor(text.length / 2), text.length + 5, 2147483647])) {
      const position = { line, character };
      const params = { textDocument: { uri }, position };
      const range = { start: position, end: position };
      const answers = [
        ...METHODS.map((method) => ask(method, params)),
        ask("textDocument/rename", { ...params, newName: "zz" }),
        ask("textDocument/selectionRange", { textDocument: { uri }, positions: [position] }),
        ask("textDocument/inlayHint", { textDocument: { uri }, range }),
        ask("textDocument/codeAction", { textDocument: { uri }, range, context: { diagnostics: [] } }),
      ];
      for (const answered of await Promise.allSettled(answers))
        if (answered.status === "rejected") expect(String(answered.reason)).not.toMatch(/failed:|Internal/);
    }
  }
  expect(client.log.filter((entry) => entry.includes("failed"))).toEqual([]);
}, 60_000);
