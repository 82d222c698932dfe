/**
 * Runs the rules: each on the grain it names, again only where that changed; then severities and allowances.
 */
import { type Entry, namesIn, textIn } from "../facts";
import type { FileModel, Place, Procedure, Project } from "../model";
import type { Language } from "../phrases/sheet";
import { followProcedure, type Walk } from "../walk";
import { allowancesOf, applyAllowances } from "./allow";
import { placedFaults, type Raw } from "./placed";
import { RULES } from "./registry";
import type { Fault, Finding, HouseHazard, Message, Rule, Severity, Sight } from "./types";

/** What settings say to the engine. */
export interface RuleSettings {
  readonly severities: Readonly<Record<string, Severity | "off">>;
  readonly hazards: readonly HouseHazard[];
  /** The language of the sheets, for text that a repair writes into them; messages are in English. */
  readonly language: Language;
}

export const DEFAULT_RULE_SETTINGS: RuleSettings = { severities: {}, hazards: [], language: "en" };

const ruleOf = <G extends Rule["grain"]>(grain: G): Extract<Rule, { grain: G }>[] =>
  RULES.filter((r): r is Extract<Rule, { grain: G }> => r.grain === grain);
const thingRules = ruleOf("thing");
const procedureRules = ruleOf("procedure");
const fileRules = ruleOf("file");
const projectRules = ruleOf("project");

interface Kept extends Pick<RuleSettings, "hazards" | "language"> {
  readonly raw: readonly Raw<Place>[];
}

const byFile = new WeakMap<FileModel, Kept>();
const walks = new WeakMap<Procedure, Walk>();

/** Findings of every file of a project, sorted by place. */
export function checkProject(
  project: Project,
  settings: RuleSettings = DEFAULT_RULE_SETTINGS,
): Map<string, Finding[]> {
  const found = new Map<string, Finding[]>();
  const wide = projectFaults(project);
  for (const file of project.files.values()) {
    const raw = [
      ...placedFaults(file),
      ...fileFaults(file, project, settings),
      ...wide.filter((r) => r.fault.place.file === file.path),
    ];
    found.set(file.path, finish(file, raw, settings));
  }
  return found;
}

/** The walk through a procedure, made once for as long as the procedure stays the same. */
export function walkOf(procedure: Procedure): Walk {
  let walk = walks.get(procedure);
  if (!walk) {
    walk = followProcedure(procedure);
    walks.set(procedure, walk);
  }
  return walk;
}

function projectFaults(project: Project): Raw<Place>[] {
  const raw: Raw<Place>[] = [];
  for (const rule of projectRules) rule.check(project, (fault) => raw.push({ rule, fault }));
  return raw;
}

function fileFaults(file: FileModel, project: Project, settings: RuleSettings): readonly Raw<Place>[] {
  const known = byFile.get(file);
  const { hazards, language } = settings;
  if (known && known.hazards === hazards && known.language === language) return known.raw;
  const sight: Sight = { file, project, walk: walkOf, houseHazards: hazards, language };
  const raw: Raw<Place>[] = [];
  const report = (rule: Rule) => (fault: Fault<Place>) => void raw.push({ rule, fault });
  for (const rule of fileRules) rule.check(file, report(rule), sight);
  for (const thing of file.things) {
    if (thing.doubtful) continue;
    const machine = file.machines.find((m) => m.thing.owns === thing.owner) ?? null;
    for (const rule of thingRules) rule.check(thing, report(rule), sight, machine);
  }
  for (const procedure of file.procedures) {
    if (procedure.doubtful) continue;
    for (const rule of procedureRules) rule.check(procedure, report(rule), sight);
  }
  byFile.set(file, { hazards, language, raw });
  return raw;
}

function finish(file: FileModel, raw: readonly Raw<Place>[], settings: RuleSettings): Finding[] {
  const findings = raw.flatMap(({ rule, fault }) => toFinding(file, rule, fault, settings));
  const left = applyAllowances(file, allowancesOf(file), findings, (code) => settings.severities[code]);
  return left.sort(byPlace);
}

function byPlace(a: Finding, b: Finding): number {
  return (
    a.place.line - b.place.line ||
    a.place.start - b.place.start ||
    (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
  );
}

function toFinding(file: FileModel, rule: Rule, fault: Fault<Place>, settings: RuleSettings): Finding[] {
  const id = fault.message ?? "main";
  const code = rule.alsoCodes?.includes(id) ? id : rule.code;
  const severity = settings.severities[code] ?? fault.severity ?? rule.severity;
  if (severity === "off") return [];
  const args = fault.args ?? {};
  const hintId = fault.hint ?? (id === "main" ? "hint" : `${id}-hint`);
  const hint: Message | null = rule.messages[hintId] !== undefined ? { id: hintId, args } : null;
  return [
    {
      code,
      severity,
      message: { id, args },
      hint,
      place: fault.place,
      related: (fault.related ?? []).map((r) => ({
        place: r.place,
        message: { id: r.message, args: r.args ?? {} },
      })),
      way: fault.way ?? [],
      fixes: fault.fixes ?? [],
      fingerprint: fingerprint(code, file, fault.place, args),
    },
  ];
}

/** FNV-1a over code, file, the line's text without its indentation, and arguments. */
export function fingerprint(
  code: string,
  file: FileModel,
  place: Place,
  args: Readonly<Record<string, string>>,
): string {
  const text = [
    code,
    file.path,
    file.document.lines[place.line]?.text.trim() ?? "",
    ...Object.values(args),
  ].join("\u0000");
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(16).padStart(8, "0");
}

/** The texts of an `allow` line. */
export function allowanceTexts(entry: Entry): { code: string; reason: string } {
  return { code: namesIn(entry.form, "code")[0]?.name ?? "", reason: textIn(entry.form, "reason") };
}
