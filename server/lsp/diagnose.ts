/**
 * Diagnostics, sent to a client after each change or handed out when it asks for them.
 */
import {
  type CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  LSPErrorCodes,
  ResponseError,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver/node";
import { answer, document, previousIds, report } from "./guard";
import { createLedger, type Ledger, reportOf, reportsOf } from "./reports";
import type { Session } from "./session";
import { settling } from "./settle";

/** Answers requests for diagnostics, and gives a function to call after each change: of a document, or of anything. */
export function diagnosing(session: Session): (uri?: string) => void {
  const ledger = createLedger();
  const changed = new Set<string>();
  answerDocument(session, ledger);
  answerWorkspace(session, ledger);
  const settle = settling(() => {
    const asking = new Set(changed);
    changed.clear();
    if (session.life.shutDown) return;
    try {
      if (session.client.pulls) askAgain(session, ledger, asking);
      else send(session, ledger);
    } catch (error) {
      report(session.connection, "diagnostics", error);
    }
  });
  return (uri) => {
    if (uri !== undefined) changed.add(uri);
    settle();
  };
}

/** Sends what has changed; of a file that is gone, that there is nothing more. */
function send({ connection, projects, client }: Session, ledger: Ledger): void {
  const told = new Set<string>();
  const tell = (uri: string, items: readonly Diagnostic[]): void => {
    told.add(uri);
    const open = projects.opened(uri);
    // An open document is told of once even when there is nothing: then its editor knows that it was looked at.
    if (!ledger.differs(uri, items) && (ledger.has(uri) || !open)) return;
    ledger.note(uri, items);
    void connection.sendDiagnostics({
      uri,
      diagnostics: [...items],
      ...(open ? { version: open.version } : {}),
    });
  };
  for (const workspace of projects.inUse()) {
    for (const { uri, items } of reportsOf(projects, workspace, client)) tell(uri, items);
  }
  for (const uri of ledger.known()) {
    if (told.has(uri)) continue;
    tell(uri, []);
    ledger.forget(uri);
  }
}

/** The client asks of itself for the documents that it changed; of others that have changed by that it must be told. */
function askAgain(
  { connection, projects, client }: Session,
  ledger: Ledger,
  asking: ReadonlySet<string>,
): void {
  if (!client.refreshes) return;
  const stale = ledger.known().some((uri) => {
    if (asking.has(uri)) return false;
    const located = projects.locate(uri);
    return ledger.differs(uri, located ? reportOf(projects, located, client) : []);
  });
  if (!stale) return;
  connection.languages.diagnostics.refresh().catch((error: unknown) => report(connection, "refresh", error));
}

function answerDocument(session: Session, ledger: Ledger): void {
  const handler = ({
    textDocument,
    previousResultId,
  }: DocumentDiagnosticParams): DocumentDiagnosticReport => {
    const { projects, client } = session;
    const located = projects.locate(textDocument.uri);
    const items = located ? reportOf(projects, located, client) : [];
    const resultId = ledger.note(textDocument.uri, items);
    if (previousResultId === resultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    return { kind: DocumentDiagnosticReportKind.Full, resultId, items: [...items] };
  };
  answer(session, "textDocument/diagnostic", document, handler);
}

type WorkspaceAnswer = WorkspaceDiagnosticReport | ResponseError<void>;

function answerWorkspace(session: Session, ledger: Ledger): void {
  const handler = async (
    params: WorkspaceDiagnosticParams,
    token: CancellationToken,
  ): Promise<WorkspaceAnswer> => {
    const { projects, client } = session;
    const before = new Map(params.previousResultIds.map(({ uri, value }) => [uri, value]));
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    for (const workspace of projects.all()) {
      // A project at a time, so that a cancellation is heard.
      await new Promise((done) => setImmediate(done));
      if (token.isCancellationRequested)
        return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
      for (const one of reportsOf(projects, workspace, client))
        items.push(wholeReport(session, ledger, before, one.uri, one.items));
    }
    const told = new Set(items.map((item) => item.uri));
    const gone = [...before.keys()].filter((uri) => !told.has(uri));
    return { items: [...items, ...gone.map((uri) => wholeReport(session, ledger, before, uri, []))] };
  };
  answer(session, "workspace/diagnostic", previousIds, handler);
}

function wholeReport(
  { projects }: Session,
  ledger: Ledger,
  before: ReadonlyMap<string, string>,
  uri: string,
  items: readonly Diagnostic[],
): WorkspaceDocumentDiagnosticReport {
  const version = projects.opened(uri)?.version ?? null;
  const resultId = ledger.note(uri, items);
  if (before.get(uri) === resultId)
    return { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId };
  return { kind: DocumentDiagnosticReportKind.Full, uri, version, resultId, items: [...items] };
}
