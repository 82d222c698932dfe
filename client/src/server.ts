/**
 * The language server's life: started beside the editor, started again when it ends by itself, a few times at most.
 * All that is known of the language comes from it.
 */
import * as vscode from "vscode";
import {
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  LanguageClient,
  State,
  TransportKind,
} from "vscode-languageclient/node";
import type { Requests } from "../../server/lsp/requests";

/** The documents that the server is told of. */
export const DOCUMENTS = ["file", "untitled", "vscode-vfs"].map((scheme) => ({
  scheme,
  language: "torquil",
}));

/** It is started again so many times within so many milliseconds; then a person has to decide. */
const MOST_RESTARTS = 4;
const WITHIN = 3 * 60 * 1000;

const NOT_RUNNING =
  "Torquil's language server is not running. Restart it: Torquil: Restart the Language Server.";
const ENDED = "Torquil's language server ended while it was asked. It is started again; then try once more.";

export interface Server {
  /** Sends a request; fails in words when the server does not run or cannot answer. */
  readonly ask: <M extends keyof Requests>(
    method: M,
    params: Requests[M]["params"],
    token?: vscode.CancellationToken,
  ) => Promise<Requests[M]["answer"]>;
  readonly start: () => Promise<void>;
  readonly restart: () => Promise<void>;
  readonly stop: () => Promise<void>;
  readonly onState: vscode.Event<State>;
  readonly onRunning: vscode.Event<void>;
}

/** The server whose program is at `program`; what it logs goes to `log`. */
export function createServer(program: string, log: vscode.OutputChannel): Server {
  const ends: number[] = [];
  const states = new vscode.EventEmitter<State>();
  const client = new LanguageClient(
    "torquil",
    "Torquil",
    { module: program, transport: TransportKind.stdio },
    {
      documentSelector: DOCUMENTS,
      outputChannel: log,
      errorHandler: {
        error: () => ({ action: ErrorAction.Continue }),
        closed: () => closed(),
      },
    },
  );
  const runs = new vscode.EventEmitter<void>();
  client.onDidChangeState(({ newState }) => {
    states.fire(newState);
    if (newState === State.Running) runs.fire();
  });

  const closed = (): CloseHandlerResult => {
    const now = Date.now();
    ends.push(now);
    if (ends.filter((end) => now - end < WITHIN).length <= MOST_RESTARTS)
      return { action: CloseAction.Restart, handled: true };
    void tellEnded();
    return { action: CloseAction.DoNotRestart, handled: true };
  };
  const tellEnded = async (): Promise<void> => {
    const chosen = await vscode.window.showErrorMessage(
      `Torquil's language server ended ${MOST_RESTARTS + 1} times in three minutes and is not started again. Your texts are untouched; findings and sheets are not kept up to date.`,
      "Restart",
      "Show the Log",
    );
    if (chosen === "Restart") await restart();
    if (chosen === "Show the Log") log.show();
  };
  const start = async (): Promise<void> => {
    try {
      await client.start();
    } catch (error) {
      log.appendLine(String(error));
      void vscode.window.showErrorMessage(
        "Torquil's language server could not be started. The log says why: Torquil: Show the Log.",
      );
    }
  };
  const restart = async (): Promise<void> => {
    ends.length = 0;
    if (client.state === State.Running) await client.stop();
    await start();
  };

  return {
    ask: async (method, params, token) => {
      if (client.state !== State.Running) throw new Error(NOT_RUNNING);
      try {
        // Handed on as undefined, the token would be taken for a second parameter.
        return await (token ? client.sendRequest(method, params, token) : client.sendRequest(method, params));
      } catch (error) {
        throw client.state === State.Running ? error : new Error(ENDED);
      }
    },
    start,
    restart,
    stop: async () => {
      if (client.state === State.Running) await client.stop();
      states.dispose();
      runs.dispose();
    },
    onState: states.event,
    onRunning: runs.event,
  };
}
