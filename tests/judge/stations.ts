/**
 * The stations of generated jobs: each with its own parts, opened in some steps and closed again in others, so that any
 * number of them can stand in each other or one after the other.
 */
import { below, pick, type Random } from "../support/random";

export interface Station {
  /** Lines of the machine file. */
  readonly machine: string;
  /** Lines of the header that are for this station alone: kit items, temporaries, conditions. */
  readonly items?: string;
  readonly head?: string;
  /** Steps and checks, as text at the margin. */
  readonly open: string;
  readonly close: string;
  /** It may stand under a condition; what it asks there is asked nowhere else. */
  readonly movable: boolean;
  /** While it is open no job may end: something hangs, or is pinned. */
  readonly risky?: boolean;
}

/** Tools and supplies that stations share; the header declares those that are named. */
export const TOOLS: Readonly<Record<string, string>> = {
  "torque-wrench": 'tool torque-wrench "Torque wrench"  10 to 60 N·m',
  "small-wrench": 'tool small-wrench "Small torque wrench"  2 to 12 N·m',
  "angle-gauge": 'tool angle-gauge "Angle gauge"',
  "dial-gauge": 'tool dial-gauge "Dial gauge"',
  feeler: 'tool feeler "Feeler gauges"',
  thermometer: 'tool thermometer "Thermometer"',
  tester: 'tool tester "Two-pole voltage tester"  proves-dead',
  holder: 'tool holder "Two-pin holder"',
  lever: 'tool lever "Lever"',
  "prop-stand": 'tool prop-stand "Stand"  rating 300 kg',
  degreaser: 'consumable degreaser "Degreaser"  harmful',
};

export const CAUTION = (word: string, hazard: string): string => `${word} ${hazard} {
"What stands here can hurt you."
can "Hurt a hand."
so "Keep your hands away until it is done."
}`;

/** The holes of a grid of two rows, from the middle out. */
function spread(count: number): number[] {
  const half = count / 2;
  const holes = Array.from({ length: count }, (_, i) => i + 1);
  const column = (hole: number): number => (hole - 1) % half;
  return holes.sort((a, b) => Math.abs(column(a) - (half - 1) / 2) - Math.abs(column(b) - (half - 1) / 2));
}

const condensers = (n: number, random: Random): Station => {
  const minutes = 2 + below(random, 9);
  return {
    machine: `circuit feed-${n} "Feed of condenser ${n}"
part flap-${n} "Flap ${n}"
part condenser-${n} "Condenser ${n}" {
behind flap-${n}
high-voltage
stores-charge ${minutes} min
}
tap vent-${n} "Vent ${n}"`,
    head: `person helper-${n} "Second person at condenser ${n}"`,
    open: `step "Let condenser ${n} run down" {
isolate feed-${n}
wait ${minutes} min
open vent-${n}
}
step "Condenser ${n} out" {
remove flap-${n}
${CAUTION("danger", "electric-shock")}
remove condenser-${n}  watched by helper-${n}
}`,
    close: `step "Condenser ${n} in" {
fit condenser-${n}
fit flap-${n}
close vent-${n}
restore feed-${n}
}`,
    movable: true,
  };
};

