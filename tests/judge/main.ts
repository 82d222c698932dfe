/**
 * The judge, `npm run judge`: spoils clean procedures and counts what the checker finds. It is bundled like the product
 * before it runs, so that it is as quick.
 */
import { runBundled } from "../support/bundled";

process.exitCode = await runBundled("tests/judge/run.ts", process.argv.slice(2));
