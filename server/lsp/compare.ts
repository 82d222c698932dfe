/**
 * Answers the editor extension's request to compare a project with its last commit: what has changed in meaning, the
 * gravest first, with both places; and a file as it was, to be shown beside. Git is run only when this is asked for.
 */
import { compareRevisions, type Lines, told, type Words } from "../features/compare";
import { createWorkspace, joinPath, SETTINGS_FILE, type Workspace } from "../project";
import { flatSettings } from "../project/flat-settings";
import { gitAt } from "../project/git";
import { answer, document } from "./guard";
import { type Modelled, modelAt } from "./model-at";
import type { ChangePlace, ChangeShown, CompareAnswer, CompareParams, RevisionAnswer } from "./requests";
import type { Session } from "./session";

/** The revision that is compared with. */
const LAST_COMMIT = "HEAD";
const NOT_OURS = "This file belongs to no project of Torquil’s: open the folder it lies in.";

/** Answers `torquil/compare` and `torquil/revision`. */
export function answerCompare(session: Session): void {
  answer(session, "torquil/compare", document, ({ textDocument }: CompareParams): CompareAnswer => {
    const at = modelAt(session, textDocument.uri);
    if (!at) return { kind: "none", message: NOT_OURS };
    const old = lastCommit(at);
    return "problem" in old ? { kind: "none", message: old.problem } : compared(session, at, old);
  });
  answer(session, "torquil/revision", document, ({ textDocument }: CompareParams): RevisionAnswer => {
    const at = session.projects.locate(textDocument.uri);
    if (!at) return { text: null };
    const old = lastCommit(at);
    const read = "problem" in old ? null : old.files.readText(joinPath(at.workspace.root, at.file));
    return { text: read && "text" in read ? read.text : null };
  });
}

function lastCommit({ workspace }: Pick<Modelled, "workspace">) {
  const git = gitAt(workspace.root);
  return "problem" in git ? git : git.revision(LAST_COMMIT);
}

type Commit = Exclude<ReturnType<typeof lastCommit>, { problem: string }>;

function compared({ projects }: Session, { workspace }: Modelled, { commit, files }: Commit): CompareAnswer {
  const before = createWorkspace(files, workspace.root);
  const settings = (of: Workspace, text: string | null) => ({
    project: of.project(),
    settings: { file: SETTINGS_FILE, values: flatSettings(of.settings()), text },
  });
  const settingsFile = joinPath(workspace.root, SETTINGS_FILE);
  const read = files.readText(settingsFile);
  const old = "text" in read ? read.text : null;
  const { changes } = compareRevisions(settings(before, old), settings(workspace, old), {
    lineEnds: "ignore",
  });
  const placed = (place: Lines | null): ChangePlace | null =>
    place && { uri: projects.uriOf(workspace, place.file), line: place.line };
  return {
    kind: "compared",
    commit: commit.slice(0, 9),
    changes: changes.map((change) => {
      const { headline, where, does, touches } = told(change);
      return {
        rank: change.rank,
        headline: plain(headline),
        short: shortOf(headline),
        notes: [...(where ? [where] : []), ...does, ...touches].map(plain),
        before: placed(change.places.before),
        after: placed(change.places.after),
        gap: placed(change.gap),
      };
    }),
  };
}

/** What it is now, before what it was; a headline of another kind as it is. */
function shortOf(headline: Words): ChangeShown["short"] {
  const at = headline.findIndex(({ kind, text }) => kind === "ours" && text === ARROW);
  if (at < 1) return { now: plain(headline), about: "" };
  const [before, after] = [headline.slice(at - 1, at), headline.slice(at + 1)];
  const about = plain(headline.slice(0, at - 1)).replace(/[:,] $/, "");
  return { now: `${plain(after)} ← ${plain(before)}`, about };
}
/** What stands between the old and the new in a headline. */
const ARROW = " → ";

/** What the writer wrote stands in quotes. */
const plain = (words: Words): string =>
  words.map(({ kind, text }) => (kind === "ours" ? text : `“${text}”`)).join("");