const covers = (n: number, random: Random): Station => {
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

const sealed = (n: number, random: Random): Station => {
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

const inverter = (n: number, random: Random): Station => {
  const minutes = 3 + below(random, 8);
  return {
    machine: `circuit mains-${n} "Supply of drive ${n}"
part lid-${n} "Lid of drive ${n}"
part inverter-${n} "Drive ${n}" {
behind lid-${n}
high-voltage
stores-charge ${minutes} min
}
fastener lid-screws-${n} "Screws of lid ${n}" {
secures lid-${n}
count 4
tighten ${4 + below(random, 7)} N·m
}
wire bus-wire-${n} "Bus wire of drive ${n}" {
behind lid-${n}
high-voltage
}
connector plug-a-${n} "Plug of the motor ${n}" {
behind lid-${n}
like plug-b-${n}
}
connector plug-b-${n} "Plug of the brake ${n}" {
behind lid-${n}
like plug-a-${n}
}`,
    head: `person watcher-${n} "Second person at drive ${n}"`,
    open: `step "Cut off ${n}" {
isolate mains-${n}  watched by watcher-${n}
wait ${minutes} min
}
step "Lid ${n} off" {
remove lid-screws-${n}
remove lid-${n}
}
step "Prove the tester ${n}" {
prove tester on "the socket beside it"
}
check dead-${n} "No voltage ${n}" {
limit at most 12 V  with tester
record
if over {
wait ${minutes} min
check again  at most 2 times
}
if still over {
end job "It stays live: ask the maker."
}
}
step "Prove the tester again ${n}" {
prove tester on "the socket beside it"
}
step "Drive ${n} out" {
${CAUTION("danger", "electric-shock")}
disconnect bus-wire-${n}  watched by watcher-${n}
remove inverter-${n}  watched by watcher-${n}
}
step "Plugs ${n}" {
label plug-a-${n}, plug-b-${n} "M and B"
disconnect plug-a-${n}
disconnect plug-b-${n}
}`,
    close: `step "Plugs on ${n}" {
connect plug-a-${n}
connect plug-b-${n}
}
step "Drive ${n} in" {
fit inverter-${n}
connect bus-wire-${n}
fit lid-${n}
fit lid-screws-${n}  by hand
tighten lid-screws-${n}  with small-wrench
restore mains-${n}
}`,
    movable: false,
  };
};

const belts = (n: number, random: Random): Station => {
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

const stretched = (n: number, random: Random): Station => ({
  machine: `consumable oil-can-${n} "Oil ${n}"
part rotor-${n} "Rotor ${n}"  weight ${10 + below(random, 5)} kg
fastener rotor-bolts-${n} "Bolts of rotor ${n}" {
secures rotor-${n}
thread M10
class 10.9
oiled oil-can-${n} on thread and under head
count 6
stage snug 20 N·m
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

const heavy = (n: number, random: Random): Station => ({
  machine: `part frame-${n} "Frame ${n}"
part ram-${n} "Ram ${n}" {
bears frame-${n}
weight ${8 + below(random, 6)} kg
}
part motor-${n} "Motor ${n}"  weight ${30 + below(random, 50)} kg
part rods-${n} "Push rods ${n}" {
count 4
own-place
}
part lip-seal-${n} "Lip seal ${n}"  way-round inwards "The lip"`,
  items: `item lip-seal-${n} 1 "L-${n}"`,
  open: `step "Weight ${n}" {
${CAUTION("warning", "crushing")}
support frame-${n}  with prop-stand
raise motor-${n}  with prop-stand
}
step "Ram ${n} off" {
${CAUTION("warning", "crushing")}
remove ram-${n}
remove motor-${n}
remove rods-${n}  keep
remove lip-seal-${n}  discard
}`,
  close: `step "Ram ${n} on" {
fit new lip-seal-${n}  way-round inwards
fit rods-${n}  in own place
fit motor-${n}
fit ram-${n}
}
step "Weight off ${n}" {
lower motor-${n}
release frame-${n}
}`,
  movable: true,
  risky: true,
});

const measured = (n: number, random: Random): Station => {
  const low = (1 + below(random, 4)) / 100;
  const high = low + (5 + below(random, 5)) / 100;
  return {
    machine: `part bearing-cap-${n} "Bearing cap ${n}"
part shim-${n} "Shim ${n}"  behind bearing-cap-${n}
fastener cap-bolts-${n} "Bolts of bearing cap ${n}" {
secures bearing-cap-${n}
count 2
tighten ${20 + below(random, 30)} N·m
}
fastener stop-screw-${n} "Stop screw ${n}" {
setting
tighten by feel "It only keeps its place."
}`,
    items: `item shim-${n} 1 "S-${n}"  only if play-${n} over`,
    open: `step "Look at cap ${n}" {
"Look for cracks."
}
check play-${n} "Play of bearing ${n}" {
limit ${low.toFixed(2)} to ${high.toFixed(2)} mm  with dial-gauge
record
if under {
end job "The bearing seizes: renew it."
}
}
step "Cap ${n} off" {
remove cap-bolts-${n}
remove bearing-cap-${n}
remove shim-${n}  keep
}`,
    close: `step "Shim ${n}" {
when play-${n} over {
fit new shim-${n}
}
otherwise {
fit shim-${n}
}
}
step cap-on-${n} "Cap ${n} on" {
fit bearing-cap-${n}
fit cap-bolts-${n}  by hand
tighten cap-bolts-${n}  with torque-wrench
}
check free-${n} "Does bearing ${n} turn?" {
observe "Does the shaft turn freely?"
proves cap-bolts-${n}
if no {
remove cap-bolts-${n}
remove bearing-cap-${n}
repeat from cap-on-${n}  at most ${1 + below(random, 2)} times
}
if still no {
end job "Renew the bearing."
}
}
check gap-${n} "Gap ${n}" {
choose narrow-${n} 0.10 to 0.20 mm "Narrow"  with feeler
choose wide-${n} over 0.20 to 0.40 mm "Wide"
record
if wide-${n} {
adjust stop-screw-${n}
check again  at most 2 times
}
if still wide-${n} {
end job "The screw is worn."
}
}`,
    movable: false,
  };
};

/** Every kind of station. */
export const STATIONS: readonly ((n: number, random: Random) => Station)[] = [
  covers,
  condensers,
  condensers,
  sealed,
  inverter,
  belts,
  stretched,
  heavy,
  measured,
];
