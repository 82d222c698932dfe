/**
 * `npm run generate`: writes every generated file that is not what it should be.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { GENERATED } from "./generated";

const root = new URL("../../", import.meta.url);

for (const { path, make } of GENERATED) {
  const file = fileURLToPath(new URL(path, root));
  const text = make();
  const fresh = existsSync(file) && readFileSync(file, "utf8") === text;
  if (!fresh) writeFileSync(file, text);
  console.log(`${fresh ? "fresh" : "written"}  ${path}`);
}
