/** Nothing that a client sends ends the server; it ends as the protocol says, and when its client is gone. */
import type { ChildProcessWithoutNullStreams } from "node:child_process";
import { afterEach, beforeAll, expect, test } from "vitest";
import { bundleServer, type Client, connect, type Folder, makeFolder, startServer } from "./client";
import { MACHINE, PROCEDURE } from "./texts";

let folder: Folder | undefined;
beforeAll(async () => {
  await bundleServer();
});
afterEach(() => {
  folder?.dispose();
  folder = undefined;
});

const INVALID_PARAMS = -32602;
const METHOD_NOT_FOUND = -32601;
const NOT_INITIALIZED = -32002;
const INVALID_REQUEST = -32600;
const CANCELLED = -32800;

/** A message as bytes. */
function framed(body: string): string {
  return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
}

/** Speaks to a server in plain messages. */
function speaker(child: ChildProcessWithoutNullStreams): {
  ask: (
    id: number,
    method: string,
    params?: unknown,
  ) => Promise<{ result?: unknown; error?: { code: number; message: string } }>;
  send: (text: string) => void;
} {
  let heard = Buffer.alloc(0);
  const waiting = new Map<
    number,
    (answer: { result?: unknown; error?: { code: number; message: string } }) => void
  >();
  child.stdout.on("data", (data: Buffer) => {
    heard = Buffer.concat([heard, data]);
    for (;;) {
      const end = heard.indexOf("\r\n\r\n");
      const length = Number(/Content-Length: (\d+)/.exec(heard.subarray(0, end).toString())?.[1]);
      if (end < 0 || heard.length < end + 4 + length) return;
      const message = JSON.parse(heard.subarray(end + 4, end + 4 + length).toString());
      heard = heard.subarray(end + 4 + length);
      waiting.get(message.id)?.(message);
    }
  });
  const send = (text: string): void => void child.stdin.write(text);
  return {
    send,
    ask: (id, method, params) =>
      new Promise((done) => {
        waiting.set(id, done);
        send(
          framed(JSON.stringify({ jsonrpc: "2.0", id, method, ...(params === undefined ? {} : { params }) })),
        );
      }),
  };
}

const exitOf = (child: ChildProcessWithoutNullStreams): Promise<number | null> =>
  new Promise((done) => child.on("exit", (code) => done(code)));

async function connected(): Promise<Client> {
  folder = makeFolder({ "torquil.json": "{}", "wren-4.torquil": MACHINE, "cover.torquil": PROCEDURE });
  return connect({}, [folder.uri("")]);
}

test("requests before initialize, and after shutdown, are refused", async () => {
  const child = startServer();
  const { ask, send } = speaker(child);
  const at = { textDocument: { uri: "file:///a.torquil" }, position: { line: 0, character: 0 } };
  expect((await ask(1, "textDocument/hover", at)).error?.code).toBe(NOT_INITIALIZED);
  send(
    framed(
      JSON.stringify({
        jsonrpc: "2.0",
        method: "textDocument/didOpen",
        params: { textDocument: { uri: "file:///a.torquil", languageId: "torquil", version: 1, text: "" } },
      }),
    ),
  );
  expect(
    (await ask(2, "initialize", { processId: null, rootUri: null, capabilities: {} })).result,
  ).toBeDefined();
  expect((await ask(3, "initialize", { processId: null, rootUri: null, capabilities: {} })).error?.code).toBe(
    INVALID_REQUEST,
  );
  expect((await ask(4, "textDocument/hover", at)).result).toBeNull();
  expect((await ask(5, "shutdown")).result).toBeNull();
  expect((await ask(6, "textDocument/hover", at)).error?.code).toBe(INVALID_REQUEST);
  const ended = exitOf(child);
  send(framed(JSON.stringify({ jsonrpc: "2.0", method: "exit" })));
  expect(await ended).toBe(0);
});

test("exit without shutdown is a failure", async () => {
  const child = startServer();
  const ended = exitOf(child);
  child.stdin.write(framed(JSON.stringify({ jsonrpc: "2.0", method: "exit" })));
  expect(await ended).toBe(1);
});

