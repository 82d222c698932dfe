/**
 * The version of this program, from its package.json: beside the bundle's folder, or at the root of the sources.
 */
import { readFileSync } from "node:fs";

/** The version, such as `0.1.0`; "unknown" where package.json is not in its place. */
export function version(): string {
  for (const place of ["../package.json", "../../package.json"]) {
    try {
      const found = JSON.parse(readFileSync(new URL(place, import.meta.url), "utf8"));
      if (found.name === "torquil") return String(found.version);
    } catch {
      // It is the other place.
    }
  }
  return "unknown";
}
