/**
 * What the editor says of paths and of what it writes between the words, in English: templates, with `{name}` for what
 * is put in.
 */
export const LINK_PHRASES = {
  use: "Open {file}",
  figure: "Show the picture {file}",
  "other-unit": "The same in the other unit, as exact as it is written.",
  number: "Its number on the sheet of “{procedure}”.",
} as const;

/** A phrase with its arguments filled in. */
export function linkPhrase(
  id: keyof typeof LINK_PHRASES,
  args: Readonly<Record<string, string>> = {},
): string {
  return LINK_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
