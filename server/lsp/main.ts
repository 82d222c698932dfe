/**
 * The language server's program: speaks the protocol over standard input and output. Nothing else is ever written to
 * standard output; what there is to log goes to the client, or to standard error.
 */
import { type Connection, createConnection, LSPErrorCodes } from "vscode-languageserver/node";
import { diskFiles } from "../project";
import { serve } from "./server";

/** A request that is cancelled before its turn is answered without being looked at. */
const connectionStrategy = {
  cancelUndispatched: (request: { readonly id: number | string | null }) => ({
    jsonrpc: "2.0",
    id: request.id,
    error: { code: LSPErrorCodes.RequestCancelled, message: "Cancelled." },
  }),
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
  const connection: Connection = createConnection(process.stdin, process.stdout, {
    connectionStrategy,
  } as never);
  serve(connection, diskFiles());
  connection.listen();
}

main();
