/**
 * Spoils clean procedures, one small change at a time, and counts how often the checker reports it there with that code.
 */
import { type Document, readDocument } from "../../grammar";
import { buildProject, type Project } from "../../server/model";
import { checkProject, type Finding } from "../../server/rules";
import { resolver } from "../support/project";
import { below, type Random, seeded } from "../support/random";
import type { Change, Kind, Site } from "./change";
import { BOLT_KINDS } from "./kinds/bolts";
import { CAUTION_KINDS } from "./kinds/cautions";
import { countKind, FIGURE_KINDS } from "./kinds/figures";
import { MECHANICS_KINDS } from "./kinds/mechanics";
import { RUN_KINDS } from "./kinds/runs";
import { SHAPE_KINDS } from "./kinds/shape";
import { STATE_KINDS } from "./kinds/states";
import { TRADE_KINDS } from "./kinds/trade";
import { TURNING_KINDS } from "./kinds/turning";
import { WAY_KINDS } from "./kinds/ways";
import type { Source } from "./sources";

export const KINDS: readonly Kind[] = [
  ...STATE_KINDS,
  ...WAY_KINDS,
  ...CAUTION_KINDS,
  ...TRADE_KINDS,
  ...TURNING_KINDS,
  ...FIGURE_KINDS,
  countKind,
  ...MECHANICS_KINDS,
  ...BOLT_KINDS,
  ...RUN_KINDS,
  ...SHAPE_KINDS,
];

/** A change that was not reported as it should be. */
export interface Miss {
  readonly source: Source;
  readonly change: Change;
  /** What was reported instead. */
  readonly found: readonly Finding[];
}

export interface KindResult {
  readonly kind: Kind;
  readonly mutants: number;
  readonly reported: number;
  /** How many of them stand in texts written by hand. */
  readonly handWritten: number;
  /** What else was reported, by code. */
  readonly others: ReadonlyMap<string, number>;
  readonly misses: readonly Miss[];
}

export interface Judgement {
  readonly kinds: readonly KindResult[];
  /** What was reported on sources that nobody has changed: false alarms. */
  readonly alarms: readonly { readonly source: Source; readonly finding: Finding }[];
}

/** A source as the checker has read it, so that a change is checked as quickly as an edit. */
interface Checked {
  readonly documents: ReadonlyMap<string, Document>;
  readonly project: Project;
}

/** Makes so many changes of each kind, or as many as there are places for. */
export function judge(sources: readonly Source[], each: number, seed: number): Judgement {
  const checked = new Map<Source, Checked>();
  const alarms = sources.flatMap((source) => {
    const documents = new Map(Object.entries(source.texts).map(([path, text]) => [path, readDocument(text)]));
    const project = buildProject(documents, resolver(new Set(documents.keys())));
    checked.set(source, { documents, project });
    return [...checkProject(project, source.settings).values()]
      .flat()
      .map((finding) => ({ source, finding }));
  });
  const kinds = KINDS.map((kind, i) => judgeKind(kind, sources, each, seeded(seed + i), checked));
  return { kinds, alarms };
}

function judgeKind(
  kind: Kind,
  sources: readonly Source[],
  each: number,
  random: Random,
  checked: ReadonlyMap<Source, Checked>,
): KindResult {
  let mutants = 0;
  let reported = 0;
  let handWritten = 0;
  const others = new Map<string, number>();
  const misses: Miss[] = [];
  const seen = new Set<string>();
  const isByHand = (one: Source): boolean => one.origin !== "generated";
  const byHand = inTurn(kind, sources.filter(isByHand), random);
  const generated = inTurn(
    kind,
    sources.filter((one) => !isByHand(one)),
    random,
  );
  // Up to two thirds of them in texts written by hand, the rest in generated ones as far as there are places.
  const most = Math.ceil((2 * each) / 3);
  for (const { source, site } of [...byHand, ...generated, ...byHand]) {
    if (isByHand(source) && mutants === handWritten && mutants >= most) continue;
    if (mutants >= each) break;
    const change = site();
    if (!change) continue;
    const text = `${source.name}\n${change.texts[change.file]}`;
    if (seen.has(text)) continue;
    seen.add(text);
    mutants++;
    if (source.origin !== "generated") handWritten++;
    const found = findingsAfter(change, source, checked.get(source) as Checked);
    const isMeant = (f: Finding): boolean =>
      change.codes.includes(f.code) && f.place.file === change.file && change.lines.includes(f.place.line);
    if (found.some(isMeant)) reported++;
    else misses.push({ source, change, found });
    for (const code of new Set(found.filter((f) => !isMeant(f)).map((f) => f.code)))
      others.set(code, (others.get(code) ?? 0) + 1);
  }
  return { kind, mutants, reported, handWritten, others, misses };
}

/** The places of a kind, one from each source in turn, at random within it. */
function inTurn(kind: Kind, sources: readonly Source[], random: Random): { source: Source; site: Site }[] {
  const queues = sources.map((source) => ({ source, sites: [...kind.sites(source)] }));
  const turns: { source: Source; site: Site }[] = [];
  while (queues.some(({ sites }) => sites.length > 0)) {
    for (const { source, sites } of queues) {
      const [site] = sites.splice(below(random, sites.length), 1);
      if (site) turns.push({ source, site });
    }
  }
  return turns;
}

function findingsAfter(change: Change, source: Source, { documents, project }: Checked): Finding[] {
  const after = new Map(documents);
  for (const [path, text] of Object.entries(change.texts))
    if (text !== source.texts[path]) after.set(path, readDocument(text));
  const changed = buildProject(after, resolver(new Set(after.keys())), project);
  return [...checkProject(changed, source.settings).values()].flat();
}
