/**
 * Spellings of units: one form for the many code points a keyboard or a word processor gives for the same
 * sign, and the forms in which the trade writes a product of two units.
 */

/**
 * A spelling in one form: NFC; every multiplying dot, star or hyphen between letters as U+00B7; U+00B5 for
 * micro; `°` for its look-alikes; `²` and `³` for a trailing 2 and 3; runs of any spaces as one space.
 * Upper and lower case stay, for `mN` is not `MN`.
 */
export function normaliseSpelling(text: string): string {
  return text
    .normalize("NFC")
    .replace(/[\s\u00a0\u2007\u2009\u202f]+/g, " ")
    .trim()
    .replace(/\u03bc/g, "\u00b5")
    .replace(/[\u00ba\u02da]/g, "°")
    .replace(/\u2103/g, "°C")
    .replace(/\u2109/g, "°F")
    .replace(/(?<=\p{L}) ?[\u00b7\u22c5\u2219\u2022\u2027.*\u00d7\u2010\u2011-] ?(?=\p{L})/gu, "\u00b7")
    .replace(/(?<=(?:^|[^\p{L}])[µcmk]?m|in|ft)\^?2(?![\p{L}\d])/gu, "²")
    .replace(/(?<=(?:^|[^\p{L}])[dcm]?m|in|ft)\^?3(?![\p{L}\d])/gu, "³");
}

/** Every way to write first·second: with a dot, run together, with a space; for each pair of names. */
export function product(firsts: readonly string[], seconds: readonly string[]): readonly string[] {
  return firsts.flatMap((first) =>
    seconds.flatMap((second) => [`${first}·${second}`, `${first}${second}`, `${first} ${second}`]),
  );
}

/** As `product`, in either order: `lb·ft` and `ft·lb`. Only for names whose order changes no meaning. */
export function eitherOrder(firsts: readonly string[], seconds: readonly string[]): readonly string[] {
  return [...product(firsts, seconds), ...product(seconds, firsts)];
}
