/**
 * The outline of a file: what it declares, one in the other as it stands in the text.
 */
import { constructs } from "../../grammar";
import { type Child, type Entry, namesIn, slotIn } from "../facts";
import type { FileModel, Place } from "../model";

/** One line of the outline. */
export interface OutlineItem {
  /** The title where there is one, else the name. */
  readonly label: string;
  /** The name, where the label is the title. */
  readonly detail: string;
  /** The construct: `step`, `fastener`, `kit`. */
  readonly kind: string;
  /** First and last line of the whole. */
  readonly line: number;
  readonly lastLine: number;
  /** Where its name or title stands. */
  readonly place: Place;
  readonly children: readonly OutlineItem[];
}

/** Constructs that declare nothing and still help to find one's way. */
const LANDMARKS: ReadonlySet<string> = new Set(["kit", "if", "when", "otherwise", "for"]);

/** The outline of a file. */
export function outline(file: FileModel): readonly OutlineItem[] {
  return itemsOf(file.path, file.entries, 0);
}

function itemsOf(file: string, children: readonly Child[], line: number): OutlineItem[] {
  return children.flatMap(({ row, entry }) => {
    const inner = entry.children.length > 0 ? itemsOf(file, entry.children, line + row) : [];
    const shown = constructs.get(entry.construct)?.declares !== undefined || LANDMARKS.has(entry.construct);
    return shown ? [itemOf(file, entry, line + row, inner)] : inner;
  });
}

function itemOf(file: string, entry: Entry, line: number, children: readonly OutlineItem[]): OutlineItem {
  const title = slotIn(entry.form, "title") ?? slotIn(entry.form, "number") ?? slotIn(entry.form, "from");
  const name = namesIn(entry.form, "name")[0];
  const at = name?.at ?? title?.at ?? entry.form.at;
  const label = title?.text || name?.name || formText(entry);
  return {
    label,
    detail: name && name.name !== label ? name.name : "",
    kind: entry.construct,
    line,
    lastLine: line + entry.lineCount - 1,
    place: { file, line: line + at.row, ...at.span },
    children,
  };
}

/** The words of a head that has neither title nor name: `if not met`, `when rattle`. */
function formText({ line, form }: Entry): string {
  return line ? line.text.slice(form.at.span.start, form.at.span.end) : "";
}
