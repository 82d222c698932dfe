/** Judges the checker: `npm run judge`, or `npm run judge -- 20 7` for so many changes of each kind and another seed. */
import { judge } from "./judge";
import { printed, shortcomings } from "./print";
import { sourcesFrom } from "./sources";

const FEWEST = 50;
const GENERATED = 250;

const each = Number(process.argv[2] ?? 70);
const seed = Number(process.argv[3] ?? 20_260_417);
if (!Number.isInteger(each) || each < 1 || !Number.isInteger(seed)) {
  process.stderr.write("Usage: npm run judge -- [changes of each kind] [seed]\n");
  process.exit(2);
}
const sources = sourcesFrom(process.cwd(), GENERATED, seed);
const judgement = judge(sources, each, seed);
process.stdout.write(`${printed(judgement, sources, Math.min(each, FEWEST)).join("\n")}\n`);
process.exitCode = shortcomings(judgement, Math.min(each, FEWEST)).length > 0 ? 1 : 0;
