/** Prints many sheets and kills the run, again and again, then lets one finish; tells what stood there each time. */
import { spawn } from "node:child_process";
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { BUNDLE, folderWith } from "../cli/process";
import { readBack } from "../sheet/reader";

/** What a run left. */
export interface Left {
  /** How the process ended: by the signal, or with an exit code. */
  readonly end: string | number | null;
  /** Sheets it had told of when it was killed. */
  readonly told: number;
  /** Files at their final names that a reader cannot read. */
  readonly broken: readonly string[];
  /** Sheets that are there. */
  readonly whole: number;
  /** What is only for while it runs. */
  readonly temporary: readonly string[];
}

const MACHINE = 'torquil 1\n\nmachine winch "Hand winch" {\n  part drum "Drum"\n}\n';

function job(number: number): string {
  return `torquil 1

use "winch.torquil"

procedure job-${number} "Look at drum ${number}" {
  on winch
  document "W-${number}"
  revision A 2026-03-01 "First issue."
  step "Look" {
    note {
      "Drum ${number}: look at the rim, the rope and the hook, and write down what is worn."
    }
  }
}
`;
}

/** A folder with so many small procedures; the caller takes it away. */
export function folderOfJobs(count: number): string {
  const jobs = Array.from({ length: count }, (_, i): [string, string] => [`job-${i}.torquil`, job(i)]);
  return folderWith({ "winch.torquil": MACHINE, ...Object.fromEntries(jobs) });
}

/** When a run is killed: so many milliseconds after it has told of so many sheets. */
export interface Moment {
  readonly told: number;
  readonly wait: number;
}

/** Moments spread over a run of so many sheets; the first is before any sheet is there, the others after. */
export function spread(kills: number, sheets: number): Moment[] {
  return Array.from({ length: kills }, (_, i) => ({
    told: i === 0 ? 0 : 1 + Math.floor(((i - 1) * (sheets - 2)) / Math.max(1, kills - 2)),
    // Some milliseconds more each time, so that every part of setting and writing a sheet is struck.
    wait: i === 0 ? 400 : (i * 7) % 40,
  }));
}

/** Prints everything in a folder into `sheets`, and kills the run with all its processes at a moment, where one is given. */
export async function printed(folder: string, moment?: Moment): Promise<Left> {
  const started = Date.now();
  const child = spawn(process.execPath, [BUNDLE, "print", ".", "--out", "sheets"], {
    cwd: folder,
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  });
  let told = 0;
  let isStruck = false;
  const strike = (): void => {
    if (!moment || isStruck || told < moment.told) return;
    isStruck = true;
    setTimeout(() => killAll(child.pid as number), moment.wait);
  };
  child.stdout.on("data", (data: Buffer) => {
    told += data.toString().split("\n").length - 1;
    strike();
  });
  child.stderr.resume();
  strike();
  const end = await new Promise<string | number | null>((resolve) => {
    child.on("close", (code, signal) => resolve(signal ?? code));
  });
  return { end, told, ...(await inspect(join(folder, "sheets"), started)) };
}

/** Kills a process and those it has started; it is the head of its group. */
function killAll(group: number): void {
  try {
    process.kill(-group, "SIGKILL");
  } catch {
    // It has ended by itself; the test sees that by how it ended.
  }
}

/** Reads every sheet that was written since a moment, and looks for what should not be there. */
async function inspect(folder: string, since: number): Promise<Pick<Left, "broken" | "whole" | "temporary">> {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    return { broken: [], whole: 0, temporary: [] };
  }
  const sheets = names.filter((name) => name.endsWith(".pdf"));
  const broken: string[] = [];
  for (const name of sheets) {
    const path = join(folder, name);
    if (statSync(path).mtimeMs >= since - 5_000 && !(await isWhole(readFileSync(path)))) broken.push(name);
  }
  const temporary = names.filter((name) => !/^(W-\d+\.pdf|index\.html)$/.test(name));
  return { broken, whole: sheets.length - broken.length, temporary };
}

async function isWhole(bytes: Buffer): Promise<boolean> {
  if (!bytes.subarray(-8).toString("latin1").trimEnd().endsWith("%%EOF")) return false;
  try {
    return (await readBack(bytes)).pages > 0;
  } catch {
    return false;
  }
}

/** Puts into the output folder what a run that was killed long ago would have left. */
export function plantHalf(folder: string): void {
  writeFileSync(join(folder, "sheets", ".torquil-999999999-1.part"), "half a sheet");
}
