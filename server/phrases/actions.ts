/**
 * What the editor calls the repairs it offers, in English: templates, with `{name}` for what is put in.
 */
export const ACTION_PHRASES = {
  allow: "Allow {code} on this line, with a reason",
  "allow-reason": "write here why this is right",
  "not-formatted": "The braces here do not balance, so the text is left as it is.",
  "fix-all": "Make all safe repairs in this file",
} as const;

/** A phrase with its arguments filled in. */
export function actionPhrase(
  id: keyof typeof ACTION_PHRASES,
  args: Readonly<Record<string, string>> = {},
): string {
  return ACTION_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
