/** The tests in a real VS Code, for `npm run test:vscode`: they need Chromium and the packages install.mjs names. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/vscode/**/*.test.ts"],
    globalSetup: "tests/vscode/setup.ts",
    pool: "forks",
    maxWorkers: 1,
    // A test waits for what it looks for and goes on at once; these are for a machine busy with other work.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
  },
});