test("the server ends when its client is gone", async () => {
  const client = await connected();
  await client.open("file:///nowhere/a.torquil", PROCEDURE);
  client.process.stdin.destroy();
  client.process.stdout.destroy();
  expect(await client.ended).toBe(1);
});

const uri = "file:///nowhere/a.torquil";
const BAD: readonly [string, unknown][] = [
  ["textDocument/hover", undefined],
  ["textDocument/hover", null],
  ["textDocument/hover", {}],
  ["textDocument/hover", []],
  ["textDocument/hover", { textDocument: { uri } }],
  ["textDocument/hover", { textDocument: { uri }, position: { line: -1, character: 0 } }],
  ["textDocument/hover", { textDocument: { uri }, position: { line: "1", character: 0 } }],
  ["textDocument/hover", { textDocument: { uri: 7 }, position: { line: 0, character: 0 } }],
  ["textDocument/completion", { textDocument: null, position: { line: 0, character: 0 } }],
  ["textDocument/definition", { textDocument: { uri }, position: { line: 0.5, character: 0 } }],
  ["textDocument/references", { position: { line: 0, character: 0 } }],
  ["textDocument/documentSymbol", { textDocument: "x" }],
  ["textDocument/foldingRange", {}],
  ["textDocument/codeAction", { textDocument: { uri }, range: { start: { line: 0, character: 0 } } }],
  ["textDocument/formatting", 7],
  ["textDocument/diagnostic", { textDocument: {} }],
  ["textDocument/documentHighlight", { textDocument: { uri } }],
  ["textDocument/documentLink", {}],
  ["textDocument/selectionRange", { textDocument: { uri }, positions: [{ line: 0 }] }],
  ["textDocument/selectionRange", { textDocument: { uri }, positions: 7 }],
  ["textDocument/inlayHint", { textDocument: { uri } }],
  ["textDocument/prepareRename", { textDocument: { uri }, position: 7 }],
  ["textDocument/rename", { textDocument: { uri }, position: { line: 0, character: 0 } }],
  ["textDocument/rename", { textDocument: { uri }, position: { line: 0, character: 0 }, newName: 7 }],
  ["workspace/symbol", {}],
  ["workspace/symbol", { query: 7 }],
  ["workspace/diagnostic", { previousResultIds: [{ uri: 1 }] }],
];

test("bad parameters are answered as such", async () => {
  const child = startServer();
  const { ask, send } = speaker(child);
  await ask(1, "initialize", { processId: null, rootUri: null, capabilities: {} });
  const codes: unknown[] = [];
  for (const [i, [method, params]] of BAD.entries())
    codes.push((await ask(i + 2, method, params)).error?.code);
  expect(codes).toEqual(BAD.map(() => INVALID_PARAMS));
  expect((await ask(100, "torquil/nothing", {})).error?.code).toBe(METHOD_NOT_FOUND);
  expect((await ask(101, "shutdown")).result).toBeNull();
  const ended = exitOf(child);
  send(framed(JSON.stringify({ jsonrpc: "2.0", method: "exit" })));
  expect(await ended).toBe(0);
});

