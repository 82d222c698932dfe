/**
 * The editor's settings: asked of the client where it can be asked, else taken as it sends them.
 */
import {
  type Connection,
  DidChangeConfigurationNotification,
  type DidChangeConfigurationParams,
} from "vscode-languageserver/node";
import { anything, report, take } from "./guard";
import { type Preferences, readPreferences, SECTION } from "./preferences";
import type { Session } from "./session";

/** Takes in settings when they change. */
export function takingPreferences(session: Session): void {
  const changed = (params: DidChangeConfigurationParams | null): void => {
    if (session.client.configures) void askPreferences(session);
    else adopt(session, readPreferences(params?.settings));
  };
  take(session, "workspace/didChangeConfiguration", anything, changed);
}

/** Asks the client for its settings, and to be told when they change, as far as it can. */
export async function askPreferences(session: Session): Promise<void> {
  const { connection, client } = session;
  if (!client.configures) return;
  try {
    const answers: unknown = await connection.sendRequest("workspace/configuration", {
      items: [{ section: SECTION }],
    });
    adopt(session, readPreferences(Array.isArray(answers) ? answers[0] : undefined));
  } catch (error) {
    report(connection, "workspace/configuration", error);
  }
}

/** Asks to be told when settings change. */
export function watchPreferences({ connection, client }: Session): void {
  if (!client.registersConfiguration) return;
  connection.client
    .register(DidChangeConfigurationNotification.type, { section: SECTION })
    .catch((error: unknown) => report(connection, "client/registerCapability", error));
}

function adopt(session: Session, preferences: Preferences): void {
  const differ = JSON.stringify(preferences) !== JSON.stringify(session.preferences);
  session.preferences = preferences;
  if (differ && session.client.refreshesHints) refreshHints(session.connection);
}

function refreshHints(connection: Connection): void {
  connection.languages.inlayHint.refresh().catch((error: unknown) => report(connection, "refresh", error));
}
