import { writeFileSync } from "node:fs";
import { it } from "vitest";
import { FLAGSHIP } from "./flagship";
import { REVISIONS } from "./revisions";
import { saidBetween } from "./said";

it("shows", () => {
  const rows = Object.entries(REVISIONS).map(([name, texts]) => [name, saidBetween(FLAGSHIP, texts)]);
  const head = `/** What is said of each revision of the flagship: rank, headline, where it lies, what it does, whom it touches. Nothing else. */\n`;
  writeFileSync(
    new URL("./meant.ts", import.meta.url),
    `${head}export const MEANT: Readonly<Record<string, readonly string[]>> = ${JSON.stringify(Object.fromEntries(rows), null, 2)};\n`,
  );
});
