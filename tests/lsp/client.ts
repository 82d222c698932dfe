/**
 * A client of the language server for tests: the bundled server as a process of its own, spoken to over its standard
 * input and output.
 */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { build, bundles, isStale } from "../../server/tools/build.mjs";

const server = fileURLToPath(new URL("../../dist/server.js", import.meta.url));

/** Bundles the server if its sources are newer. */
export async function bundleServer(): Promise<string> {
  if (isStale(bundles.server)) await build(bundles.server);
  return server;
}

/** A folder of its own on the disk. */
export interface Folder {
  readonly path: string;
  readonly uri: (file: string) => string;
  readonly write: (file: string, text: string) => void;
  readonly remove: (file: string) => void;
  readonly dispose: () => void;
}

/** Makes a folder with files in it. */
export function makeFolder(files: Readonly<Record<string, string>>): Folder {
  const path = realpathSync(mkdtempSync(join(tmpdir(), "torquil-lsp-")));
  const write = (file: string, text: string): void => {
    mkdirSync(dirname(join(path, file)), { recursive: true });
    writeFileSync(join(path, file), text);
  };
  for (const [file, text] of Object.entries(files)) write(file, text);
  return {
    path,
    uri: (file) => pathToFileURL(join(path, file)).href,
    write,
    remove: (file) => rmSync(join(path, file)),
    dispose: () => rmSync(path, { recursive: true }),
  };
}

export interface Client {
  readonly process: ChildProcessWithoutNullStreams;
  readonly connection: ProtocolConnection;
  readonly greeting: InitializeResult;
  /** Everything published so far, in order. */
  readonly published: readonly PublishDiagnosticsParams[];
  /** What the server asked the client for: `client/registerCapability`, refreshes. */
  readonly asked: readonly { readonly method: string; readonly params: unknown }[];
  readonly log: readonly string[];
  /** What the server wrote to standard error. */
  readonly errors: () => string;
  /** The diagnostics published next for a file, or those last published if they fit already. */
  readonly diagnosticsOf: (
    uri: string,
    fits?: (found: readonly Diagnostic[]) => boolean,
  ) => Promise<readonly Diagnostic[]>;
  readonly open: (uri: string, text: string, version?: number) => Promise<void>;
  readonly change: (uri: string, version: number, ...changes: readonly Change[]) => Promise<void>;
  /** Resolves with the exit code. */
  readonly ended: Promise<number | null>;
  /** Shuts the server down as the protocol wants it. */
  readonly stop: () => Promise<number | null>;
}

/** A text in place of a stretch of one line, or of the whole document. */
export type Change =
  | { readonly line: number; readonly from: number; readonly to: number; readonly text: string }
  | string;

/** Starts the server without a word to it. */
export function startServer(): ChildProcessWithoutNullStreams {
  return spawn(process.execPath, [server], { stdio: "pipe" });
}

/** Starts the server and introduces a client, which may answer more than is usual here. */
export async function connect(
  capabilities: ClientCapabilities,
  folders: readonly string[] = [],
  answering: (connection: ProtocolConnection) => void = () => {},
): Promise<Client> {
  const child = startServer();
  let written = "";
  child.stderr.on("data", (data) => {
    written += String(data);
  });
  const connection = createProtocolConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const published: PublishDiagnosticsParams[] = [];
  const asked: { method: string; params: unknown }[] = [];
  const log: string[] = [];
  const waiting = new Set<() => void>();
  connection.onNotification("textDocument/publishDiagnostics", (params: PublishDiagnosticsParams) => {
    published.push(params);
    for (const look of [...waiting]) look();
  });
  connection.onNotification(
    "window/logMessage",
    ({ message }: { message: string }) => void log.push(message),
  );
  for (const method of ["client/registerCapability", "workspace/diagnostic/refresh"]) {
    connection.onRequest(method, (params: unknown) => {
      asked.push({ method, params });
      return null;
    });
  }
  answering(connection);
  connection.onError(() => {});
  connection.listen();
  const ended = new Promise<number | null>((done) => child.on("exit", (code) => done(code)));
  const workspaceFolders = folders.map((uri) => ({ uri, name: uri }));
  const greeting: InitializeResult = await connection.sendRequest("initialize", {
    processId: process.pid,
    rootUri: null,
    capabilities,
    workspaceFolders,
  });
  await connection.sendNotification("initialized", {});
  return {
    process: child,
    connection,
    greeting,
    published,
    asked,
    log,
    errors: () => written,
    diagnosticsOf: (uri, fits = () => true) =>
      new Promise((done) => {
        const look = (): void => {
          const last = published.findLast((p) => p.uri === uri)?.diagnostics;
          if (!last || !fits(last)) return;
          waiting.delete(look);
          done(last);
        };
        waiting.add(look);
        look();
      }),
    open: (uri, text, version = 1) =>
      connection.sendNotification("textDocument/didOpen", {
        textDocument: { uri, languageId: "torquil", version, text },
      }),
    change: (uri, version, ...changes) =>
      connection.sendNotification("textDocument/didChange", {
        textDocument: { uri, version },
        contentChanges: changes.map((change) =>
          typeof change === "string"
            ? { text: change }
            : {
                text: change.text,
                range: {
                  start: { line: change.line, character: change.from },
                  end: { line: change.line, character: change.to },
                },
              },
        ),
      }),
    ended,
    stop: async () => {
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      return ended;
    },
  };
}
