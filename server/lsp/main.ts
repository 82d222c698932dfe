/**
 * The language server's program: speaks the protocol over standard input and output. Nothing else is ever written to
 * standard output; what there is to log goes to the client, or to standard error.
 */
import {
  type ConnectionStrategy,
  createConnection,
  LSPErrorCodes,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { PRESS, servePress } from "../press/press";
import { diskFiles } from "../project";
import { readMessages } from "./frames";
import { serve } from "./server";

/** A request that is cancelled before its turn is answered without being looked at. */
const connectionStrategy: ConnectionStrategy = {
  cancelUndispatched: (message) => {
    const id = "id" in message ? (message.id as number | string) : null;
    return { jsonrpc: "2.0", id, error: { code: LSPErrorCodes.RequestCancelled, message: "Cancelled." } };
  },
};

function main(): void {
  // The client has gone: there is nobody to answer any more.
  process.stdout.on("error", () => process.exit(1));
  for (const event of ["uncaughtException", "unhandledRejection"]) {
    process.on(event, (error: unknown) => {
      process.stderr.write(
        `torquil: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
      );
    });
  }
  for (const method of ["log", "info", "warn", "error", "debug", "trace"] as const) {
    console[method] = (...words: unknown[]) => void process.stderr.write(`${words.map(String).join(" ")}\n`);
  }
  const reader = readMessages(process.stdin);
  reader.onError(
    (error) => void process.stderr.write(`torquil: a message could not be read: ${error.message}\n`),
  );
  const connection = createConnection(reader, new StreamMessageWriter(process.stdout), {
    connectionStrategy,
  });
  const life = serve(connection, diskFiles());
  process.stdin.on("end", () => process.exit(life.shutDown ? 0 : 1));
  connection.listen();
}

if (process.argv[2] === PRESS && process.send) servePress();
else main();
