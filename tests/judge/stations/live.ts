/** Stations with what is under voltage: condensers, drives, plugs that look alike. */
import { below, type Random } from "../../support/random";
import { CAUTION, type Station } from "./station";

export const condensers = (n: number, random: Random): Station => {
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

export const inverter = (n: number, random: Random): Station => {
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
