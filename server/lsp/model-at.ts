/**
 * From a document's address to what is known of it.
 */
import type { FileModel } from "../model";
import type { Located } from "./projects";
import type { Session } from "./session";

/** A document's place, with its model. */
export interface Modelled extends Located {
  readonly model: FileModel;
}

/** The model of a document, open or not; null for one that belongs to no project or is no file of the language. */
export function modelAt({ projects }: Session, uri: string): Modelled | null {
  const located = projects.locate(uri);
  const model = located?.workspace.project().files.get(located.file);
  return located && model ? { ...located, model } : null;
}
