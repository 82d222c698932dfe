/**
 * Why a name is not changed, in English: templates, with `{name}` for what is put in.
 */
export const RENAME_PHRASES = {
  "no-name": "There is no name here to change.",
  word: "“{name}” is a word of the language here, not a name of yours.",
  file: "This is a path. Move the file, then write the new path here.",
  title: "This has a title and no name: change the title as text.",
  unknown: "Nothing in sight has the name “{name}”, so nobody can tell what else would have to change.",
  outside: "“{name}” may come from {file}, which lies outside the project and is not changed from here.",
  "not-a-name":
    "“{name}” is no name. A name begins with a letter and goes on with letters and digits, joined by hyphens.",
  "the-same": "That is its name already.",
  taken: "“{name}” is taken: {is} “{title}” has it already ({file}, line {line}).",
  "outcome-taken": "“{name}” is an outcome of this check already, or a word for one.",
  "hazard-taken": "“{name}” is a hazard of the language's own.",
  mistaken: "In {file}, line {line}, “{name}” would then mean {is} “{title}”.",
  unreadable: "In {file}, line {line}, “{name}” cannot stand as a name: the line could not be read any more.",
  changes: "In {file}, line {line} would no longer mean the same.",
} as const;

export type RenamePhrase = keyof typeof RENAME_PHRASES;

/** A phrase with its arguments filled in. */
export function renamePhrase(id: RenamePhrase, args: Readonly<Record<string, string>> = {}): string {
  return RENAME_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
