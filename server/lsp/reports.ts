/**
 * What the editor is told of each file: made anew when it is asked for, sent only where it differs from what the
 * editor has.
 */
import type { Diagnostic } from "vscode-languageserver/node";
import { diagnostics } from "../features";
import { fileProblemText, SETTINGS_FILE, type Workspace } from "../project";
import { type Abilities, diagnosticOf, faultOf } from "./convert";
import type { Located, Projects } from "./projects";

/** The diagnostics of one file, under the name that the editor has for it. */
export interface Report {
  readonly uri: string;
  readonly items: readonly Diagnostic[];
}

/** The diagnostics of one file. */
export function reportOf(
  projects: Projects,
  { workspace, file }: Located,
  abilities: Abilities,
): readonly Diagnostic[] {
  const uriOf = (name: string): string => projects.uriOf(workspace, name);
  const found = diagnostics(workspace.check().get(file) ?? []).map((d) => diagnosticOf(d, uriOf, abilities));
  const faults = file === SETTINGS_FILE ? workspace.settingsProblems() : [];
  const unread = workspace.problems().filter((p) => p.file === file);
  return [
    ...found,
    ...faults.map((f) => faultOf(f.line, f.start, f.end, f.message)),
    ...unread.map(({ problem }) => {
      const { line = 0, character = 0 } = problem;
      return faultOf(line, character, character, fileProblemText(problem));
    }),
  ];
}

/** The diagnostics of every file of a project that concerns the editor, those with none as well. */
export function reportsOf(projects: Projects, workspace: Workspace, abilities: Abilities): readonly Report[] {
  const unread = workspace.problems().map((p) => p.file);
  const names = new Set([...workspace.check().keys(), ...unread, SETTINGS_FILE]);
  const shown = [...names].filter((file) => projects.concerns(workspace, file));
  return shown.map((file) => ({
    uri: projects.uriOf(workspace, file),
    items: reportOf(projects, { workspace, file }, abilities),
  }));
}

/** Remembers what the editor has of each file, and under which id. */
export interface Ledger {
  /** The id of a report; the same as before when nothing in it has changed. */
  readonly note: (uri: string, items: readonly Diagnostic[]) => string;
  /** Whether the editor has something else of this file. Of a file it has nothing of, only findings are news. */
  readonly differs: (uri: string, items: readonly Diagnostic[]) => boolean;
  readonly has: (uri: string) => boolean;
  /** The files that the editor has something of. */
  readonly known: () => readonly string[];
  readonly forget: (uri: string) => void;
}

/** An empty ledger. */
export function createLedger(): Ledger {
  const entries = new Map<string, { readonly text: string; readonly id: string }>();
  let last = 0;
  return {
    note: (uri, items) => {
      const text = JSON.stringify(items);
      const known = entries.get(uri);
      if (known?.text === text) return known.id;
      const id = String(++last);
      entries.set(uri, { text, id });
      return id;
    },
    differs: (uri, items) => (entries.get(uri)?.text ?? "[]") !== JSON.stringify(items),
    has: (uri) => entries.has(uri),
    known: () => [...entries.keys()],
    forget: (uri) => void entries.delete(uri),
  };
}
