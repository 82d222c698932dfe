/**
 * How long a keystroke in the middle of a long job takes until the findings are there again, beside a general JSON
 * language service with a schema of the same shape, turn by turn. It prints; it never fails on a figure.
 */
import { applyEdits, type Document, readDocument } from "../../grammar";
import { diagnostics } from "../../server/features";
import { createWorkspace, memoryFiles, type Workspace } from "../../server/project";
import { quantile, shown, table, timed } from "./figures";
import { openPeer } from "./json";
import { type Job, writeJob } from "./procedure";

const ROUNDS: Readonly<Record<string, number>> = { few: 30, many: 120 };
const WARM_UP = 5;

interface Own {
  readonly edit: () => number;
}

function openOwn(job: Job): { workspace: Workspace; own: Own; findings: number } {
  const files = memoryFiles({ "/p/row.torquil": job.machine });
  const workspace = createWorkspace(files, "/p");
  let document: Document = readDocument(job.procedure);
  let wrong = false;
  const check = (): number => {
    workspace.setOverlay("renew.torquil", document);
    return [...workspace.check().values()].reduce((sum, list) => sum + diagnostics(list).length, 0);
  };
  const findings = check();
  const edit = (): number => {
    const start = { line: job.line, character: job.character };
    wrong = !wrong;
    document = applyEdits(document, [
      { start, end: { ...start, character: start.character + 1 }, text: wrong ? "9" : "0" },
    ]);
    return check();
  };
  return { workspace, own: { edit }, findings };
}

async function compare(steps: number): Promise<string[][]> {
  const job = writeJob(steps);
  let own: Own | undefined;
  let start = 0;
  const first = await timed(() => {
    const opened = openOwn(job);
    own = opened.own;
    start = opened.findings;
  });
  let peer: Awaited<ReturnType<typeof openPeer>> | undefined;
  const firstPeer = await timed(async () => {
    peer = await openPeer(steps);
  });
  if (!own || !peer) throw new Error("not opened");
  const rounds = steps > 3000 ? (ROUNDS.few ?? 0) : (ROUNDS.many ?? 0);
  const times: number[] = [];
  const peerTimes: number[] = [];
  const seen = new Set<number>();
  const seenByPeer = new Set<number>();
  for (let round = -WARM_UP; round < rounds; round++) {
    const [ours, theirs] = [own, peer];
    const time = await timed(() => seen.add(ours.edit()));
    const peerTime = await timed(async () => seenByPeer.add(await theirs.edit()));
    if (round >= 0) {
      times.push(time);
      peerTimes.push(peerTime);
    }
  }
  console.error(
    `${steps} steps: ${sizeOf(job)} kB of ours, ${Math.round(peer.size / 1000)} kB of JSON; findings ${start} at first, then ${[...seen].join(" and ")} in turn (JSON: ${[...seenByPeer].join(" and ")}).`,
  );
  const row = (what: string, a: number, b: number): string[] => [
    `${what}, ${steps} steps`,
    shown(a),
    shown(b),
    (b / a).toFixed(2),
  ];
  return [
    row("keystroke → findings, p50", quantile(times, 0.5), quantile(peerTimes, 0.5)),
    row("keystroke → findings, p95", quantile(times, 0.95), quantile(peerTimes, 0.95)),
    row("opened → first findings", first, firstPeer),
  ];
}

const sizeOf = (job: Job): number => Math.round((job.machine.length + job.procedure.length) / 1000);

async function main(): Promise<void> {
  const named = process.argv
    .slice(2)
    .map(Number)
    .filter((n) => Number.isInteger(n) && n > 0);
  const sizes = named.length > 0 ? named : [1000, 10_000];
  const rows = [["milliseconds", "torquil", "JSON + schema", "times as fast"]];
  for (const steps of sizes) rows.push(...(await compare(steps)));
  console.log(table(rows));
}

void main();
