/** The ready files for build services: they are sound YAML of the service's form, and every command in them is taken. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { COMMANDS } from "../../server/cli/run";
import { argumentsIn, usageProblem } from "./command-lines";

const folder = new URL("../../examples/builds/", import.meta.url);
const files = readdirSync(folder);

interface Job {
  readonly "runs-on"?: string;
  readonly stage?: string;
  readonly steps?: readonly { readonly uses?: string; readonly run?: string }[];
  readonly script?: readonly string[];
}

/** The file as a value; doubled keys and other slips throw. */
function read(file: string): Record<string, unknown> {
  return parse(readFileSync(new URL(file, folder), "utf8"), { strict: true, uniqueKeys: true });
}

/** Every command line in which Torquil is run. */
function torquilLines(value: unknown): string[] {
  if (typeof value === "string") return value.split("\n").filter((line) => /\btorquil [a-z]/.test(line));
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(torquilLines) : [];
}

test("there is one for each of two services", () => {
  expect(files).toEqual(["github-actions.yml", "gitlab-ci.yml"]);
});

describe.each(files)("%s", (file) => {
  test("checks with reports, prints, and compares, by commands that are taken", async () => {
    const lines = torquilLines(read(file));
    for (const line of lines) expect([line, await usageProblem(argumentsIn(line))]).toEqual([line, null]);
    const used = new Set(lines.map((line) => argumentsIn(line)[0]));
    expect([...used].sort()).toEqual(["check", "compare", "format", "print"]);
    expect(lines.filter((line) => line.includes("--report"))).toHaveLength(1);
    for (const command of used) expect(Object.keys(COMMANDS)).toContain(command);
  });
});

test("a job for GitHub Actions says where it runs, and each of its steps does one thing", () => {
  const workflow = read("github-actions.yml");
  const jobs = Object.values(workflow.jobs as Record<string, Job>);
  expect(jobs).toHaveLength(2);
  for (const { "runs-on": on, steps = [] } of jobs) {
    expect(on).toBe("ubuntu-latest");
    for (const { uses, run } of steps)
      expect([uses, run].filter((part) => part !== undefined)).toHaveLength(1);
  }
  expect(workflow.on).toEqual({ push: { branches: ["main"] }, pull_request: null });
});

test("a job for GitLab CI has a script and a stage that is named", () => {
  const { variables: _, stages, default: __, ...jobs } = read("gitlab-ci.yml");
  expect(Object.keys(jobs)).toEqual(["check", "compare", "print"]);
  for (const { stage, script } of Object.values(jobs) as Job[]) {
    expect(stages).toContain(stage);
    expect(script?.length).toBeGreaterThan(0);
  }
});
