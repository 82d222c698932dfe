/**
 * A refit tried before it is given: what its own lines ask for in turn (a caution, a wait, a hand that holds) is put in
 * as the rules say, and what is then still wrong, or wrong anew, is told.
 */
import type { Procedure, Project } from "../model";
import { refitPhrase as say } from "../phrases/refit";
import type { Language } from "../phrases/sheet";
import { checkProject, type Finding, findingText, type RuleSettings, type TextEdit, walkOf } from "../rules";
import { rightingActs } from "../rules/righting";
import { indentOf } from "../rules/walked";
import { DEPARTURES, type Departure, owedAtEnd, type Stand, standsAt } from "../walk";
import { owedKey } from "./refit-dues";
import { guardsOf, mapped } from "./refit-guards";
import { guardedLines } from "./refit-lines";
import type { RefitPlace } from "./refit-spots";
import { inWords } from "./state";
import { tried } from "./trial";

export interface Trial {
  readonly project: Project;
  readonly problems: readonly string[];
}

/** What lines that put something back ask for in their turn; each of these rules says in its fix what to write. */
const ASKED_NEXT: ReadonlySet<string> = new Set([
  "caution-missing",
  "caution-late",
  "caution-too-weak",
  "wait-missing",
  "cured-too-soon",
  "nothing-holds",
  "pin-takes-torque",
  "not-told-apart",
  "not-drained",
]);

/** At most so many lines are put in because others ask for them. */
const MOST_ADDED = 60;

/**
 * Tries edits of a file. The findings of the project as it is are not held against them.
 *
 * @param told the ids of things that it is said of already that they are not put right
 */
export function tryRefit(
  project: Project,
  procedure: Procedure,
  edits: readonly TextEdit[],
  settings: RuleSettings,
  told: ReadonlySet<string>,
): Trial {
  const before = checkProject(project, settings);
  const { file } = procedure.thing;
  let now = tried(project, edits);
  for (let i = 0; i < MOST_ADDED; i++) {
    const found = newFindings(before, checkProject(now, settings));
    const edit = nextEdit(now, procedure, found, settings.language);
    if (!edit || edit.file !== file) break;
    now = tried(now, [edit]);
  }
  const found = newFindings(before, checkProject(now, settings));
  return { project: now, problems: [...stillOwed(now, procedure, told), ...found.map(inLine)] };
}

const inLine = (finding: Finding): string =>
  say("new-finding", {
    line: String(finding.place.line + 1),
    text: findingText(finding).replace(/\n/g, " "),
  });

/** The findings that were not there before. */
function newFindings(
  before: ReadonlyMap<string, readonly Finding[]>,
  now: ReadonlyMap<string, readonly Finding[]>,
): readonly Finding[] {
  const left = new Map<string, number>();
  for (const { fingerprint } of [...before.values()].flat())
    left.set(fingerprint, (left.get(fingerprint) ?? 0) + 1);
  return [...now.values()].flat().filter(({ fingerprint }) => {
    const count = left.get(fingerprint) ?? 0;
    left.set(fingerprint, count - 1);
    return count <= 0;
  });
}

function nextEdit(
  project: Project,
  procedure: Procedure,
  found: readonly Finding[],
  language: Language,
): TextEdit | null {
  for (const { code, fixes, place } of found) {
    if (code === "end-job-leaves") {
      const edit = letGo(project, procedure, place.line, language);
      if (edit) return edit;
    }
    const change = ASKED_NEXT.has(code) ? fixes[0]?.changes[0] : undefined;
    if (!change || fixes[0]?.changes.length !== 1) continue;
    const { line, start, end } = change.place;
    const text = change.text.replace(
      /\r?\n/g,
      project.files.get(change.place.file)?.document.shape.eol ?? "\n",
    );
    return {
      file: change.place.file,
      start: { line, character: start },
      end: { line, character: end },
      text,
    };
  }
  return null;
}

/** What must not be left so is ended in front of the line that ends the job, under what tells its ways apart. */
function letGo(project: Project, procedure: Procedure, line: number, language: Language): TextEdit | null {
  const after = sameProcedure(project, procedure);
  if (!after || after.doubtful) return null;
  const walk = walkOf(after);
  const fault = walk.faults.find(
    (f) => f.code === "end-job-leaves" && walk.graph.points[f.point]?.spot.line === line,
  );
  const point = fault && walk.graph.points[fault.point];
  const kind = (Object.keys(DEPARTURES) as Departure[]).find((d) => DEPARTURES[d].said === fault?.state);
  if (!fault || !point || !kind || point.spot.through) return null;
  const { thing } = fault;
  const { file, entry } = point.spot;
  const linesOf = ({ differences, since }: Stand): readonly string[] =>
    differences.some((d) => d.kind === kind)
      ? rightingActs(after, walk, { thing, since, differences: [{ kind, stage: "" }] }).flatMap(
          (act) => act.lines,
        )
      : [];
  const place: RefitPlace = {
    file,
    line,
    point: fault.point,
    block: point.block,
    holds: "lines",
    guarded: true,
    set: null,
  };
  const tree = guardsOf(project, after, walk)(place, thing);
  if (!tree) return null;
  const { eol } = project.files.get(file)?.document.shape ?? { eol: "\n" };
  const start = { line, character: 0 };
  const lines = guardedLines([mapped(tree, linesOf)], language);
  return { file, start, end: start, text: lines.map((one) => `${indentOf(entry)}${one}${eol}`).join("") };
}

/** The procedure in a project after an edit. */
export function sameProcedure(project: Project, { thing }: Procedure): Procedure | undefined {
  return project.files.get(thing.file)?.procedures.find((p) => p.thing.name === thing.name);
}

/** What is owed at the end although the refit is there. */
function stillOwed(project: Project, procedure: Procedure, told: ReadonlySet<string>): readonly string[] {
  const after = sameProcedure(project, procedure);
  if (!after || after.doubtful) return [];
  const walk = walkOf(after);
  const { points } = walk.graph;
  const owed = owedAtEnd(walk).things.filter(({ thing }) => !told.has(thing.id));
  const atEnd = owed.flatMap(({ thing }) =>
    standsAt(walk, thing, points.length - 1)
      .filter((stand) => owedKey(stand) !== "")
      .map(({ differences, way }) =>
        say("still-owed", {
          title: thing.title || thing.name,
          state: inWords(differences.filter((d) => d.owed)),
          ways: inBrackets(way),
        }),
      ),
  );
  const unfitted = walk.faults
    .filter(
      ({ code, thing }) =>
        code === "tightened-before-fitted" && thing.kind === "fastener" && !told.has(thing.id),
    )
    .map(({ thing, point, way }) =>
      say("still-unfitted", {
        title: thing.title || thing.name,
        line: String((points[point]?.spot.line ?? 0) + 1),
        ways: inBrackets(way),
      }),
    );
  return [...unfitted, ...atEnd];
}

const inBrackets = (way: readonly string[]): string => (way.length === 0 ? "" : ` (${way.join(", then ")})`);
