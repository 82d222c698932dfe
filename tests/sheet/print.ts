/** Prints the fixture both ways and tells the digests: bundled and run apart by `places.test.ts`. */
import { createHash } from "node:crypto";
import { loadTypesetter } from "../../server/project/fonts";
import { renderHtml } from "../../server/sheet/html";
import { renderPdf } from "../../server/sheet/pdf";
import { BELT_SHEET } from "./fixture";

const loaded = loadTypesetter();
const result =
  "error" in loaded ? { error: { message: loaded.error } } : renderPdf(BELT_SHEET, loaded.typesetter);
const digest = (content: string | Uint8Array) => createHash("sha256").update(content).digest("hex");
console.log("error" in result ? result.error.message : digest(result.pdf), digest(renderHtml(BELT_SHEET)));
