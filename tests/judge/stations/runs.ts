/** Stations with what runs: belts and chains round two to six pulleys, hoses and wires through their clips. */
import { below, pick, type Random } from "../../support/random";
import { type BeltPulley, faultIn, overlap, pathOf } from "../belts";
import type { Station } from "./station";

type Make = "toothed" | "flat" | "vee" | "chain";

const PITCH = { toothed: 8, chain: 12.7, flat: 0, vee: 0 } as const;

/** Share of a turn that each pulley is wrapped by at least and at most, and teeth in mesh. */
const LEAST_WRAP = 0.06;
const MOST_WRAP = 0.7;
const LEAST_TEETH = 6.5;
/** Millimetres that everything has to spare. */
const SPARE = 6;

/** Pulleys round the middle of the view, as they are laid on; every second one may lie outside. */
function ring(random: Random, count: number, make: Make, round: BeltPulley["name"]): BeltPulley[] | null {
  const pulleys = Array.from({ length: count }, (_, i): BeltPulley => {
    const angle = (2 * Math.PI * (i + 0.4 * random() - 0.2)) / count;
    const isBack = count > 2 && i % 2 === 1 && i < 4 && below(random, 3) > 0;
    const away = isBack ? 80 + below(random, 110) : 170 + below(random, 120);
    const teeth = isBack || PITCH[make] === 0 ? null : 18 + 2 * below(random, 8);
    const diameter = 40 + 5 * below(random, 10);
    const byTeeth =
      make === "chain"
        ? PITCH.chain / Math.sin(Math.PI / (teeth ?? 1))
        : (PITCH.toothed * (teeth ?? 0)) / Math.PI;
    return {
      name: "",
      line: 0,
      shaft: null,
      centre: { x: Math.round(away * Math.cos(angle)), y: Math.round(away * Math.sin(angle)) },
      radius: (teeth === null ? diameter : byTeeth) / 2,
      side: isBack ? "back" : "inside",
      teeth,
      travel: i === 1 && count > 2 && below(random, 4) > 0 ? 8 : 0,
    };
  });
  const order = round === "clockwise" ? [...pulleys].reverse() : pulleys;
  // Listed from the same pulley, so that the one that moves lies behind it in either way.
  const listed =
    round === "clockwise" ? [order[count - 1] as BeltPulley, ...order.slice(0, count - 1)] : order;
  const moving = listed.map((p, i) => ({ ...p, travel: i === 1 ? (pulleys[1] as BeltPulley).travel : 0 }));
  return isRoomy(moving, round as "clockwise") ? moving : null;
}

function isRoomy(pulleys: readonly BeltPulley[], round: "clockwise" | "anticlockwise"): boolean {
  const wider = pulleys.map((p) => ({ ...p, radius: p.radius + SPARE }));
  if (wider.some((a, i) => wider.slice(i + 1).some((b) => overlap(a, b)))) return false;
  if (faultIn({ pulleys: wider, round }) || faultIn({ pulleys, round })) return false;
  const { wraps } = pathOf({ pulleys, round });
  return (
    wraps.every((wrap) => wrap > LEAST_WRAP && wrap < MOST_WRAP) &&
    [0, drivenOf(pulleys)].every((i) => {
      const { teeth } = pulleys[i] as BeltPulley;
      return teeth === null || teeth * (wraps[i] as number) > LEAST_TEETH;
    })
  );
}

/** The other shaft sits on the last pulley that the belt's inside turns. */
const drivenOf = (pulleys: readonly BeltPulley[]): number =>
  pulleys.findLastIndex((p) => p.side === "inside");

const greatest = (a: number, b: number): number => (b === 0 ? a : greatest(b, a % b));

