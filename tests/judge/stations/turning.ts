/** Stations with what turns: a toothed belt with its marks and pins, a rotor with stretched bolts. */
import { below, pick, type Random } from "../../support/random";
import { CAUTION, type Station } from "./station";

export const belts = (n: number, random: Random): Station => {
  const teeth = 18 + 2 * below(random, 5);
  const way = pick(random, ["clockwise", "anticlockwise"]);
  return {
    machine: `part belt-guard-${n} "Belt guard ${n}"
part crank-pulley-${n} "Crank pulley ${n}"  behind belt-${n}
part pump-pulley-${n} "Pump pulley ${n}"  behind belt-${n}
part idler-${n} "Idler ${n}"  spring-loaded
shaft crank-${n} "Crank ${n}"  turns ${way} only
shaft pump-${n} "Pump shaft ${n}"  belt-off free
fastener pulley-nut-${n} "Nut of pump pulley ${n}"  secures pump-pulley-${n}  tighten ${30 + below(random, 20)} N·m
belt belt-${n} "Toothed belt ${n}" {
toothed
behind belt-guard-${n}
way-round ${way} "Arrow on the belt"
path clockwise
pulley crank-pulley-${n}  teeth ${teeth}  on crank-${n}
pulley pump-pulley-${n}  teeth ${2 * teeth}  on pump-${n}
pulley idler-${n}  diameter 50 mm
}
mark crank-mark-${n} "Dot ${n}"  on crank-${n}  at 0°  behind belt-guard-${n}
mark pump-mark-${n} "Slot ${n}"  on pump-${n}  at 0°  behind belt-guard-${n}`,
    head: `temporary crank-pin-${n} "Crank pin ${n}"  into crank-${n}
temporary idler-pin-${n} "Idler pin ${n}"  into idler-${n}`,
    items: `item belt-${n} 1 "B-${n}"`,
    open: `step "Guard ${n} off" {
remove belt-guard-${n}
}
step "Marks ${n}" {
align crank-mark-${n}, pump-mark-${n}
insert crank-pin-${n}
}
step "Belt ${n} off" {
insert idler-pin-${n}  with lever
remove belt-${n}  discard
${CAUTION("warning", "stored-energy")}
pull idler-pin-${n}  with lever
}
step "Pulley ${n}" {
remove pulley-nut-${n}  holding pump-pulley-${n} with holder
remove pump-pulley-${n}
clean pump-pulley-${n}
fit pump-pulley-${n}
fit pulley-nut-${n}  by hand
tighten pulley-nut-${n}  with torque-wrench  holding pump-pulley-${n} with holder
}
check float-${n} "Does pump ${n} turn?" {
observe "Does it turn without rough spots?"
if no {
pull crank-pin-${n}
end job "Renew the pump."
}
}`,
    close: `step belt-on-${n} "Belt ${n} on" {
${CAUTION("notice", "damage")}
align pump-mark-${n}
insert idler-pin-${n}  with lever
fit new belt-${n}  way-round ${way}
lay-on belt-${n} clockwise crank-pulley-${n}, pump-pulley-${n}, idler-${n}
${CAUTION("warning", "stored-energy")}
pull idler-pin-${n}  with lever
pull crank-pin-${n}
}
check timing-${n} "Marks ${n} again" {
turn crank-${n} 2 turns ${way}
marks crank-mark-${n}, pump-mark-${n}
proves belt-${n}
record
if not met {
align crank-mark-${n}
insert crank-pin-${n}
remove belt-${n}  keep
repeat from belt-on-${n}  at most 2 times
}
if still not met {
end job "Ask the maker."
}
}
step "Guard ${n} on" {
fit belt-guard-${n}
}`,
    movable: false,
    risky: true,
  };
};

export const stretched = (n: number, random: Random): Station => ({
  machine: `consumable oil-can-${n} "Oil ${n}"
part rotor-${n} "Rotor ${n}"  weight ${10 + below(random, 5)} kg
fastener rotor-bolts-${n} "Bolts of rotor ${n}" {
secures rotor-${n}
thread M10
class 10.9
oiled oil-can-${n} on thread and under head
count 6
${pick(random, ["", "layout circle  holes 1 to 6\ncrosswise\n"])}stage snug 20 N·m
stage final ${pick(random, [60, 90])}°
renew every time
}`,
  items: `item rotor-bolts-${n} 6 "R-${n}"`,
  open: `step "Rotor ${n} off" {
remove rotor-bolts-${n}  discard
remove rotor-${n}
}`,
  close: `step "Rotor ${n} on" {
fit rotor-${n}
lubricate rotor-bolts-${n}  with oil-can-${n}
fit new rotor-bolts-${n}  by hand
tighten rotor-bolts-${n} {
stage snug  with torque-wrench
stage final  with angle-gauge
}
}`,
  movable: true,
});
