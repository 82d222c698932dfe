/**
 * `npm run new-rule CODE`: writes the files a new rule begins with and says what to do next.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { codeProblem, codesIn, ruleFiles } from "./rule-files";

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

const [code, ...more] = process.argv.slice(2);
if (code === undefined || more.length > 0)
  refuse("Say the code of the new rule, and nothing else: npm run new-rule bolt-too-long");

const registry = readFileSync(at("server/rules/registry.ts"), "utf8");
const fixtures = existsSync(at("tests/rules")) ? readdirSync(at("tests/rules")) : [];
const files = readdirSync(at("server/rules"));
const taken = [
  ...codesIn(registry),
  ...[...files, ...fixtures].map((name) => name.replace(/\.(ts|torquil)$/, "")),
];
const problem = codeProblem(code, taken);
if (problem !== undefined) refuse(problem);

const written = ruleFiles(code, registry);
for (const { path, text } of written) writeFileSync(at(path), text);
console.log(`${written.map((f) => `written  ${f.path}`).join("\n")}

Next: fill in what is marked FILL IN, in the rule and in its fixture; then
  npx vitest run tests/rules     the fixture, the page and the wording
  npm run generate               the catalogue`);

function refuse(message: string): never {
  console.error(message);
  process.exit(2);
}
