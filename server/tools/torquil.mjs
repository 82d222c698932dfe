#!/usr/bin/env node
/**
 * The command `torquil`: runs dist/torquil.js. In a checkout it first installs and builds what is missing or older
 * than its source, so that `npx torquil` always runs what the sources say; an installed package has the bundle only.
 */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const bundle = new URL("../../dist/torquil.js", import.meta.url);

if (existsSync(new URL("../cli/main.ts", import.meta.url))) {
  const { setUp } = await import("./setup.mjs");
  const { build, bundles, isStale } = await import("./build.mjs");
  setUp();
  if (isStale(bundles.torquil))
    await build(bundles.torquil).catch((error) => give(`Torquil could not be built. ${error.message}`));
}

if (!existsSync(bundle))
  give(
    `There is no ${fileURLToPath(bundle)} to run: run "npm run build" in the folder of the sources first.`,
  );

await import(bundle.href);

function give(message) {
  console.error(message);
  process.exit(2);
}
