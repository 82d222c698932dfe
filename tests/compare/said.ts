/** What is said of the changes between two projects, a line a change. */
import { compareRevisions, told, type Words } from "../../server/features/compare";
import { projectOf } from "../support/project";

type Texts = Readonly<Record<string, string>>;

const flat = (words: Words): string =>
  words.map(({ kind, text }) => (kind === "ours" ? text : `“${text}”`)).join("");

/** Rank, headline, and what stands under it, with bars between. */
export function saidBetween(before: Texts, after: Texts): string[] {
  const side = (texts: Texts) => ({ project: projectOf(texts), settings: null });
  return compareRevisions(side(before), side(after)).changes.map((change) => {
    const { headline, where, does, touches } = told(change);
    const parts = [headline, ...(where ? [where] : []), ...does, ...touches].map(flat);
    return `${change.rank}: ${parts.join(" | ")}`;
  });
}