export const runs = (n: number, random: Random): Station => {
  const make = pick<Make>(random, ["toothed", "toothed", "flat", "vee", "chain"]);
  const round = pick(random, ["clockwise", "anticlockwise"] as const);
  const count = 2 + below(random, 5);
  let pulleys: BeltPulley[] | null = null;
  while (!pulleys) pulleys = ring(random, count, make, round);
  const names = pulleys.map((_, i) => (i === 0 ? `drive-pulley-${n}` : `pulley-${n}-${i}`));
  const other = drivenOf(pulleys);
  const [driver, driven] = [pulleys[0] as BeltPulley, pulleys[other] as BeltPulley];
  const ratio = [driver.teeth ?? 0, driven.teeth ?? 0];
  const common = greatest(ratio[0] as number, ratio[1] as number) || 1;
  const saidRatio = ratio[0] ? `  ratio ${ratio.map((z) => z / common).join("/")} of drive-${n}` : "";
  const length = pathOf({ pulleys, round }).length;
  const sized =
    PITCH[make] > 0
      ? `pitch ${PITCH[make]} mm\nteeth ${Math.round(length / PITCH[make])}`
      : `length ${Math.round(length)} mm`;
  const lines = pulleys.map((p, i) =>
    [
      `pulley ${names[i]}`,
      p.teeth === null ? `diameter ${2 * p.radius} mm` : `teeth ${p.teeth}`,
      `centre ${p.centre.x} mm, ${p.centre.y} mm`,
      ...(i === 0 ? [`on drive-${n}`] : i === other ? [`on driven-${n}`] : []),
      ...(p.side === "back" ? ["back of belt"] : []),
      ...(p.travel > 0 ? [`travel ${p.travel} mm`] : []),
      ...(i === 0 || i === other ? ["loaded"] : []),
    ].join("  "),
  );
  return {
    machine: `part run-guard-${n} "Guard of run ${n}"
${names.map((name, i) => `part ${name} "Pulley ${i + 1} of run ${n}"  behind run-${n}`).join("\n")}
shaft drive-${n} "Driving shaft ${n}"  turns ${round} only
shaft driven-${n} "Driven shaft ${n}"${saidRatio}  belt-off free
${make === "chain" ? "chain" : "belt"} run-${n} "${make === "chain" ? "Chain" : "Belt"} ${n}" {
${make === "chain" ? "" : `${make}\n`}behind run-guard-${n}
way-round ${round} "The arrow"
${sized}
path ${round}
${lines.join("\n")}
}`,
    items: `item run-${n} 1 "R-${n}"`,
    head: `temporary disc-${n} "Degree disc ${n}"  on drive-${n}`,
    open: `step "Run ${n} off" {
remove run-guard-${n}
remove run-${n}  discard
}
step "Pulley ${n}" {
remove ${names[other]}
clean ${names[other]}
fit ${names[other]}
}`,
    close: `step "Run ${n} on" {
fit new run-${n}  way-round ${round}
lay-on run-${n} ${round} ${names.join(", ")}
insert disc-${n}
turn drive-${n} ${2 + below(random, 3)} turns ${round}
pull disc-${n}
}
step "Guard of run ${n} on" {
fit run-guard-${n}
}`,
    movable: true,
  };
};

/** Places one after the other from left to right, none of them far off the line. */
const places = (random: Random, count: number): { x: number; y: number }[] =>
  Array.from({ length: count }, (_, i) => ({ x: 120 * i + below(random, 20), y: below(random, 60) }));

export const lines = (n: number, random: Random): Station => {
  const clips = 3 + below(random, 3);
  const at = places(random, clips + 2);
  const way = at.slice(1).reduce((sum, p, i) => {
    const before = at[i] as { x: number; y: number };
    return sum + Math.hypot(p.x - before.x, p.y - before.y);
  }, 0);
  const slack = 5 * (2 + below(random, 5));
  const kind = pick(random, ["hose", "cable", "wire"]);
  const centre = (i: number): string => `centre ${at[i]?.x} mm, ${at[i]?.y} mm`;
  const names = Array.from({ length: clips }, (_, i) => `clip-${n}-${i + 1}`);
  return {
    machine: `part panel-${n} "Panel ${n}"
part box-${n} "Box ${n}"  ${centre(0)}
part unit-${n} "Unit ${n}"  ${centre(clips + 1)}
${names.map((name, i) => `clip ${name} "Clip ${i + 1} of line ${n}"  ${centre(i + 1)}`).join("\n")}
${kind} line-${n} "Line ${n}" {
behind panel-${n}
from box-${n} to unit-${n}
through ${names.join(", ")}
bend-radius at least ${10 + 5 * below(random, 3)} mm
length ${Math.ceil(way) + slack + 20} mm
slack ${slack} mm
}`,
    items: `item line-${n} 1 "N-${n}"`,
    open: `step "Line ${n} off" {
remove panel-${n}
remove line-${n}  discard
}`,
    close: `step "Line ${n} on" {
fit new line-${n}
run line-${n} through ${names.join(", ")}
fit panel-${n}
}`,
    movable: true,
  };
};
