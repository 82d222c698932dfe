/** Stations with what is lifted and what is measured: rams, push rods, bearing caps, gaps. */
import { below, type Random } from "../../support/random";
import { CAUTION, type Station } from "./station";

export const heavy = (n: number, random: Random): Station => ({
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

export const measured = (n: number, random: Random): Station => {
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
limit "Left" ${low.toFixed(2)} to ${high.toFixed(2)} mm  with dial-gauge  at 15 to 25 °C
limit "Right" ${low.toFixed(2)} to ${high.toFixed(2)} mm  with dial-gauge  at 15 to 25 °C
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
tighten cap-bolts-${n}  with torque-wrench, crowfoot
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
