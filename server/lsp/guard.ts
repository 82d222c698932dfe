/**
 * Stands between the connection and the handlers: nothing that a client sends, and no fault of a handler, ends the
 * server. Parameters are looked at before a handler sees them.
 */
import {
  type CancellationToken,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver/node";

/** The connection, and where it stands in its life. */
interface Guarded {
  readonly connection: Connection;
  readonly life: Life;
}

/** How far the connection has come. */
export interface Life {
  initialized: boolean;
  shutDown: boolean;
}

/** Tells what is wrong with parameters; null when they will do. */
export type Look = (params: unknown) => string | null;

/** Answers a request. */
export function answer<P, R>(
  { connection, life }: Guarded,
  method: string,
  look: Look,
  handler: (params: P, token: CancellationToken) => R | Promise<R>,
): void {
  connection.onRequest(method, async (...given: unknown[]) => {
    const token = given.at(-1) as CancellationToken;
    if (!life.initialized)
      return new ResponseError(ErrorCodes.ServerNotInitialized, "Send initialize first.");
    if (life.shutDown)
      return new ResponseError(ErrorCodes.InvalidRequest, "The server was told to shut down.");
    const params = given.length === 2 ? given[0] : undefined;
    const wrong = look(params);
    if (wrong) return new ResponseError(ErrorCodes.InvalidParams, `${method}: ${wrong}`);
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
    try {
      return await handler(params as P, token);
    } catch (error) {
      report(connection, method, error);
      return new ResponseError(ErrorCodes.InternalError, `${method} failed: ${messageOf(error)}`);
    }
  });
}

/** Takes a notification; one that is wrong, or comes too early, is written to the log and left alone. */
export function take<P>(
  { connection, life }: Guarded,
  method: string,
  look: Look,
  handler: (params: P) => void,
): void {
  connection.onNotification(method, (...given: unknown[]) => {
    if (!life.initialized || life.shutDown) return;
    const params = given.length === 1 ? given[0] : undefined;
    const wrong = look(params);
    if (wrong) {
      connection.console.warn(`${method} was left alone: ${wrong}`);
      return;
    }
    try {
      handler(params as P);
    } catch (error) {
      report(connection, method, error);
    }
  });
}

/** Writes a fault of the server to the log, with where it arose. */
export function report(connection: Connection, what: string, error: unknown): void {
  connection.console.error(
    `${what} failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
  );
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null;
const isCount = (value: unknown): boolean =>
  typeof value === "number" && Number.isInteger(value) && value >= 0;
const isPosition = (value: unknown): boolean =>
  isObject(value) && isCount(value.line) && isCount(value.character);
const isRange = (value: unknown): boolean =>
  isObject(value) && isPosition(value.start) && isPosition(value.end);
const documentUri = (params: unknown): unknown =>
  isObject(params) && isObject(params.textDocument) ? params.textDocument.uri : undefined;

/** A document must be named. */
export const document: Look = (params) =>
  typeof documentUri(params) === "string" ? null : "textDocument.uri must be a string.";

/** A document and a position in it. */
export const position: Look = (params) =>
  document(params) ??
  (isObject(params) && isPosition(params.position)
    ? null
    : "position must have line and character, whole numbers from 0.");

/** A document and a range in it. */
export const range: Look = (params) =>
  document(params) ?? (isObject(params) && isRange(params.range) ? null : "range must have start and end.");

/** A document and positions in it. */
export const positions: Look = (params) => {
  const list = isObject(params) ? params.positions : undefined;
  const fits = Array.isArray(list) && list.every(isPosition);
  return document(params) ?? (fits ? null : "positions must be a list, each with line and character.");
};

/** A name to be given to what stands at a position. */
export const newName: Look = (params) =>
  position(params) ??
  (isObject(params) && typeof params.newName === "string" ? null : "newName must be a string.");

/** What is looked for. */
export const query: Look = (params) =>
  isObject(params) && typeof params.query === "string" ? null : "query must be a string.";

/** Parameters that are read with care where they are used. */
export const anything: Look = () => null;

/** A document with its text. */
export const openedDocument: Look = (params) => {
  const given = isObject(params) ? params.textDocument : undefined;
  return (
    document(params) ??
    (isObject(given) && typeof given.text === "string" ? null : "textDocument.text must be a string.")
  );
};

/** A document with the changes to it. */
export const changes: Look = (params) => {
  const list = isObject(params) ? params.contentChanges : undefined;
  const fits =
    Array.isArray(list) &&
    list.every(
      (c) => isObject(c) && typeof c.text === "string" && (c.range === undefined || isRange(c.range)),
    );
  return (
    document(params) ?? (fits ? null : "contentChanges must be a list of texts, each with its range or none.")
  );
};

/** What the client has of each file already. */
export const previousIds: Look = (params) => {
  const list = isObject(params) ? params.previousResultIds : undefined;
  const fits =
    Array.isArray(list) &&
    list.every((p) => isObject(p) && typeof p.uri === "string" && typeof p.value === "string");
  return fits ? null : "previousResultIds must be a list, each with uri and value.";
};

/** Changes on the disk. */
export const diskChanges: Look = (params) => {
  const list = isObject(params) ? params.changes : undefined;
  const fits =
    Array.isArray(list) && list.every((c) => isObject(c) && typeof c.uri === "string" && isCount(c.type));
  return fits ? null : "changes must be a list, each with uri and type.";
};

/** Folders added to the editor and taken from it. */
export const folderChanges: Look = (params) => {
  const event = isObject(params) ? params.event : undefined;
  const isList = (list: unknown): boolean =>
    Array.isArray(list) && list.every((f) => isObject(f) && typeof f.uri === "string");
  return isObject(event) && isList(event.added) && isList(event.removed)
    ? null
    : "event must have added and removed folders.";
};
