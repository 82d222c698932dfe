/**
 * What the rules about wrenches share: each stage that an act tightens, with the tools said for it.
 */
import {
  type At,
  fastenerFacts,
  leverageOf,
  type NameAt,
  type Stage,
  type ToolFacts,
  toolFacts,
} from "../facts";
import { settingShare } from "../mechanics/setting";
import { type Part, type Place, type Procedure, placeAt, type Thing } from "../model";
import type { Amount } from "../units/amount";
import type { Quantity } from "../units/quantity";
import { type ActAt, actsInPart, actsOf, thingsNamed } from "./look";

export interface SaidTool {
  readonly thing: Thing;
  readonly facts: ToolFacts;
  readonly place: Place;
}

/** One stage of one fastener, tightened by one act. */
export interface Tightening {
  readonly act: ActAt;
  readonly fastener: Thing;
  readonly stage: Stage;
  /** The stage's line in the act's block, or the act's own words. */
  readonly place: Place;
  /** Tools on the stage's own line. */
  readonly own: readonly SaidTool[];
  /** Tools of the act as a whole. */
  readonly shared: readonly SaidTool[];
}

const kept = new WeakMap<Procedure, readonly Tightening[]>();

/** Every stage that an act of the procedure tightens, as far as the text alone tells which. */
export function tighteningsOf(procedure: Procedure): readonly Tightening[] {
  let found = kept.get(procedure);
  if (!found) {
    const acts = actsOf(procedure).filter((a) => a.act.verb === "tighten");
    const taken = stagesNamed(acts);
    found = procedure.parts.flatMap((part) => inPart(procedure, part, taken));
    kept.set(procedure, found);
  }
  return found;
}

const keptParts = new WeakMap<Part, { readonly takenHere: string; readonly found: readonly Tightening[] }>();

/** The tightenings of one part; kept while it and what it names is the same, and the same stages are taken elsewhere. */
function inPart(
  procedure: Procedure,
  part: Part,
  taken: ReadonlyMap<string, ReadonlySet<string>>,
): readonly Tightening[] {
  const acts = actsInPart(part.entry, part.line, procedure.thing.file).filter(
    (a) => a.act.verb === "tighten",
  );
  const names = acts.flatMap((a) => a.act.what.map((w) => w.name));
  const takenHere = names.map((name) => [...(taken.get(name) ?? [])].join(" ")).join(", ");
  const known = keptParts.get(part);
  if (known?.takenHere === takenHere) return known.found;
  const found = acts.flatMap((act) =>
    thingsNamed(procedure, act.act.what, ["fastener"]).flatMap(({ thing }) =>
      stagesOf(procedure, taken, act, thing),
    ),
  );
  keptParts.set(part, { takenHere, found });
  return found;
}

/** The stages that acts name, by the fastener. */
function stagesNamed(acts: readonly ActAt[]): ReadonlyMap<string, ReadonlySet<string>> {
  const taken = new Map<string, Set<string>>();
  for (const { act } of acts) {
    const stages = [...(act.toStage ? [act.toStage] : []), ...act.stages.map((s) => s.name)];
    if (stages.length === 0) continue;
    for (const { name } of act.what) {
      const own = taken.get(name) ?? new Set<string>();
      for (const stage of stages) own.add(stage.name);
      taken.set(name, own);
    }
  }
  return taken;
}

function stagesOf(
  procedure: Procedure,
  taken: ReadonlyMap<string, ReadonlySet<string>>,
  act: ActAt,
  fastener: Thing,
): Tightening[] {
  const { stages } = fastenerFacts(fastener.entry);
  const shared = tools(procedure, act, act.act.tools);
  const make = (stage: Stage, at: At, own: readonly NameAt[]): Tightening => ({
    act,
    fastener,
    stage,
    place: act.place(at),
    own: tools(procedure, act, own),
    shared,
  });
  const head = act.entry.form.at;
  if (act.act.stages.length > 0) {
    return act.act.stages.flatMap((said) =>
      stages.filter((s) => s.name === said.name.name).map((s) => make(s, said.at, said.tools)),
    );
  }
  if (act.act.toStage)
    return stages.filter((s) => s.name === act.act.toStage?.name).map((s) => make(s, head, []));
  // What other acts take to a stage of its own is behind it here.
  const elsewhere = taken.get(fastener.name);
  const done = stages.findLastIndex((s) => s.name !== "" && elsewhere?.has(s.name));
  return stages.slice(done + 1).map((s) => make(s, head, []));
}

function tools(procedure: Procedure, act: ActAt, names: readonly NameAt[]): SaidTool[] {
  return thingsNamed(procedure, names, ["tool"]).map(({ thing, at }) => ({
    thing,
    facts: toolFacts(thing.entry),
    place: act.place(at),
  }));
}

/** A wrench that shows torque, or sets it. */
export const isTorqueWrench = ({ facts }: SaidTool): boolean => facts.range?.kind === "torque";

/** Something between wrench and bolt. */
export const isAdapter = ({ facts }: SaidTool): boolean => facts.adapter !== null || facts.rightAngle;

/** The tools said for a stage: those of its own line, and those of the act. */
export const saidTools = ({ own, shared }: Tightening): readonly SaidTool[] => [...own, ...shared];

/** The share of the torque that a wrench under an adapter is set to; null where its figures give none. */
export function shareUnder({ facts: { adapter } }: SaidTool): number | null {
  const leverage = adapter && leverageOf(adapter);
  return leverage && settingShare(...leverage);
}

/** The wrenches meant for a stage: those of its own line, else those of the act. */
export function wrenchesFor({ own, shared }: Tightening): readonly SaidTool[] {
  const first = own.filter(isTorqueWrench);
  return first.length > 0 ? first : shared.filter(isTorqueWrench);
}

/** The figure a quantity comes down to: its value, else its one limit, else its upper end. */
export function figureOf(quantity: Quantity): Amount | null {
  return quantity.nominal ?? quantity.high ?? quantity.low;
}

/** Where the machine says what the stage is. */
export function stagePlace({ fastener, stage }: Tightening): Place {
  return placeAt(fastener.file, fastener.line, stage.at);
}
