/**
 * The paths of a file, and where each leads: `use`, `follow … from`, pictures.
 */
import type { FileModel, Place } from "../model";
import { linkPhrase as say } from "../phrases/links";

/** A path that can be followed. */
export interface PathLink {
  /** The path without its quotes. */
  readonly place: Place;
  /** The file it leads to, as the project calls it. */
  readonly file: string;
  readonly tooltip: string;
}

/** The paths of a file that lead somewhere, in the order of its text; one that does not has its own finding. */
export function pathLinks(file: FileModel): readonly PathLink[] {
  return file.links
    .flatMap(({ file: to, place, kind }) => {
      if (to === null) return [];
      const tooltip = say(kind, { file: to });
      return [{ place: withoutQuotes(file, place), file: to, tooltip }];
    })
    .sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
}

function withoutQuotes(file: FileModel, place: Place): Place {
  const text = file.document.lines[place.line]?.text ?? "";
  const quoted = text[place.start] === '"' && text[place.end - 1] === '"' && place.end - place.start > 2;
  return quoted ? { ...place, start: place.start + 1, end: place.end - 1 } : place;
}
