/** Stations with covers: behind shrouds, or sealed and full of oil. */
import { below, pick, type Random } from "../../support/random";
import { CAUTION, type Station } from "./station";

/** The holes of a grid of two rows, from the middle out. */
function spread(count: number): number[] {
  const half = count / 2;
  const holes = Array.from({ length: count }, (_, i) => i + 1);
  const column = (hole: number): number => (hole - 1) % half;
  return holes.sort((a, b) => Math.abs(column(a) - (half - 1) / 2) - Math.abs(column(b) - (half - 1) / 2));
}

export const covers = (n: number, random: Random): Station => {
  const count = 4 + 2 * below(random, 3);
  const torque = 14 + below(random, 30);
  const oneLine = below(random, 2) === 0;
  const isRound = below(random, 2) === 0;
  return {
    machine: `part shroud-${n} "Shroud ${n}"  weight 2 kg
part cover-${n} "Cover ${n}" {
behind shroud-${n}
weight 6 kg
}
part gasket-${n} "Gasket of cover ${n}" {
behind cover-${n}
renew every time
}
fastener shroud-screws-${n} "Screws of shroud ${n}" {
secures shroud-${n}
thread M6
class 8.8
dry
count 4
layout row  holes 1 to 4
order ${pick(random, ["2, 3, 1, 4", "3, 2, 4, 1", "2, 3, 4, 1"])}
tighten 8 N·m
}
fastener cover-bolts-${n} "Bolts of cover ${n}" {
secures cover-${n}
thread M8
class 8.8
dry
count ${count}
layout ${isRound ? "circle" : "grid"}  holes 1 to ${count}
tighten ${Math.min(torque, 24)} N·m
${isRound ? "crosswise" : `order ${spread(count).join(", ")}`}
}`,
    items: `item gasket-${n} 1 "G-${n}"`,
    open: `step "Shroud ${n} off" {
${oneLine ? `remove shroud-screws-${n}, shroud-${n}` : `remove shroud-screws-${n}\nremove shroud-${n}`}
}
step "Cover ${n} off" {
"Lay it down with the joint face up."
loosen cover-bolts-${n}
remove cover-bolts-${n}
remove cover-${n}
remove gasket-${n}  discard
}`,
    close: `step "Cover ${n} on" {
fit new gasket-${n}
fit cover-${n}
fit cover-bolts-${n}  by hand
tighten cover-bolts-${n}  with torque-wrench
}
step "Shroud ${n} on" {
fit shroud-${n}
fit shroud-screws-${n}  by hand
tighten shroud-screws-${n}  with small-wrench
}`,
    movable: true,
  };
};

export const sealed = (n: number, random: Random): Station => {
  const open = 10 + 5 * below(random, 3);
  const torque = 18 + below(random, 6);
  return {
    machine: `consumable sealant-${n} "Liquid sealant ${n}" {
open-time ${open} min
cure 2 h
}
fluid oil-${n} "Oil ${n}"  1.${below(random, 9)} L  hot
part sump-${n} "Sump ${n}" {
contains oil-${n}
weight 8 kg
}
fastener sump-bolts-${n} "Bolts of sump ${n}" {
secures sump-${n}
thread M8
class 8.8
dry
count 8
tighten ${torque} N·m (${Math.round(torque / 1.355_818)} lb·ft)
}
tap drain-tap-${n} "Drain tap ${n}"`,
    open: `step "Drain sump ${n}" {
${CAUTION("warning", "burn")}
wait until oil-${n} below 40 °C  with thermometer
open drain-tap-${n}
drain oil-${n}  keep
close drain-tap-${n}
}
step "Sump ${n} off" {
remove sump-bolts-${n}, sump-${n}
}`,
    close: `step sump-on-${n} "Sump ${n} on" {
${CAUTION("caution", "chemical")}
clean sump-${n}  with degreaser
wait 5 min
seal sump-${n}  with sealant-${n}
fit sump-${n}
fit sump-bolts-${n}  by hand
tighten sump-bolts-${n}  with torque-wrench
}
step "Fill ${n}" {
wait 2 h after sump-on-${n}
fill oil-${n}
}`,
    movable: true,
  };
};
