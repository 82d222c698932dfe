/**
 * Followed again after an edit, a procedure shows what it shows when it is followed afresh: lines put in and taken out,
 * said twice, changed places, blocks moved. What is kept must be no more than what the edit left as it was.
 */
import { expect, test } from "vitest";
import { applyEdits, type Document } from "../../grammar";
import type { Edit } from "../../grammar/document";
import { buildProject, type Procedure, type Project } from "../../server/model";
import { followProcedure, type Walk, type WalkFault } from "../../server/walk";
import { cleanExamples } from "../support/examples";
import { documentsOf, resolver } from "../support/project";
import { below, type Random, seeded } from "../support/random";
import { MACHINE, makeProgram } from "./programs";

const EDITS = Number(process.env.TORQUIL_HAPPENINGS ?? 25);
const SEED = Number(process.env.TORQUIL_SEED ?? 20_261_125);

/** Everything a walk shows, as text. */
function shown({ graph, faults, tellings, reach }: Walk): string[] {
  const at = (point: number): string =>
    point < 0 ? "-" : `${point} ${graph.points[point]?.kind} ${graph.points[point]?.spot.line}`;
  const fault = (f: WalkFault): string =>
    [f.code, f.thing.id, f.other?.id, f.state, at(f.point), at(f.since), at(f.back), ...f.way].join(" | ");
  const { untold, weak } = tellings([]);
  const { unreached, unasked, inward, ends } = reach();
  return [
    ...faults.map(fault),
    ...untold.map((u) => `untold ${fault(u)} ${u.hazard.hazard} ${at(u.late)} ${at(u.passed)}`),
    ...weak.map((w) => `weak ${at(w.at)} ${w.hazard.hazard} ${at(w.act)}`),
    ...unreached.map((b) => `unreached ${b.construct} ${b.spot.line} ${at(b.start)}`),
    ...unasked.map((p) => `unasked ${at(p)}`),
    ...inward.map((p) => `inward ${at(p)}`),
    `ends ${ends}`,
  ];
}

const afresh = (procedure: Procedure): Walk =>
  followProcedure({ ...procedure, thing: { ...procedure.thing, owns: null } });

/** Where the blocks of a text begin and end that can stand one for the other: each as its lines. */
function blockAt(lines: readonly string[], start: number): number {
  let depth = 0;
  for (let i = start; i < lines.length; i++) {
    const line = (lines[i] as string).replace(/"[^"]*"|#.*/g, "");
    depth += line.split("{").length - line.split("}").length;
    if (depth < 0) return -1;
    if (depth === 0) return i + 1;
  }
  return -1;
}

/** A text with something in it done otherwise. */
function edited(random: Random, lines: readonly string[]): string[] {
  const from = below(random, lines.length);
  const end = blockAt(lines, from);
  if (end < 0) return [...lines];
  const block = lines.slice(from, end);
  const rest = [...lines.slice(0, from), ...lines.slice(end)];
  switch (below(random, 5)) {
    case 0:
      return [...lines.slice(0, from), "# Said beside it.", ...lines.slice(from)];
    case 1:
      return [...lines.slice(0, end), ...block, ...lines.slice(end)];
    case 2:
      return rest;
    default: {
      // Elsewhere, near or far.
      const to = below(random, 3) === 0 ? below(random, rest.length) : from + below(random, 30) - 15;
      const into = Math.max(0, Math.min(rest.length, to));
      return [...rest.slice(0, into), ...block, ...rest.slice(into)];
    }
  }
}

function series(
  texts: Readonly<Record<string, string>>,
  file: string,
  random: Random,
  edits: number,
): number {
  const documents = documentsOf(texts);
  const resolve = resolver(new Set(documents.keys()));
  let project: Project = buildProject(documents, resolve);
  let lines = (texts[file] as string).split("\n");
  let followed = 0;
  for (let i = 0; i < edits; i++) {
    const before = lines;
    // Now and then back to what can be followed.
    lines = followed % 4 === 3 ? (texts[file] as string).split("\n") : edited(random, lines);
    const whole = {
      start: { line: 0, character: 0 },
      end: { line: before.length - 1, character: (before.at(-1) as string).length },
      text: lines.join("\n"),
    };
    documents.set(file, applyEdits(documents.get(file) as Document, [narrowed(before, lines) ?? whole]));
    project = buildProject(documents, resolve, project);
    const procedures = project.files.get(file)?.procedures ?? [];
    if (procedures.some((p) => p.doubtful)) {
      lines = before;
      documents.set(file, documentsOf({ [file]: lines.join("\n") }).get(file) as Document);
      project = buildProject(documents, resolve, project);
      continue;
    }
    for (const procedure of procedures) {
      followed++;
      expect(shown(followProcedure(procedure)), `after edit ${i} of ${file}:\n${lines.join("\n")}`).toEqual(
        shown(afresh(procedure)),
      );
    }
  }
  return followed;
}

/** The edit of only the lines that differ, as a hand makes it; null where there is none. */
function narrowed(before: readonly string[], after: readonly string[]): Edit | null {
  let first = 0;
  while (first < Math.min(before.length, after.length) && before[first] === after[first]) first++;
  let behind = 0;
  while (
    behind < Math.min(before.length, after.length) - first &&
    before[before.length - 1 - behind] === after[after.length - 1 - behind]
  )
    behind++;
  if (before.length - behind >= before.length || after.length - behind >= after.length) return null;
  const put = after.slice(first, after.length - behind);
  return {
    start: { line: first, character: 0 },
    end: { line: before.length - behind, character: 0 },
    text: put.map((line) => `${line}\n`).join(""),
  };
}

test("random procedures, followed again after each edit", () => {
  const random = seeded(SEED);
  let followed = 0;
  for (let i = 0; i < EDITS; i++) {
    const { text } = makeProgram(random, 3 + (i % 4));
    followed += series({ "job.torquil": text, "winch.torquil": MACHINE }, "job.torquil", random, 16);
  }
  expect(followed).toBeGreaterThan(EDITS * 8);
});

const texts = Object.fromEntries(cleanExamples().map(({ path, text }) => [path, text]));
const jobs = Object.keys(texts).filter((path) => /^procedure /m.test(texts[path] as string));

test.each(jobs)("%s, followed again after each edit", (file) => {
  expect(series(texts, file, seeded(SEED + file.length), EDITS)).toBeGreaterThan(0);
});

test("a line put in above leaves what stands below it as it was, on its new line", () => {
  const file = "examples/tractor/cylinder-head.torquil";
  expect(jobs).toContain(file);
  const documents = documentsOf(texts);
  const resolve = resolver(new Set(documents.keys()));
  const project = buildProject(documents, resolve);
  const before = followProcedure(project.files.get(file)?.procedures[0] as Procedure);
  const line = (texts[file] as string).split("\n").findIndex((one) => /^ {2}section /.test(one)) + 1;
  const start = { line, character: 0 };
  documents.set(file, applyEdits(documents.get(file) as Document, [{ start, end: start, text: "\n" }]));
  const edited = buildProject(documents, resolve, project);
  const after = followProcedure(edited.files.get(file)?.procedures[0] as Procedure);
  const same = after.graph.segments.filter(({ segment }, i) => segment === before.graph.segments[i]?.segment);
  expect(same.length).toBe(before.graph.segments.length - 1);
  const last = ({ graph }: Walk): number => graph.points.at(-2)?.spot.line ?? 0;
  expect(last(after)).toBe(last(before) + 1);
});
