/** Runs tests inside the extension host, one after the other, and writes what became of each beside the bundle. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";

/** What became of one test. */
export interface Outcome {
  readonly name: string;
  /** Why it failed, in the words of the error with its stack; absent when it passed. */
  readonly failure?: string;
}

/** How long one test may take, in ms. */
const PATIENCE = 60_000;

const tests: { readonly name: string; readonly body: () => Promise<void> }[] = [];

/** States a test. Tests run in the order stated. */
export function test(name: string, body: () => Promise<void>): void {
  tests.push({ name, body });
}

/** VS Code calls this when it has loaded the bundle; the window closes when it is done. */
export async function run(): Promise<void> {
  const outcomes: Outcome[] = [];
  for (const { name, body } of tests) outcomes.push({ name, ...(await failureOf(body)) });
  writeFileSync(join(__dirname, "outcomes.json"), JSON.stringify(outcomes));
}

async function failureOf(body: () => Promise<void>): Promise<{ failure?: string }> {
  let late: NodeJS.Timeout | undefined;
  try {
    const patience = new Promise<never>((_, fail) => {
      late = setTimeout(() => fail(new Error(`Not done after ${PATIENCE / 1000} s.`)), PATIENCE);
    });
    await Promise.race([body(), patience]);
    return {};
  } catch (error) {
    return { failure: (error instanceof Error && error.stack) || String(error) };
  } finally {
    clearTimeout(late);
  }
}
