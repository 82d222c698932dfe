/** The tests that `npm test` runs: everything but those that drive an editor, and a long one. */
import { defineConfig } from "vitest/config";

/** How many random cases are tried; who asks for more of them has the time. */
const counts = ["TORQUIL_PROGRAMS", "TORQUIL_HAPPENINGS", "TORQUIL_BREAKS", "TORQUIL_CUTS"];

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editors/**", "tests/kill/**", "tests/vscode/**", "node_modules/**"],
    // Modules hold no state, so files share two processes and load each module once in each.
    pool: "forks",
    maxWorkers: 2,
    isolate: false,
    testTimeout: counts.some((name) => process.env[name]) ? 3_600_000 : 60_000,
    hookTimeout: 60_000,
  },
});
