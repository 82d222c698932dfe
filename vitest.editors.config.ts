/** The tests that drive a real editor, for `npm run test:editors`: they need Neovim on the path. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/editors/**/*.test.ts"],
    pool: "forks",
    maxWorkers: 1,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
