/**
 * A project as it would be after some edits, to see what they would change before anybody makes them.
 */
import { applyEdits, type Document } from "../../grammar";
import { buildProject, type Project, type Resolve } from "../model";
import type { TextEdit } from "../rules";

/** Edits in an order in which none moves the next: from the end of the text. */
export function fromBehind(edits: readonly TextEdit[]): readonly TextEdit[] {
  return [...edits].sort((a, b) => b.start.line - a.start.line || b.start.character - a.start.character);
}

/** A document after the edits that are for its file; they do not overlap and count from the text as it stands. */
export function editedDocument(document: Document, file: string, edits: readonly TextEdit[]): Document {
  const own = edits.filter((edit) => edit.file === file);
  return own.length === 0 ? document : applyEdits(document, fromBehind(own));
}

/** The project after some edits; paths lead where they led before. */
export function tried(project: Project, edits: readonly TextEdit[]): Project {
  const documents = new Map<string, Document>();
  const leads = new Map<string, ReturnType<Resolve>>();
  for (const [path, { document, links }] of project.files) {
    documents.set(path, editedDocument(document, path, edits));
    for (const { path: to, file, problem } of links) {
      const lost = problem === "outside" || problem === "unreadable" ? problem : "missing";
      leads.set(`${path}\0${to}`, file === null ? { problem: lost } : { file });
    }
  }
  const resolve: Resolve = (from, to) => leads.get(`${from}\0${to}`) ?? { problem: "missing" };
  return buildProject(documents, resolve, project);
}
