/**
 * Clean jobs at random: stations in each other or in turn, some of them under a condition or on some machines only, and
 * at the end the machine is run. They are clean by how they are made.
 */
import { below, pick, type Random } from "../support/random";
import { CAUTION, STATIONS, type Station, TOOLS } from "./stations";

/** The texts of one job by path. */
export type Texts = Readonly<Record<string, string>>;

export const JOB = "job.torquil";
export const MACHINE = "rig.torquil";

/** Under which condition a station is done. */
const UNDER = [null, null, "rattle", "late", "towed"] as const;

interface Placed {
  readonly station: Station;
  readonly under: (typeof UNDER)[number];
}

/** Writes a job with so many stations. */
export function generate(random: Random, stations: number): Texts {
  const placed: Placed[] = Array.from({ length: stations }, (_, i) => {
    const station = pick(random, STATIONS)(i + 1, random);
    return { station, under: station.movable ? pick(random, UNDER) : null };
  });
  const work = arrange(random, placed);
  const body = `${work}\n${END}`;
  const used = Object.keys(TOOLS).filter((name) => new RegExp(`(?<![\\w-])${name}(?![\\w-])`).test(body));
  const heads = placed.flatMap(({ station }) => station.head ?? []);
  const items = placed.flatMap(({ station }) => station.items ?? []);
  const asked = (word: string): boolean => body.includes(`when ${word} {`);
  const conditions = [
    ...(asked("rattle") ? ['symptom rattle "It rattles at full speed"'] : []),
    ...(asked("towed") ? ['option towed "Towed behind a vehicle"'] : []),
  ];
  const kit = items.length > 0 ? `kit "K-1" {\n${items.join("\n")}\n}\n` : "";
  const head = [...heads, ...used.map((name) => TOOLS[name] as string), ...conditions].join("\n");
  return {
    [MACHINE]: formatted(`torquil 1

machine rig "Test rig" {
  view front "Looking at the belts"
variant early "Serial 1 to 499"  serial 1 to 499
variant late "From serial 500"  serial 500 to 900
hazard noise "Noise of the rig" {
raised-by start rig
least warning
}
${placed.map(({ station }) => station.machine).join("\n")}
}
`),
    [JOB]: formatted(`torquil 1

use "${MACHINE}"

procedure job "Service of the test rig" {
on rig
working-time 3 h 30 min
${kit}${head}
${body}
}
`),
  };
}

/** Opened one in the other, or one after the other. */
function arrange(random: Random, placed: readonly Placed[]): string {
  const [first, ...rest] = placed;
  if (!first) return "";
  const { station, under } = first;
  const inner = arrange(random, rest);
  const opened = wrapped(station.open, under);
  const closed = wrapped(station.close, under);
  return below(random, 3) > 0 && !station.risky
    ? `${section("Open", opened)}\n${inner}\n${section("Close", closed)}`
    : `${section("Work", `${opened}\n${closed}`)}\n${inner}`;
}

const wrapped = (steps: string, under: string | null): string =>
  under ? `when ${under} {\n${steps}\n}` : steps;

const section = (title: string, steps: string): string => `section "${title}" {\n${steps}\n}`;

const END = `section "Prove the work" {
check ready "Is everybody clear?" {
observe "Does everybody stand clear?"
if no {
go on
}
}
step warn "Before it runs" {
${CAUTION("warning", "noise")}
}
step start-up "Start" {
start rig
run-in rig 10 min
}
check runs "Does it run?" {
observe "Does it run without noise?"
if no {
stop rig
end job "Find the cause."
}
}
step "Stop" {
stop rig
}
}`;

/** Indents a text by its blocks. */
function formatted(text: string): string {
  let depth = 0;
  const lines = text.split("\n").map((line) => {
    if (line.startsWith("}")) depth--;
    const indented = line === "" ? "" : "  ".repeat(depth) + line;
    if (line.endsWith("{")) depth++;
    return indented;
  });
  return lines.join("\n");
}