test("bad notifications, and texts that are none, leave the server as it was", async () => {
  const client = await connected();
  const { connection } = client;
  const own = folder?.uri("cover.torquil") ?? "";
  await client.open(own, PROCEDURE);
  const nonsense: readonly [string, unknown][] = [
    ["textDocument/didOpen", {}],
    ["textDocument/didOpen", { textDocument: { uri: own } }],
    ["textDocument/didChange", { textDocument: { uri: own }, contentChanges: "x" }],
    [
      "textDocument/didChange",
      { textDocument: { uri: own }, contentChanges: [{ text: "x", range: { start: 1 } }] },
    ],
    [
      "textDocument/didChange",
      { textDocument: { uri: "file:///not/open.torquil", version: 1 }, contentChanges: [{ text: "x" }] },
    ],
    ["textDocument/didClose", { textDocument: {} }],
    ["textDocument/didClose", { textDocument: { uri: "file:///not/open.torquil" } }],
    ["workspace/didChangeWatchedFiles", { changes: [{ uri: "file:///x", type: "1" }] }],
    ["workspace/didChangeWatchedFiles", { changes: [{ uri: "file://host/%2F%zz", type: 1 }] }],
    ["workspace/didChangeWorkspaceFolders", { event: { added: [{}], removed: [] } }],
    ["$/cancelRequest", { id: 4711 }],
    ["torquil/nothing", { some: "thing" }],
  ];
  for (const [method, params] of nonsense) await connection.sendNotification(method, params as never);
  // Places outside the text are clamped, whatever they are.
  await client.change(
    own,
    2,
    { line: 90_000, from: 5, to: 9, text: "// \u0000\ud800 end" },
    { line: 0, from: 4000, to: 5000, text: "" },
  );
  const hover = await connection.sendRequest("textDocument/hover", {
    textDocument: { uri: own },
    position: { line: 90_000, character: 3 },
  });
  expect(hover).toBeNull();
  const odd = [
    "",
    "no uri at all",
    "file:",
    "file:///",
    "file:///%",
    "untitled:%zz",
    "http://example.org/a.torquil",
    "file:///a\u0000b.torquil",
  ];
  for (const one of odd) await client.open(one, PROCEDURE);
  for (const one of odd) {
    expect(
      await connection.sendRequest("textDocument/documentSymbol", { textDocument: { uri: one } }),
    ).not.toEqual([]);
    await connection.sendNotification("textDocument/didClose", { textDocument: { uri: one } });
  }
  expect(await client.stop()).toBe(0);
  expect(client.errors()).toBe("");
});

test("garbage between messages is passed over", async () => {
  const child = startServer();
  const { ask, send } = speaker(child);
  await ask(1, "initialize", { processId: null, rootUri: null, capabilities: {} });
  send(framed("{ this is not JSON"));
  send(framed('"a text"'));
  send(framed("7"));
  send(framed("null"));
  send(framed("[]"));
  send(framed('{"jsonrpc":"2.0"}'));
  send(framed('{"jsonrpc":"2.0","id":null,"method":7}'));
  send(framed('{"jsonrpc":"2.0","id":99,"result":1}'));
  send(framed('{"jsonrpc":"2.0","method":"$/cancelRequest"}'));
  send("Content-Type: nothing at all\r\n\r\n");
  send("Content-Length: -5\r\n\r\n");
  send("Content-Length: many\r\n\r\n");
  send(`${"x".repeat(9000)}\r\n\r\n`);
  expect(
    (await ask(2, "textDocument/hover", { textDocument: { uri }, position: { line: 0, character: 0 } }))
      .result,
  ).toBeNull();
  expect((await ask(3, "shutdown")).result).toBeNull();
  const ended = exitOf(child);
  send(framed(JSON.stringify({ jsonrpc: "2.0", method: "exit" })));
  expect(await ended).toBe(0);
});

test("a request that is cancelled before its turn is not worked on", async () => {
  const child = startServer();
  const { ask, send } = speaker(child);
  await ask(1, "initialize", { processId: null, rootUri: null, capabilities: {} });
  const at = { textDocument: { uri }, position: { line: 0, character: 0 } };
  // In one piece, so that the cancellation is there when the first of them has its turn.
  const both = ask(2, "textDocument/hover", at);
  const message = (id: number): string =>
    framed(JSON.stringify({ jsonrpc: "2.0", id, method: "textDocument/hover", params: at }));
  const cancelled = ask(4, "textDocument/definition", at);
  send(message(3) + framed(JSON.stringify({ jsonrpc: "2.0", method: "$/cancelRequest", params: { id: 4 } })));
  expect((await both).result).toBeNull();
  const answer = await cancelled;
  expect(answer.error?.code === CANCELLED || answer.result === null).toBe(true);
  child.stdin.end();
  expect(await exitOf(child)).toBe(1);
});
