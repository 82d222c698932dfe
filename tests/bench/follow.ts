/**
 * What following every way costs: from a thousand steps to ten thousand with forty conditions, again after an edit
 * inside one step, and where forty conditions are about one thing. It prints; it never fails on a figure.
 */
import { spawnSync } from "node:child_process";
import { applyEdits, type Document } from "../../grammar";
import { buildProject, type Procedure, type Project } from "../../server/model";
import { followProcedure, type Walk } from "../../server/walk";
import { documentsOf, resolver } from "../support/project";
import { type Texts, writeConditions, writeOneThing } from "./conditions";
import { quantile, shown, table } from "./figures";
import { writeJob } from "./procedure";

const MOST_TIMES = 12;
const MOST_OF_WHOLE = 0.1;
const TURNS = 3;
const EDITS = 20;

/** Node with `--expose-gc`, as the benchmark is started. */
const collect = (globalThis as { gc?: () => void }).gc;

interface Cost {
  readonly milliseconds: number;
  readonly megabytes: number;
}

const procedureIn = (project: Project, file: string): Procedure => {
  const procedure = project.files.get(file)?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error("the job cannot be followed");
  return procedure;
};

const ownerless = (procedure: Procedure): Procedure => ({
  ...procedure,
  thing: { ...procedure.thing, owns: null },
});

/** Everything the rules ask of a walk. */
function followWhole(procedure: Procedure): Walk {
  const walk = followProcedure(procedure);
  walk.tellings([]);
  walk.reach();
  return walk;
}

/** What must not be collected while the heap is looked at. */
let alive: object | null = null;

function follow(texts: Texts): number {
  const documents = documentsOf(texts);
  const project = buildProject(documents, resolver(new Set(documents.keys())));
  // Without an owner nothing is taken over from the time before.
  const procedure = ownerless(procedureIn(project, "job.torquil"));
  const start = performance.now();
  const walk = followWhole(procedure);
  const milliseconds = performance.now() - start;
  if (walk.faults.length > 0) throw new Error(`the job is not clean: ${walk.faults[0]?.code}`);
  alive = { documents, project, walk };
  return milliseconds;
}

/** The least time to follow, and the heap above an empty start with the job and its walk in it: in a process of its own. */
function measure(steps: number, shared: boolean): Cost {
  const texts = writeConditions(steps, shared);
  collect?.();
  const empty = process.memoryUsage().heapUsed;
  const first = follow(texts);
  collect?.();
  const megabytes = (process.memoryUsage().heapUsed - empty) / 1e6;
  if (!alive) throw new Error("nothing was kept");
  const times = Array.from({ length: TURNS }, () => follow(texts));
  return { milliseconds: Math.min(first, ...times), megabytes };
}

function costOf(steps: number, shared: boolean): Cost {
  const args = ["--expose-gc", process.argv[1] as string, String(steps), String(shared)];
  const run = spawnSync(process.execPath, args, { encoding: "utf8" });
  if (run.status !== 0) throw new Error(run.stderr);
  return JSON.parse(run.stdout) as Cost;
}

const verdict = (value: number, most: number): string => (value <= most ? "pass" : "FAIL");

function growth(shared: boolean): string {
  const costs = [costOf(1000, shared), costOf(10_000, shared)] as const;
  const row = (what: string, of: (cost: Cost) => number): string[] => {
    const times = of(costs[1]) / of(costs[0]);
    return [what, shown(of(costs[0])), shown(of(costs[1])), times.toFixed(1), verdict(times, MOST_TIMES)];
  };
  return table([
    [
      shared ? "40 conditions, 8 alive at once" : "the same, each about its own things",
      "1,000 steps",
      "10,000 steps",
      "times",
      `at most ${MOST_TIMES}`,
    ],
    row("followed, ms", (c) => c.milliseconds),
    row("heap above an empty start, MB", (c) => c.megabytes),
  ]);
}

/** A job of 10,000 steps, and where in it a figure stands in a line of its own. */
interface Edited {
  readonly what: string;
  readonly texts: Texts;
  readonly line: number;
  readonly character: number;
}

function jobs(): readonly Edited[] {
  const plain = writeJob(10_000);
  const conditions = writeConditions(10_000, true);
  const lines = (conditions["job.torquil"] as string).split("\n");
  const line = lines.findIndex((text, i) => i > lines.length / 2 && text.includes("wait 5 min"));
  const { line: at, character } = plain;
  return [
    {
      what: "plain",
      texts: { "row.torquil": plain.machine, "job.torquil": plain.procedure },
      line: at,
      character,
    },
    { what: "40 conditions", texts: conditions, line, character: (lines[line] as string).indexOf("5") },
  ];
}

/** Edits inside a step, each there and back. */
const EDITED = {
  "a figure": ({ line, character }: Edited, round: number) => ({
    start: { line, character },
    end: { line, character: character + 1 },
    text: String(3 + (round % 5)),
  }),
  "a line": ({ line }: Edited, round: number) => ({
    start: { line, character: 0 },
    end: { line: line + (round % 2), character: 0 },
    text: round % 2 === 0 ? '      "Look at it twice."\n' : "",
  }),
} as const;

/** After an edit inside one step: what is kept is found by the name of the procedure. */
function again(): string {
  const rows = jobs().flatMap((job) =>
    Object.entries(EDITED).map(([what, edit]) => {
      const documents: Map<string, Document> = documentsOf(job.texts);
      const resolve = resolver(new Set(documents.keys()));
      let project = buildProject(documents, resolve);
      followWhole(procedureIn(project, "job.torquil"));
      const afresh: number[] = [];
      const kept: number[] = [];
      const time = (procedure: Procedure): number => {
        const start = performance.now();
        followWhole(procedure);
        return performance.now() - start;
      };
      for (let round = 0; round < EDITS; round++) {
        const document = documents.get("job.torquil") as Document;
        documents.set("job.torquil", applyEdits(document, [edit(job, round)]));
        project = buildProject(documents, resolve, project);
        const procedure = procedureIn(project, "job.torquil");
        kept.push(time(procedure));
        if (round % 5 === 0) afresh.push(time(ownerless(procedure)));
      }
      const [whole, edited] = [quantile(afresh, 0.5), quantile(kept, 0.5)];
      const share = edited / whole;
      return [
        `${job.what}, ${what} changed`,
        shown(whole),
        shown(edited),
        share.toFixed(3),
        verdict(share, MOST_OF_WHOLE),
      ];
    }),
  );
  return table([["10,000 steps, ms", "whole", "after an edit", "of the whole", "under a tenth"], ...rows]);
}

function oneThing(): string {
  const documents = documentsOf(writeOneThing());
  const project = buildProject(documents, resolver(new Set(documents.keys())));
  const start = performance.now();
  const { faults } = followWhole(procedureIn(project, "job.torquil"));
  const took = shown(performance.now() - start);
  const codes = [...new Set(faults.map((f) => f.code))];
  const outcome = codes.length === 0 ? "solved" : codes.includes("walk-limit") ? "refused aloud" : "WRONG";
  return `40 conditions about one thing: ${outcome} in ${took} ms${codes.length > 0 ? ` (${codes.join(", ")})` : ""}.`;
}

const [steps, shared] = process.argv.slice(2);
if (steps) console.log(JSON.stringify(measure(Number(steps), shared === "true")));
else console.log(`${growth(true)}\n\n${growth(false)}\n\n${again()}\n\n${oneThing()}`);
