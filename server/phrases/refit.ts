/**
 * What is said of a refit, in English: templates, with `{name}` for what is put in.
 */
export const REFIT_PHRASES = {
  section: "Put back",
  "nothing-then": "Nothing is to be put back then.",
  action: "Write the refit of all that is off",
  nothing: "Nothing is owed there: everything is as it should be.",
  unbalanced: "The braces of the procedure do not balance, so nobody can tell where its lines end.",
  unread: "The refit could not be read in its place.",
  "not-in-sight":
    "“{title}” belongs to a procedure that is followed, and has no name here: put it right there.",
  "not-told-apart":
    "“{title}” is owed on some ways only ({ways}), and no condition or recorded check tells them apart. Name and record the check, or write its refit where it came off.",
  still: "“{title}” is still not right then ({code}).",
  "still-on-some-ways": "“{title}” is still not right then on some ways ({ways}; {code}).",
} as const;

export type RefitPhrase = keyof typeof REFIT_PHRASES;

/** A phrase with its arguments filled in. */
export function refitPhrase(id: RefitPhrase, args: Readonly<Record<string, string>> = {}): string {
  return REFIT_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
