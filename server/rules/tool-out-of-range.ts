/** A torque that the wrench said for it cannot give, or not well. */
import { checkOf, type Limit, toolFacts } from "../facts";
import { exactly } from "../mechanics/range";
import { fitOf, TRUSTED_FROM } from "../mechanics/wrench";
import { type Place, type Procedure, placeAt } from "../model";
import type { Amount } from "../units/amount";
import { round, shortestDecimal } from "../units/decimal";
import { sameDimension } from "../units/dimension";
import { formatAmount, formatQuantity } from "../units/format";
import { contains } from "../units/quantity";
import { fromSi } from "../units/unit";
import { titleOf, twins } from "./say";
import {
  figureOf,
  type SaidTool,
  saidTools,
  shareUnder,
  stagePlace,
  type Tightening,
  tighteningsOf,
  wrenchesFor,
} from "./tightenings";
import type { Fault, ProcedureRule } from "./types";

export const toolOutOfRange: ProcedureRule = {
  code: "tool-out-of-range",
  severity: "error",
  group: "tools and supplies",
  grain: "procedure",
  messages: {
    shows: "“{tool}” cannot show {figure}: it reads {range}.",
    "shows-hint": "Say one that can, or correct the range or the limit.",
    over: "{setting} is more than “{tool}” can give: it ends at {top}.",
    under: "{setting} is less than “{tool}” can show: it begins at {bottom}.",
    low: "{setting} is under a fifth of the top of “{tool}”, {top}, where a wrench is not to be trusted.",
    "over-hint": "Say a wrench whose range takes {setting} in.",
    "under-hint": "Say a smaller wrench for it.",
    "low-hint": "Say a smaller wrench, one of at most {most}.",
    tool: "“{tool}” is declared here.",
    torque: "The torque of “{title}” stands here.",
    adapter: "With “{adapter}” the wrench is set to {setting}, for {wanted} at the bolt.",
  },
  docs: {
    what: "A torque lies outside the range of the wrench said for it, or under a fifth of its top. With an adapter in line or at an angle the wrench’s setting is compared. Or a limit lies outside what the tool that measures it reads, as a warning.",
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
    for (const fault of unreadable(procedure)) report(fault);
  },
};

/** Limits that no tool said for them can show. */
function unreadable(procedure: Procedure): Fault<Place>[] {
  return procedure.targets.flatMap((thing) =>
    thing.kind === "check"
      ? checkOf(thing.entry).limits.flatMap((limit) => {
          const at = placeAt(thing.file, thing.line + limit.row, limit.entry.form.at);
          return limitFault(procedure, limit, at) ?? [];
        })
      : [],
  );
}

function limitFault(procedure: Procedure, { value, tools }: Limit, place: Place): Fault<Place> | null {
  if (!value) return null;
  const measuring = tools.flatMap(({ name }) => {
    const thing = procedure.find(name, ["tool"]);
    const range = thing && toolFacts(thing.entry).range;
    const reads = range?.shape === "range" && sameDimension(range.kind, value.kind);
    return thing && range && reads ? [{ thing, range }] : [];
  });
  const ends = [value.low, value.high].filter((end) => end !== null);
  const beyond = ends.find((end) => measuring.every(({ range }) => !contains(range, end.si)));
  const [tool] = measuring;
  if (!tool || !beyond) return null;
  const args = {
    tool: titleOf(tool.thing),
    figure: formatAmount(beyond, { plain: true }),
    range: formatQuantity(tool.range, { plain: true }),
  };
  const related = [{ place: tool.thing.place, message: "tool", args }];
  return { place, message: "shows", severity: "warning", args, related };
}

/** What the wrench is set to: the torque, changed where an adapter lengthens or shortens the lever. Null if not known. */
function settingOf(tightening: Tightening): Amount | null {
  const { stage } = tightening;
  const torque = stage.kind === "torque" && stage.value ? figureOf(stage.value) : null;
  const adapter = saidTools(tightening).find((tool) => tool.facts.adapter);
  if (!torque || !adapter) return torque;
  const share = shareUnder(adapter);
  return share === null ? null : inUnitOf(torque, torque.si * share);
}

/** Where an adapter makes the setting another than the torque, it is named beside it. */
function adapterSaid(
  tightening: Tightening,
  args: Readonly<Record<string, string>>,
): { place: Place; message: string; args: Readonly<Record<string, string>> }[] {
  const adapter = saidTools(tightening).find((tool) => tool.facts.adapter);
  const wanted = tightening.stage.value && figureOf(tightening.stage.value);
  if (!adapter || !wanted) return [];
  const more = { adapter: titleOf(adapter.thing), wanted: formatAmount(wanted, { plain: true }) };
  return [{ place: adapter.place, message: "adapter", args: { ...args, ...more } }];
}

function inUnitOf({ unit, decimal }: Amount, si: number): Amount {
  const digits = Math.max(decimal.digits, 1);
  // As many digits as it has: 35.6 stays 35.6, 180.0 becomes 180.
  return { unit, si, decimal: shortestDecimal(round(fromSi(si, unit), digits), digits) };
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
    ...adapterSaid(tightening, args),
  ];
  // Of a wrench whose top is not said, only the bottom can be held against the torque.
  const top = high?.si ?? Math.max(setting.si, low?.si ?? 0);
  const fit = fitOf({ bottom: low?.si ?? null, top }, exactly(setting.si));
  if (fit === "over") return { place, message: "over", args, related };
  if (fit === "under") return { place, message: "under", severity: "warning", args, related };
  if (fit !== "untrusted" || !high) return null;
  const most = figure(inUnitOf(setting, setting.si / TRUSTED_FROM));
  return { place, message: "low", severity: "warning", args: { ...args, most }, related };
}
