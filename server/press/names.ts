/**
 * What printed files are called: by the document number, else by the procedure's name.
 */

/** What a file's name is made from. */
export interface Titled {
  /** The document number; empty where there is none. */
  readonly document: string;
  /** The procedure's name. */
  readonly name: string;
  /** The path of the file it stands in. */
  readonly file?: string;
}

/**
 * A name for each, without its ending: all different, also where capitals do not count. Those with the same document
 * number get the procedure's name behind it, and where that is the same too, the path of their file; what is then still the
 * same has no name and is null.
 *
 * @param taken names that none may have
 */
export function outputNames(titled: readonly Titled[], taken: readonly string[] = []): (string | null)[] {
  const short = titled.map(({ document, name }) => safeName(document) || safeName(name) || "procedure");
  const long = longer(
    short,
    taken,
    ({ document, name }) => (safeName(document) ? safeName(name) : ""),
    titled,
  );
  const longest = longer(long, taken, ({ file = "" }) => safeName(file.replace(/\.torquil$/, "")), titled);
  return longest.map((name, i) => (isAlone([...longest, ...taken], i) ? name : null));
}

/** The names, with something more behind those that are not alone. */
function longer(
  names: readonly string[],
  taken: readonly string[],
  more: (titled: Titled) => string,
  titled: readonly Titled[],
): string[] {
  const all = [...names, ...taken];
  return titled.map((one, i) => {
    const name = names[i] ?? "";
    return isAlone(all, i) || more(one) === "" ? name : `${name}-${more(one)}`;
  });
}

/** A text as the name of a file that every system takes: letters, digits, dots, hyphens and low lines. */
function safeName(text: string): string {
  const plain = text.normalize("NFC").replace(/[^\p{L}\p{M}\p{N}._-]+/gu, "-");
  const name = Array.from(plain)
    .slice(0, 80)
    .join("")
    .replace(/^[-.]+|[-.]+$/g, "");
  // These are devices on Windows, whatever their ending.
  return /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(name) ? `_${name}` : name;
}

function isAlone(names: readonly string[], at: number): boolean {
  const own = names[at]?.toLowerCase();
  return names.every((name, i) => i === at || name.toLowerCase() !== own);
}
