/** What was written down by hand of how things stand in the examples: procedure, place, and the lines of each place. */

const LATE = "Serial 2600 to 4899, with a guard switch";
const FAN = "Serial 400 to 1179, controller with a fan";
const RIDE = "Ride control with accumulator";

const onlyWith = (thing: string, state: string, what: string): string =>
  `${thing}: ${state} (when “${what}”) | not on this machine (when not “${what}”)`;
const GUARD_PLUG = onlyWith("guard-plug", "disconnected", LATE);
const FAN_PLUG = onlyWith("fan-plug", "disconnected", FAN);
const RELIEF_SCREW = onlyWith("relief-screw", "open", RIDE);
const HEATER_HOSE = onlyWith("heater-hose", "disconnected", "Cab with heater");
const CAP = "grease-cap: off (“Grease cap” is no) | off new (“Grease cap” is yes)";
const IN_LINE = "crank 0, injection-pump 0, crank-mark in line, pump-mark in line";

/** By procedure and place. */
export const PLACES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "belt-service": {
    "4": `
      off: hood-panel
      out: hood-screws
      disconnected: battery-lead
      isolated: remote-start
      owed: all`,
    "11": `
      off: hood-panel belt-guard coolant-pipe
      off new: pipe-seal
      out: hood-screws guard-bolts pipe-bolts
      disconnected: battery-lead
      isolated: remote-start
      open: filler-cap
      drained: coolant
      put in: crank-pin tensioner-pin
      ${GUARD_PLUG}
      shafts: ${IN_LINE}, together
      owed: all
      again: drain-tap`,
    "~remove pump-sprocket": `
      off: hood-panel belt-guard coolant-pipe
      off new: pipe-seal timing-belt
      out: hood-screws guard-bolts pipe-bolts
      out new: sprocket-bolt
      disconnected: battery-lead
      isolated: remote-start
      open: filler-cap
      drained: coolant
      put in: crank-pin
      ${GUARD_PLUG}
      shafts: ${IN_LINE}
      owed: all
      again: drain-tap tensioner-pin guide-roller roller-bolt tensioner tensioner-bolt`,
    // After the return the pump is not known: marks that were not met show that its angle is not what was counted.
    "20": `
      off: hood-panel belt-guard coolant-pipe
      off new: pipe-seal
      timing-belt: off new (otherwise) | off (“Timing marks” is not met)
      out: hood-screws guard-bolts pipe-bolts
      disconnected: battery-lead
      isolated: remote-start
      open: filler-cap
      drained: coolant
      put in: crank-pin tensioner-pin
      ${GUARD_PLUG}
      shafts: ${IN_LINE} (otherwise) | crank 0, crank-mark in line (“Timing marks” is not met)
      owed: all`,
    "27": `
      off: hood-panel belt-guard
      out: hood-screws guard-bolts
      in by hand, not tightened: pipe-bolts
      disconnected: battery-lead
      isolated: remote-start
      open: filler-cap
      drained: coolant
      ${GUARD_PLUG}
      shafts: ${IN_LINE}, together
      owed: all`,
    "39": `
      isolated: remote-start
      shafts: not known, together
      owed: all`,
    end: `
      shafts: not known, together`,
  },
  "make-safe": {
    "2": "",
    "~insert padlock": `
      isolated (stays so at the end): drive-circuit
      open (stays so at the end): battery-hood
      disconnected (stays so at the end): battery-plug`,
    "7": `
      isolated (stays so at the end): drive-circuit
      open (stays so at the end): battery-hood
      disconnected (stays so at the end): battery-plug
      put in (stays so at the end): padlock
      off (stays so at the end): panel-cover
      out (stays so at the end): cover-screws`,
    "~check again": `
      isolated (stays so at the end): drive-circuit
      open (stays so at the end): battery-hood
      disconnected (stays so at the end): battery-plug
      put in (stays so at the end): padlock
      off (stays so at the end): panel-cover
      out (stays so at the end): cover-screws`,
    end: `
      isolated (stays so at the end): drive-circuit
      open (stays so at the end): battery-hood
      disconnected (stays so at the end): battery-plug
      put in (stays so at the end): padlock
      off (stays so at the end): panel-cover
      out (stays so at the end): cover-screws`,
  },
  "line-contactor": {
    "6": `
      isolated: drive-circuit
      open: battery-hood
      disconnected: battery-plug
      put in: padlock
      owed: all`,
    "12": `
      isolated: drive-circuit
      open: battery-hood
      disconnected: battery-plug coil-plug
      put in: padlock
      off: panel-cover
      out: cover-screws
      ${FAN_PLUG}
      owed: all`,
    "~fit new drive-fuse": `
      isolated: drive-circuit
      open: battery-hood
      disconnected: battery-plug coil-plug battery-cable controller-cable
      put in: padlock
      off: panel-cover
      off new: contactor drive-fuse
      out: cover-screws contactor-bolts
      out new: terminal-nuts
      ${FAN_PLUG}
      owed: all`,
    "18": `
      isolated: drive-circuit
      open: battery-hood
      disconnected: battery-plug coil-plug
      put in: padlock
      off: panel-cover
      out: cover-screws
      ${FAN_PLUG}
      owed: all
      again: contactor contactor-bolts terminal-nuts battery-cable controller-cable drive-fuse`,
    "22": `
      isolated: drive-circuit
      owed: all`,
    "24": `
      running: bittern-16
      owed: all`,
    end: "",
  },
  "lift-hose-renewal": {
    "5": `
      isolated: battery-switch
      off: side-panel
      out: panel-screws
      put in: test-gauge
      owed: all`,
    "~wait 2 min": `
      isolated: battery-switch
      open: relief-screw
      off: side-panel
      out: panel-screws
      put in: test-gauge
      owed: all`,
    "~fit new plug-ring": `
      isolated: battery-switch
      open: tank-cap
      ${RELIEF_SCREW}
      off: side-panel
      off new: plug-ring
      out: panel-screws drain-plug
      drained: hydraulic-oil
      put in: test-gauge
      owed: all`,
    "11": `
      isolated: battery-switch
      open: tank-cap
      ${RELIEF_SCREW}
      off: side-panel clip-lids
      off new: lift-hose valve-ring cylinder-ring
      out: panel-screws lid-screws valve-nut cylinder-nut
      drained: hydraulic-oil
      put in: test-gauge valve-cap cylinder-cap
      owed: all
      again: drain-plug plug-ring return-filter filter-lid filter-nuts`,
    "15": `
      isolated: battery-switch
      open: tank-cap
      ${RELIEF_SCREW}
      off: side-panel clip-lids
      out: panel-screws lid-screws
      in by hand, not tightened: valve-nut cylinder-nut
      drained: hydraulic-oil
      put in: test-gauge
      owed: all
      again: drain-plug plug-ring return-filter filter-lid filter-nuts lift-hose valve-ring cylinder-ring valve-cap cylinder-cap`,
    "20": `
      running: curlew-30
      off: side-panel
      out: panel-screws
      put in: test-gauge
      owed: all`,
    "26": `
      isolated: battery-switch
      off: side-panel
      out: panel-screws
      owed: all`,
    end: "",
  },
  "hub-bearings": {
    "4": `
      off: wheel grease-cap
      off new: split-pin
      out: wheel-nuts
      held up, raised: dunlin-750
      put in: chocks
      owed: all`,
    "5": `
      off: wheel
      ${CAP}
      off new: split-pin
      out: wheel-nuts
      held up, raised: dunlin-750
      put in: chocks
      owed: all`,
    "9": `
      off: wheel keyed-washer hub
      ${CAP}
      off new: split-pin outer-bearing hub-seal inner-bearing inner-cup outer-cup
      out: wheel-nuts castle-nut
      held up, raised: dunlin-750
      put in: chocks
      owed: all`,
    "12": `
      off: wheel
      ${CAP}
      off new: split-pin
      out: wheel-nuts
      in by hand, not tightened: castle-nut
      held up, raised: dunlin-750
      put in: chocks
      owed: all
      again: keyed-washer outer-bearing hub hub-seal inner-bearing inner-cup outer-cup`,
    "~check again": `
      off: wheel
      ${CAP}
      off new: split-pin
      out: wheel-nuts
      held up, raised: dunlin-750
      put in: chocks
      owed: all
      again: castle-nut keyed-washer outer-bearing hub hub-seal inner-bearing inner-cup outer-cup`,
    "~to down": `
      tightened to “in-the-air” and no further: wheel-nuts
      put in: chocks
      owed: all`,
    "17": "",
    end: "",
  },
  "crank-set": {
    "3": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard chain
      out: guard-screws
      shafts: not known
      owed: all`,
    "~remove left-crank ": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard chain left-dust-cap right-dust-cap
      out: guard-screws left-pedal right-pedal
      out new: left-crank-bolt right-crank-bolt
      shafts: not known
      owed: all`,
    "6": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard chain left-dust-cap right-dust-cap right-crank
      off new: left-crank bearing-unit
      out: guard-screws left-pedal right-pedal left-cup right-cup
      out new: left-crank-bolt right-crank-bolt
      shafts: not known
      owed: all`,
    "~tighten left-cup": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard chain left-dust-cap right-dust-cap right-crank
      off new: left-crank
      out: guard-screws left-pedal right-pedal
      out new: left-crank-bolt right-crank-bolt
      in by hand, not tightened: left-cup
      shafts: not known
      owed: all
      again: bearing-unit right-cup`,
    "12": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard chain left-dust-cap right-dust-cap
      out: guard-screws
      shafts: not known
      owed: all`,
    "15": `
      held up: wagtail-2
      put in: wheel-strap
      off: chain-guard
      out: guard-screws
      shafts: not known, together
      owed: all`,
    "~~tighten right-crank-bolt": `
      off: left-dust-cap right-dust-cap
      shafts: not known, together
      owed: all`,
    end: `
      shafts: not known, together`,
  },
  "cylinder-head-gasket": {
    "~fit new oil-filter": `
      disconnected: battery-lead
      off: bonnet
      out: bonnet-bolts
      out new: oil-filter
      open: radiator-cap
      drained: coolant engine-oil
      owed: all
      again: drain-tap drain-plug plug-ring`,
    "9": `
      disconnected: battery-lead top-hose intake-hose
      ${HEATER_HOSE}
      isolated: fuel-supply
      off: bonnet
      out: bonnet-bolts
      open: radiator-cap
      drained: coolant engine-oil
      owed: all
      again: drain-tap drain-plug plug-ring oil-filter`,
    "16": `
      disconnected: battery-lead top-hose intake-hose injector-pipes leak-off
      ${HEATER_HOSE}
      isolated: fuel-supply
      off: bonnet exhaust-manifold rocker-cover rocker-shaft push-rods tappet-cover
      off new: exhaust-gasket cover-gasket
      out: bonnet-bolts pipe-nuts exhaust-nuts cover-nuts rocker-bolts tappet-bolts
      loose: head-bolts
      open: radiator-cap
      drained: coolant engine-oil
      owed: all`,
    "25": `
      disconnected: battery-lead top-hose intake-hose injector-pipes leak-off
      ${HEATER_HOSE}
      isolated: fuel-supply
      off: bonnet exhaust-manifold rocker-cover rocker-shaft push-rods tappet-cover cylinder-head
      off new: exhaust-gasket cover-gasket head-gasket
      off with what carries it: thermostat-housing
      out: bonnet-bolts pipe-nuts exhaust-nuts cover-nuts rocker-bolts tappet-bolts
      head-bolts: out (“Head bolts, length” is not over) | out new (“Head bolts, length” is over)
      open: radiator-cap
      drained: coolant engine-oil
      owed: all but thermostat-housing`,
    "~to clamp": `
      disconnected: battery-lead top-hose intake-hose injector-pipes leak-off
      ${HEATER_HOSE}
      isolated: fuel-supply
      off: bonnet exhaust-manifold rocker-cover rocker-shaft push-rods tappet-cover
      off new: exhaust-gasket cover-gasket
      out: bonnet-bolts pipe-nuts exhaust-nuts cover-nuts rocker-bolts tappet-bolts
      tightened to “seat” and no further: head-bolts
      open: radiator-cap
      drained: coolant engine-oil
      shafts: not known
      owed: all`,
    "~adjust inlet-adjusters": `
      disconnected: battery-lead top-hose intake-hose injector-pipes leak-off
      ${HEATER_HOSE}
      isolated: fuel-supply
      off: bonnet exhaust-manifold rocker-cover tappet-cover
      off new: exhaust-gasket cover-gasket
      out: bonnet-bolts pipe-nuts exhaust-nuts cover-nuts tappet-bolts
      loose: lock-nuts
      open: radiator-cap
      drained: coolant engine-oil
      shafts: not known
      owed: all`,
    "40": `
      disconnected: battery-lead
      isolated: fuel-supply
      off: bonnet rocker-cover
      off new: cover-gasket
      out: bonnet-bolts cover-nuts
      in by hand, not tightened: pipe-nuts
      open: radiator-cap
      drained: coolant engine-oil
      shafts: not known
      owed: all`,
    "~stop heron-40": `
      running: heron-40
      shafts: not known
      owed: all`,
    end: `
      shafts: not known`,
  },
};
