/** Makes the refit of a procedure, and says what is found before and after it. */
import { documentText, formatDocument } from "../../grammar";
import { refit } from "../../server/features";
import { editedDocument, tried } from "../../server/features/trial";
import { checkProject, type Finding } from "../../server/rules";
import { findUnit } from "../../server/units/lookup";
import { projectOf } from "../support/project";

/** Codes that say that something is owed at the end, or taken for done. */
const OWED: ReadonlySet<string> = new Set([
  "part-left-off",
  "finger-tight-left",
  "connection-left-open",
  "not-refilled",
  "support-left",
  "left-running",
  "temporary-left-in",
  "tightened-before-fitted",
]);

export interface Refitted {
  readonly text: string;
  /** Only what was added. */
  readonly added: string;
  readonly problems: readonly string[];
  /** What is owed before, and what is wrong after: still owed, or not found before; as `code: line`. */
  readonly owed: readonly string[];
  readonly wrong: readonly string[];
  /** Whether it is in its usual form, as it was before. */
  readonly usual: boolean;
}

/** The refit of the first procedure of a file. Throws where it cannot be followed. */
export function refitted(texts: Readonly<Record<string, string>>, path: string): Refitted {
  const project = projectOf(texts);
  const file = project.files.get(path);
  const procedure = file?.procedures[0];
  if (!file || !procedure || procedure.doubtful) throw new Error(`${path} cannot be followed`);
  const { edits, problems } = refit(project, procedure);
  const document = editedDocument(file.document, path, edits);
  const before = [...checkProject(project).values()].flat();
  const after = [...checkProject(tried(project, edits)).values()].flat();
  const isUsual = (d: typeof document): boolean => formatDocument(d, findUnit) === documentText(d);
  const said = (f: Finding): string =>
    `${f.code}: ${(f.place.file === path ? document : project.files.get(f.place.file)?.document)?.lines[f.place.line]?.text.trim()}`;
  return {
    text: documentText(document),
    added: edits.map(({ text }) => text).join("\n"),
    problems,
    owed: before.filter(isOwed).map((f) => f.code),
    wrong: [...after.filter(isOwed), ...fresh(before, after)].map(said),
    usual: !isUsual(file.document) || isUsual(document),
  };
}

/** What is tightened while its part is off is in the wrong order, and nothing that is owed. */
const isOwed = ({ code, message }: Finding): boolean => OWED.has(code) && message.id !== "part";

/** Findings of a code and about things that were found less often before. */
function fresh(before: readonly Finding[], after: readonly Finding[]): readonly Finding[] {
  const keyOf = (f: Finding): string => `${f.code} ${JSON.stringify(f.message.args)}`;
  const left = new Map<string, number>();
  for (const f of before) left.set(keyOf(f), (left.get(keyOf(f)) ?? 0) + 1);
  return after.filter((f) => {
    const count = left.get(keyOf(f)) ?? 0;
    left.set(keyOf(f), count - 1);
    return count <= 0 && !isOwed(f);
  });
}
