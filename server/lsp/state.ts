/**
 * Answers the editor extension's request for how everything stands at a place: what is off, loose, open, held, where shafts
 * stand, what is owed, over all ways that come there.
 */
import {
  type CancellationToken,
  type Location,
  LSPErrorCodes,
  ResponseError,
} from "vscode-languageserver/node";
import { atLine, linesOf, type StateTold, tellState } from "../features";
import type { Place, Procedure } from "../model";
import { statePhrase as say } from "../phrases/state";
import { pageByCode } from "../rules";
import { locationOf } from "./convert";
import { answer, position } from "./guard";
import { type Modelled, modelAt } from "./model-at";
import type { NoState, StateAnswer, StateParams, StateShown } from "./requests";
import type { Session } from "./session";
import { errorsOf } from "./sheet-of";

/** Answers `torquil/state`. */
export function answerState(session: Session): void {
  const handler = async (
    { textDocument, position: { line } }: StateParams,
    token: CancellationToken,
  ): Promise<StateAnswer | ResponseError<void>> => {
    // A cursor that moves on takes back what was asked before: that is heard first.
    await new Promise((done) => setImmediate(done));
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
    const at = modelAt(session, textDocument.uri);
    const procedure = at?.model.procedures.find((one) => {
      const { first, last } = linesOf(one);
      return first <= line && line <= last;
    });
    if (!at || !procedure) return null;
    const placed = (place: Place): Location =>
      locationOf(place, (file) => session.projects.uriOf(at.workspace, file));
    if (procedure.doubtful) return notFollowed(at, procedure, placed);
    const step = atLine(procedure, line);
    return step && shownState(tellState(procedure, step.point, step.at), placed);
  };
  answer(session, "torquil/state", position, handler);
}

type Placed = (place: Place) => Location;

/** A state with its places as the protocol has them. */
export function shownState(told: StateTold, placed: Placed): StateShown {
  const since = <T extends { readonly since: Place | null }>(stand: T) => ({
    ...stand,
    since: stand.since && placed(stand.since),
  });
  return {
    kind: "state",
    ...told,
    groups: told.groups.map((group) => ({
      ...group,
      things: group.things.map((thing) => ({
        ...thing,
        place: placed(thing.place),
        stands: thing.stands.map(since),
      })),
    })),
    turning: told.turning.map(since),
  };
}

/** Errors of these groups may hide what a line says; what others tell of has been understood. */
const NOT_READ: ReadonlySet<string> = new Set(["names and shape", "quantities"]);

/** The first error that the procedure rests on is where to begin. */
function notFollowed(at: Modelled, procedure: Procedure, placed: Placed): NoState {
  const { title, name } = procedure.thing;
  const first = errorsOf({ at, procedure }, procedure).find(({ code }) =>
    NOT_READ.has(pageByCode(code)?.group ?? ""),
  );
  const words = { title: title || name };
  if (!first) return { kind: "none", message: say("not-followed", words), place: null };
  const { line, file } = first.place;
  const message = say("not-followed-yet", { ...words, line: String(line + 1), file });
  return { kind: "none", message, place: placed(first.place) };
}
