/** The tests that `npm test` runs: everything but those that drive an editor, and a long one. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editors/**", "tests/kill/**", "tests/vscode/**", "node_modules/**"],
    // Modules hold no state, so files share two processes and load each module once in each.
    pool: "forks",
    maxWorkers: 2,
    isolate: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
