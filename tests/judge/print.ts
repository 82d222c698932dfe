/**
 * The judgement in words: a table of the kinds, the misses with why, and whether it is good enough.
 */
import { wordsOf } from "../../server/rules";
import type { Judgement, KindResult, Miss } from "./judge";
import type { Source } from "./sources";

/** Least share of all, least share of a kind, least number of changes of a kind. */
const LEAST_OF_ALL = 0.99;
const LEAST_OF_KIND = 0.95;

/** What is not good enough, in words; nothing where all is. */
export function shortcomings({ kinds, alarms }: Judgement, fewest: number): string[] {
  const made = sum(kinds, (k) => k.mutants);
  const reported = sum(kinds, (k) => k.reported);
  return [
    ...(alarms.length > 0 ? [`${alarms.length} findings on clean procedures`] : []),
    ...(reported < LEAST_OF_ALL * made ? [`${percent(reported, made)} reported over all`] : []),
    ...kinds
      .filter((k) => k.reported < LEAST_OF_KIND * k.mutants)
      .map((k) => `“${k.kind.name}”: ${percent(k.reported, k.mutants)} reported`),
    ...kinds
      .filter((k) => k.mutants < fewest)
      .map((k) => `“${k.kind.name}”: only ${k.mutants} changes, fewer than ${fewest}`),
  ];
}

/** Everything, as lines. */
export function printed(judgement: Judgement, sources: readonly Source[], fewest: number): string[] {
  const { kinds, alarms } = judgement;
  const made = sum(kinds, (k) => k.mutants);
  const reported = sum(kinds, (k) => k.reported);
  const byHand = sum(kinds, (k) => k.handWritten);
  const short = shortcomings(judgement, fewest);
  return [
    ...sourceLines(sources),
    "",
    `${"changes".padStart(7)} ${"reported".padStart(8)} ${"by hand".padStart(7)}  kind · why it is wrong · what else was reported`,
    ...kinds.map(kindLine),
    "",
    `${made} changes of ${kinds.length} kinds, ${byHand} of them to texts written by hand; ${reported} reported with the code and at the place meant: ${percent(reported, made)}.`,
    `${alarms.length} findings on ${sources.length} clean procedures.`,
    ...alarms.map(
      ({ source, finding }) =>
        `  FALSE ALARM ${source.name} ${finding.place.file}:${finding.place.line + 1} ${finding.code}: ${wordsOf(finding, finding.message)}`,
    ),
    "",
    ...kinds.flatMap((k) => k.misses.map((miss) => missLine(k, miss))),
    ...(short.length > 0 ? ["Not good enough:", ...short.map((line) => `  ${line}`)] : ["Good enough."]),
  ];
}

function sourceLines(sources: readonly Source[]): string[] {
  const count = (origin: Source["origin"]): number => sources.filter((s) => s.origin === origin).length;
  const unread = sources.filter((s) => !s.reading);
  return [
    `Clean procedures: ${count("by hand")} written by hand, ${count("example")} examples, ${count("generated")} generated.`,
    ...unread.map(
      (s) =>
        `Changes of states are not made to ${s.name}, which the plain reading does not follow: ${s.unread}.`,
    ),
  ];
}

function kindLine({ kind, mutants, reported, handWritten, others }: KindResult): string {
  const most = [...others].sort(([, a], [, b]) => b - a).slice(0, 3);
  const else_ = most.length > 0 ? ` · ${most.map(([code, n]) => `${code} ${n}`).join(", ")}` : "";
  return `${String(mutants).padStart(7)} ${String(reported).padStart(8)} ${String(handWritten).padStart(7)}  ${kind.name} · ${kind.proof}${else_}`;
}

/** Why a change was missed: what was found in its stead. */
function missLine({ kind }: KindResult, { source, change, found }: Miss): string {
  const [first = 0] = change.lines;
  const line = (change.texts[change.file] as string).split("\n")[first]?.trim() ?? "";
  const meant = `${change.codes.join(" or ")} at ${change.file}:${change.lines.map((at) => at + 1).join("/")} (${line})`;
  const instead = found.map((f) => `${f.code} ${f.place.file}:${f.place.line + 1}`).join(", ");
  return `  missed: “${kind.name}” in ${source.name}: ${meant}; reported: ${instead || "nothing"}`;
}

function sum(kinds: readonly KindResult[], of: (kind: KindResult) => number): number {
  return kinds.reduce((total, kind) => total + of(kind), 0);
}

const percent = (part: number, whole: number): string =>
  whole === 0 ? "none" : `${((100 * part) / whole).toFixed(2)} %`;
