/**
 * Pictures that the writer brought: found by their link, told by their first bytes. One that cannot be read leaves a
 * clear word in its place, so that the fitter knows that something is missing.
 */
import { textIn } from "../facts";
import type { Spot } from "../model";
import type { Figure, Note, PictureType } from "./blocks";
import { type Build, itemOf, words } from "./build-context";
import { plain } from "./fill";

/** The figure at a place of the job, or a note that says what is wrong with it. */
export function figureOf(build: Build, spot: Spot): Figure | Note {
  const path = textIn(spot.entry.form, "path");
  const caption = textIn(spot.entry.form, "caption");
  const link = build.project.files
    .get(spot.file)
    ?.links.find((one) => one.kind === "figure" && one.place.line === spot.line);
  const bytes = link?.file ? build.pictures(link.file) : undefined;
  const type = bytes && pictureType(bytes);
  if (!bytes || !type) {
    return {
      kind: "note",
      ...itemOf(spot),
      runs: words(build, bytes ? "picture-unknown" : "picture-missing", { path: plain(path) }),
    };
  }
  return {
    kind: "figure",
    ...itemOf(spot),
    type,
    bytes: base64(bytes),
    description: caption || path,
    ...(caption ? { caption: plain(caption) } : {}),
  };
}

/** The first bytes of each kind, as hexadecimal. */
const MAGIC: readonly (readonly [PictureType, RegExp])[] = [
  ["image/png", /^89504e470d0a1a0a/],
  ["image/jpeg", /^ffd8ff/],
  ["image/gif", /^4749463837|^4749463839/],
  ["image/webp", /^52494646.{8}57454250/],
];
/** An SVG is text: an XML head, comments, a document type, then its first element. */
const SVG = /^\ufeff?\s*(?:<\?xml[\s\S]*?\?>\s*|<!--[\s\S]*?-->\s*|<!DOCTYPE[^>]*>\s*)*<svg[\s>]/i;

/** How much of a file is looked at. */
const HEAD = 4096;

/** The kind of a picture by its first bytes. */
export function pictureType(bytes: Uint8Array): PictureType | undefined {
  const head = bytes.subarray(0, HEAD);
  const start = Array.from(head.subarray(0, 16), (byte) => byte.toString(16).padStart(2, "0")).join("");
  const found = MAGIC.find(([, pattern]) => pattern.test(start))?.[0];
  return found ?? (SVG.test(new TextDecoder().decode(head)) ? "image/svg+xml" : undefined);
}

function base64(bytes: Uint8Array): string {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}
