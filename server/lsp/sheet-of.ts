/**
 * From a request to the sheet that it means: which procedure, its sheet, and the errors that it rests on.
 */
import { procedureFor } from "../features";
import type { Procedure } from "../model";
import { errorsBehind } from "../press/errors";
import { type Files, joinPath } from "../project";
import type { Finding } from "../rules";
import type { Sheet } from "../sheet/blocks";
import { buildSheet } from "../sheet/build";
import { type Modelled, modelAt } from "./model-at";
import type { SheetParams } from "./requests";
import type { Session } from "./session";

/** A procedure that was asked for, where its document's project knows one. */
export interface Meant {
  readonly at: Modelled;
  readonly procedure: Procedure | null;
}

/** What a request means; null for a document that is no file of the language. */
export function meantBy(session: Session, { textDocument, position, shown }: SheetParams): Meant | null {
  const at = modelAt(session, textDocument.uri);
  if (!at) return null;
  const before = shown && session.projects.locate(shown.uri);
  const kept =
    before?.workspace === at.workspace ? { file: before.file, procedure: shown?.procedure ?? "" } : null;
  return { at, procedure: procedureFor(at.workspace.project(), at.file, position?.line ?? null, kept) };
}

/** The sheet of a procedure, by its project's settings; pictures are read from the disk. */
export function sheetOf({ at }: Meant, procedure: Procedure, files: Files, draft: boolean): Sheet {
  const { workspace } = at;
  const { language, paper, units } = workspace.settings();
  return buildSheet(workspace.project(), procedure, {
    language,
    paper,
    units,
    draft,
    pictures: (file) => {
      const read = files.readBytes(joinPath(workspace.root, file));
      return "bytes" in read ? read.bytes : undefined;
    },
  });
}

/** The errors that a procedure's sheet rests on. */
export function errorsOf({ at: { workspace } }: Meant, { thing }: Procedure): readonly Finding[] {
  return errorsBehind(thing.file, workspace.project().files, workspace.check());
}
