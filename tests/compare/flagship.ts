/** The flagship's texts, for comparisons with revisions of them. */
import { readFileSync } from "node:fs";

const read = (name: string): string =>
  readFileSync(new URL(`../../examples/marine-generator/${name}`, import.meta.url), "utf8");

export const PROCEDURE = "belt-service.torquil";
export const MACHINE = "skua-27.torquil";

export const FLAGSHIP: Readonly<Record<string, string>> = {
  [PROCEDURE]: read(PROCEDURE),
  [MACHINE]: read(MACHINE),
};

/** The flagship with a stretch of one file replaced, which must stand there once. */
export function revised(file: string, from: string, to: string, texts = FLAGSHIP): Record<string, string> {
  const parts = (texts[file] ?? "").split(from);
  if (parts.length !== 2) throw new Error(`“${from}” stands ${parts.length - 1} times in ${file}`);
  return { ...texts, [file]: parts.join(to) };
}
