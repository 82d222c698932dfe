/** The long test that kills printing again and again, for `npm run test:kill`; `npm test` has a short one. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/kill/**/*.test.ts"],
    pool: "forks",
    maxWorkers: 1,
    testTimeout: 240_000,
  },
});
