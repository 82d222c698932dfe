/**
 * The benchmark, `npm run bench`. It is bundled like the product before it runs, so that what is timed is what is used.
 *
 * `npm run bench -- 1000 10000` names the numbers of steps.
 */
import { runBundled } from "../support/bundled";

process.exitCode = await runBundled("tests/bench/compare.ts", process.argv.slice(2));
