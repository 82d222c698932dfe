/** What the editor says of the sheet beside the text and of printing it. For the writer, not for the sheet: English. */

/** What may have to be said, with what it is told. */
export type PreviewSays =
  | { readonly code: "not-ours" }
  | { readonly code: "no-procedure"; readonly file: string; readonly used: boolean }
  | { readonly code: "unread"; readonly line: number; readonly file: string }
  | { readonly code: "errors"; readonly count: number }
  | { readonly code: "refused"; readonly title: string; readonly count: number };

/** The sentence for it. */
export function previewText(said: PreviewSays): string {
  switch (said.code) {
    case "not-ours":
      return "This text is not a file of Torquil that can be read, so there is no sheet of it.";
    case "no-procedure":
      return said.used
        ? `There is no procedure in ${said.file}. These rest on it.`
        : `There is no procedure in ${said.file}, and none uses it. A procedure is what becomes a sheet.`;
    case "unread":
      return `Line ${said.line + 1} of ${said.file} cannot be read yet, so the sheet does not show what is meant there.`;
    case "errors":
      return `${count(said.count, "error")} to put right before this sheet is printed; as a draft it can be printed now.`;
    case "refused":
      return `“${said.title}” is not printed: it has ${count(said.count, "error")}.`;
  }
}

function count(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
