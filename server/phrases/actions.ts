/**
 * What the editor calls the repairs it offers, in English: templates, with `{name}` for what is put in.
 */
export const ACTION_PHRASES = {
  allow: "Allow {code} on this line, with a reason",
  "allow-reason": "write here why this is right",
  "not-formatted": "The braces here do not balance, so the text is left as it is.",
  declare: "Declare {construct} {name} in the {kind} “{block}”",
  "declare-wrench": "Declare {name} ({range}) and tighten with it",
  move: "Move {construct} {name} to the machine",
  "move-no-machine": "It is not known which machine the procedure is for.",
  "move-unread": "A line in it cannot be read.",
  "move-depends": "It names what only this procedure knows: {names}.",
  "move-unbalanced": "The braces in {file}, or here, do not balance.",
  "move-taken": "“{name}” is declared in {file}, line {line}, too: in the machine both would have one name.",
  "move-lost": "In {file} nobody would know any more what “{name}” is.",
  "text-changed": "The text has changed since this was offered, and it does not fit any more.",
  "fix-all": "Make all safe repairs in this file",
} as const;

/** A phrase with its arguments filled in. */
export function actionPhrase(
  id: keyof typeof ACTION_PHRASES,
  args: Readonly<Record<string, string>> = {},
): string {
  return ACTION_PHRASES[id].replace(/\{([\w-]+)\}/g, (whole, name: string) => args[name] ?? whole);
}
