/** What is said when a sheet cannot be printed. For whoever runs the program, not for the sheet: English. */

/** The ways printing can fail, and what each message is told. */
export type PrintFailure =
  | {
      readonly code: "missing-glyph";
      readonly character: string;
      readonly text: string;
      readonly item: string;
    }
  | { readonly code: "bad-picture"; readonly picture: string; readonly item: string; readonly cause: string }
  | { readonly code: "not-typeset"; readonly item: string; readonly cause: string }
  | { readonly code: "no-fonts"; readonly cause: string };

/** The message for a failure to print, with what to do about it. */
export function printError(failure: PrintFailure): string {
  switch (failure.code) {
    case "missing-glyph":
      return `No font has the character “${failure.character}” (${codePoint(failure.character)}), in “${failure.text}”${at(failure.item)}. Write it with other characters.`;
    case "bad-picture":
      return `The picture “${failure.picture}”${at(failure.item)} cannot be read: ${failure.cause}. Give it as a sound PNG, JPEG, GIF, WebP or SVG file.`;
    case "not-typeset":
      return `The sheet could not be set as PDF${at(failure.item)}: ${failure.cause}. Print it to HTML, and report this as a fault of the program.`;
    case "no-fonts":
      return `The PDF printer could not be loaded: ${failure.cause}. Install the packages again (npm ci), or print to HTML.`;
  }
}

function at(item: string): string {
  return item === "" ? "" : `, at ${item}`;
}

/** `U+D55C`, for every code point of the character. */
function codePoint(character: string): string {
  return Array.from(
    character,
    (point) => `U+${(point.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`,
  ).join(" ");
}
