/** A torque that the wrench said for it cannot give, or not well. */
import type { Place } from "../model";
import { type Amount, slack } from "../units/amount";
import { round } from "../units/decimal";
import { formatAmount } from "../units/format";
import { fromSi } from "../units/unit";
import { titleOf, twins } from "./say";
import {
  figureOf,
  isAdapter,
  type SaidTool,
  saidTools,
  stagePlace,
  type Tightening,
  tighteningsOf,
  wrenchesFor,
} from "./tightenings";
import type { Fault, ProcedureRule } from "./types";

/** Under this share of its top a wrench is not trusted (common practice, no source). */
const TRUSTED_FROM = 0.2;

export const toolOutOfRange: ProcedureRule = {
  code: "tool-out-of-range",
  severity: "error",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    over: "{setting} is more than “{tool}” can give: it ends at {top}.",
    under: "{setting} is less than “{tool}” can show: it begins at {bottom}.",
    low: "{setting} is under a fifth of the top of “{tool}”, {top}, where a wrench is not to be trusted.",
    "over-hint": "Say a wrench whose range takes {setting} in.",
    "under-hint": "Say a smaller wrench for it.",
    "low-hint": "Say a smaller wrench, one of at most {most}.",
    tool: "“{tool}” is declared here.",
    torque: "The torque of “{title}” stands here.",
  },
  docs: {
    what: "A torque lies outside the range of the wrench said for it, or under a fifth of its top. With an adapter in line the wrench’s setting is compared.",
    why: "Over its top a wrench breaks or never clicks; near its bottom its error is as large as what it shows.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts"  tighten 80 N·m
}

procedure settle "Tighten the lid again" {
  on winch
  tool wrench "Torque wrench"  10 to 60 N·m
  step "Tighten" {
    tighten lid-bolts  with wrench
  }
}
`,
      "10 to 60 N·m",
      "20 to 100 N·m",
    ),
  },
  check(procedure, report) {
    for (const tightening of tighteningsOf(procedure)) {
      const setting = settingOf(tightening);
      const wrenches = wrenchesFor(tightening);
      if (setting === null || wrenches.length === 0) continue;
      const faults = wrenches.map((wrench) => faultOf(tightening, wrench, setting));
      const [first] = faults;
      if (first && faults.every((f) => f !== null)) report(first);
    }
  },
};

/** What the wrench is set to: the torque, shortened where an adapter in line lengthens the lever. Null if not known. */
function settingOf(tightening: Tightening): Amount | null {
  const { stage } = tightening;
  const torque = stage.kind === "torque" && stage.value ? figureOf(stage.value) : null;
  const inLine = saidTools(tightening)
    .filter(isAdapter)
    .find((t) => t.facts.inLine)?.facts.inLine;
  if (!torque || !inLine) return torque;
  const lever = inLine.lever && figureOf(inLine.lever)?.si;
  const extension = inLine.extension && figureOf(inLine.extension)?.si;
  if (!lever || extension === null || extension === undefined) return null;
  // Equal moments about the bolt: the force on the grip acts on lever + extension, the wrench feels lever alone.
  return inUnitOf(torque, (torque.si * lever) / (lever + extension));
}

function inUnitOf({ unit, decimal }: Amount, si: number): Amount {
  const digits = Math.max(decimal.digits, 1);
  const value = round(fromSi(si, unit), digits);
  return { unit, si, decimal: { text: String(value), value, digits } };
}

function faultOf(
  tightening: Tightening,
  { thing, facts, place }: SaidTool,
  setting: Amount,
): Fault<Place> | null {
  const { range } = facts;
  const [low, high] = [range?.low ?? null, range?.high ?? null];
  const figure = (amount: Amount | null): string => (amount ? formatAmount(amount, { plain: true }) : "");
  const args = {
    setting: figure(setting),
    tool: titleOf(thing),
    top: figure(high),
    bottom: figure(low),
    title: titleOf(tightening.fastener),
  };
  const related = [
    { place: thing.place, message: "tool", args },
    { place: stagePlace(tightening), message: "torque", args },
  ];
  const under = (bound: number): boolean => setting.si < bound - slack(bound);
  if (high && setting.si > high.si + slack(high.si)) return { place, message: "over", args, related };
  if (low && under(low.si)) return { place, message: "under", severity: "warning", args, related };
  // A wrench of one setting is made for it.
  if (!high || range?.shape === "exact" || !under(high.si * TRUSTED_FROM)) return null;
  const most = figure(inUnitOf(setting, setting.si / TRUSTED_FROM));
  return { place, message: "low", severity: "warning", args: { ...args, most }, related };
}
