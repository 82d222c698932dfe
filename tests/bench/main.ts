/**
 * The benchmark, `npm run bench`. It is bundled like the product before it runs, so that what is timed is what is used.
 *
 * `npm run bench -- 1000 10000` names the numbers of steps of the comparison; `npm run bench -- follow` only follows.
 */
import { runBundled } from "../support/bundled";

const args = process.argv.slice(2);
const followed = await runBundled("tests/bench/follow.ts", []);
const compared = args.includes("follow") ? 0 : await runBundled("tests/bench/compare.ts", args);
process.exitCode = followed || compared;
