/**
 * Pictures that the writer brought: found by their link, told by their first bytes. One that cannot be read leaves a
 * clear word in its place, so that the fitter knows that something is missing.
 */
import { textIn } from "../facts";
import type { Spot } from "../model";
import { type Build, itemOf, words } from "./build-context";
import { plain } from "./fill";
import type { Figure, Note, PictureType } from "./blocks";

/** The figure at a place of the job, or a note that says what is wrong with it. */
export function figureOf(build: Build, spot: Spot): Figure | Note {
  const path = textIn(spot.entry.form, "path");
  const caption = textIn(spot.entry.form, "caption");
  const link = build.project.files.get(spot.file)?.links.find((one) => one.kind === "figure" && one.place.line === spot.line);
  const bytes = link?.file ? build.pictures(link.file) : undefined;
  const type = bytes && pictureType(bytes);
  if (!bytes || !type) {
    return { kind: "note", ...itemOf(spot), runs: words(build, bytes ? "picture-unknown" : "picture-missing", { path: plain(path) }) };
  }
  return { kind: "figure", ...itemOf(spot), type, bytes: base64(bytes), description: caption || path, ...(caption ? { caption: plain(caption) } : {}) };
}

const MAGIC: readonly (readonly [PictureType, RegExp])[] = [
  ["image/png", /^\x89PNG\r\n\x1a\n/],
  ["image/jpeg", /^\xff\xd8\xff/],
  ["image/gif", /^GIF8[79]a/],
  ["image/webp", /^RIFF[\s\S]{4}WEBP/],
  ["image/svg+xml", /^(?:\xef\xbb\xbf)?\s*(?:<\?xml[\s\S]*?\?>\s*|<!--[\s\S]*?-->\s*|<!DOCTYPE[^>]*>\s*)*<svg[\s>]/i],
];

/** How much of a file is looked at. */
const HEAD = 4096;

/** The kind of a picture by its first bytes. */
export function pictureType(bytes: Uint8Array): PictureType | undefined {
  const head = Array.from(bytes.subarray(0, HEAD), (byte) => String.fromCharCode(byte)).join("");
  return MAGIC.find(([, pattern]) => pattern.test(head))?.[0];
}

function base64(bytes: Uint8Array): string {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}
