/**
 * The ways through a procedure, in words and figures: how many there are, the shortest and the longest, and what each
 * check and condition decides. Said in the sheet's own words, so that both can be read side by side.
 */
import { type Job, jobOf, type Place, type Procedure, type Project, placeAt } from "../model";
import { waysPhrase as say } from "../phrases/ways";
import type { Build } from "../sheet/build-context";
import { NO_DRAWINGS } from "../sheet/build-context";
import { usesOf } from "../sheet/build-uses";
import { flowIn, type Parting } from "../sheet/partings";
import { answerWords } from "../sheet/ways-words";
import { type Graph, graphOf, type NoTally, type Tally, tallyOf, type Way } from "../walk";
import { countWords } from "./count-words";
import { decisionWords, namesOf, type PlaceTold, placesTold } from "./ways-places";

/** One way. */
export interface WayTold {
  /** Steps and checks that are done on it, each as often as it is. */
  readonly steps: number;
  /** What is decided on it that does not lead straight on, in order. */
  readonly decisions: readonly string[];
}

/** How many ways there are; figures of any size, as text. */
export interface CountTold {
  readonly ways: string;
  /** Those to the end of the work, and those that end the job early. */
  readonly whole: string;
  readonly early: string;
  /** The same in a sentence. */
  readonly sentence: string;
}

export interface WaysTold {
  readonly procedure: string;
  readonly title: string;
  /** Null where the ways cannot be counted. */
  readonly count: CountTold | null;
  readonly shortest: WayTold | null;
  readonly longest: WayTold | null;
  /** The shortest of those that end early. */
  readonly soonest: WayTold | null;
  /** Where the ways part, in the order of the text. */
  readonly places: readonly PlaceTold[];
  /** Why the ways are not counted, and what to do about it. */
  readonly problem: string | null;
}

/** The ways through a procedure, which must not be doubtful. */
export function tellWays(project: Project, procedure: Procedure): WaysTold {
  const job = jobOf(project, procedure);
  const build = buildFor(project, job);
  const graph = graphOf(procedure);
  const pieces = flowIn(job, graph);
  const tally = tallyOf(graph);
  const counted = tally.kind === "counted" ? tally : null;
  const places = placesTold(build, pieces, (branch) => counted?.through(branch) ?? null);
  const words = wordsByBranch(build, places.partings);
  const told = (way: Way | null): WayTold | null => way && wayTold(way, words);
  return {
    procedure: procedure.thing.name,
    title: procedure.thing.title || procedure.thing.name,
    count: counted && countTold(counted),
    shortest: told(counted?.shortest ?? null),
    longest: told(counted?.longest ?? null),
    soonest: told(counted?.soonest ?? null),
    places: places.told,
    problem: tally.kind === "counted" ? null : problemOf(tally, graph, build, places.partings),
  };
}

/** What the sheet's words are made with: in English, and without drawings. */
const buildFor = (project: Project, job: Job): Build => ({
  project,
  job,
  uses: usesOf(job),
  drawings: NO_DRAWINGS,
  language: "en",
  paper: "a4",
  units: "both",
  draft: false,
  pictures: () => undefined,
});

function countTold({ ways, ends, graph }: Tally): CountTold {
  const whole = ends.get(graph.points.length - 1) ?? 0n;
  const early = ways - whole;
  const args = { ways: countWords(ways), whole: countWords(whole), early: countWords(early) };
  const id =
    ways === 1n
      ? early === 0n
        ? "one"
        : "one-early"
      : early === 0n
        ? "all-whole"
        : whole === 0n
          ? "all-early"
          : early === 1n
            ? "both-one"
            : "both";
  return { ways: `${ways}`, whole: `${whole}`, early: `${early}`, sentence: say(id, args) };
}

const keyOf = (test: number, into: boolean): string => `${test} ${into}`;

/** What is said of a branch on a way; branches that only lead straight on are left out. */
function wordsByBranch(build: Build, partings: readonly Parting[]): ReadonlyMap<string, string> {
  const words = new Map<string, string>();
  for (const parting of partings) {
    for (const answer of parting.answers) {
      const { spot, branch, pieces } = answer;
      const goesOn = pieces.every((p) => p.kind === "lead" && p.spot.entry.construct === "go-on");
      if (!spot || (goesOn && spot.entry.paragraphs.length === 0)) continue;
      const decision = decisionWords(build, parting, answerWords(build, parting, answer));
      words.set(keyOf(branch.test, branch.into), decision);
    }
  }
  return words;
}

function wayTold({ steps, decisions }: Way, words: ReadonlyMap<string, string>): WayTold {
  const told: { words: string; times: number }[] = [];
  for (const { test, into } of decisions) {
    const own = words.get(keyOf(test, into));
    if (own === undefined) continue;
    const last = told.at(-1);
    if (last?.words === own) last.times++;
    else told.push({ words: own, times: 1 });
  }
  return {
    steps,
    decisions: told.map(({ words: decision, times }) =>
      times === 1 ? decision : say("decision-times", { decision, times: `${times}` }),
    ),
  };
}

/** At most so many conditions are named where there are too many. */
const MOST_NAMED = 5;

function problemOf(problem: NoTally, graph: Graph, build: Build, partings: readonly Parting[]): string {
  const point = graph.points[problem.at];
  const place: Place | null = point
    ? placeAt(point.spot.file, point.spot.line, point.spot.entry.form.at)
    : null;
  const line = `${(place?.line ?? 0) + 1}`;
  if (problem.kind === "endless") {
    const step = build.job.steps.findLast(
      ({ file, line: head, entry }) =>
        file === place?.file && head <= place.line && place.line < head + entry.lineCount,
    );
    return step ? say("endless", { step: `${step.number}` }) : say("endless-line", { line });
  }
  const { variables } = problem;
  if (variables.length === 0) return say("too-many-returns", { line });
  const names = [...new Set(variables)].flatMap((variable) => {
    const one = partings.find(({ answers }) =>
      answers.some(({ branch }) => {
        const test = graph.points[branch.test];
        return test?.kind === "test" && test.variable === variable;
      }),
    );
    if (!one) return [];
    return [`“${namesOf(build, one).title}”`];
  });
  const named = names.slice(0, MOST_NAMED).join(", ");
  const more = names.length - MOST_NAMED;
  const listed = more > 0 ? say("and-more", { names: named, count: `${more}` }) : named;
  return say("too-many", { line, count: `${variables.length}`, names: listed });
}
