/** The sheet made by hand: the work. */
import type { Block, Measure } from "../../server/sheet/blocks";
import { act, dual, panel, ref, step, TORQUE_22, words } from "./make";

/** A small grey picture of a ring, in base 64. */
export const PNG =
  "iVBORw0KGgoAAAANSUhEUgAAAPAAAABkCAAAAACdyeIbAAABq0lEQVR42u3c4bGEMAgE4C2MwtIzReT9f+NpVJbELNvA+Q3OnBoAXSwocIELHJKmAG6/siO4XWUncBvNFuB2Lx8Htyf5LvhM5ZPISOX6cTLJSOP6ebLISOH6WDLI4HP9TuhksL1+N2QxFuPSyWB6/WmIYvC8/iY0Mdb08sRYk8sjY1kvSQyG16NCEGNlL0OMpb0EcTzYnSNeDMzyhouxujdajFlemySOBY9A/+eGeBnwcIHtOJklRl6B7SxpJUaW166SJEbSDW32Shx3UyOlwDaWjBIjo8Bmr8VhJUZCgc0CxR8Am0WIlwHHevliOtgsSFzgOeBwL1tc4FiwWZx4KbAngP0DYDNCiQucCW4TwK3ABS5wgQtc4PofLrDUs7Tc21K9D28Lro948uDtvkvLnTzoni3JnB7KnQ/rdQDI9XjodfHo9WnJdeLp9VrKddPq9UvrdcTrzTzITbXozS3pTabpzR52uenSrjc/rDchrrcDoMtteeh6ezy63KaWA/Luu3gOyXtvW/pB3nmf1hV5w41pT8zsy6mth9PQSddRm0vT8JN+t7YPF3iz/AFN+BoSJJmSpgAAAABJRU5ErkJggg==";

export const endFloat: Measure = {
  kind: "measure",
  id: "end-float",
  limit: words("‹0.05 to 0.15 mm› (‹0.0020 to 0.0059 in›)"),
  unit: "mm",
  range: { min: 0.05, max: 0.15 },
  places: [""],
  temperature: words("‹15 to 25 °C›"),
  instrument: words("Dial gauge"),
};

export const work: readonly Block[] = [
  {
    kind: "section",
    id: "make-safe",
    title: "Make safe",
    blocks: [
      step(1, "Let it cool", [
        {
          kind: "wait",
          id: "wait-cool",
          sentence: words(
            "Wait until the coolant is below ‹40 °C›. Measure on the thermostat housing, with the contact thermometer.",
          ),
          until: { limit: words("below ‹40 °C› (‹104 °F›)"), unit: "°C", range: { max: 40, maxOpen: true } },
        },
        act("lead-off", "Disconnect the *battery negative lead*."),
      ]),
      step(2, "Drain", [
        panel(
          "burn",
          "warning",
          "Hot coolant sprays out of an open system.",
          "It scalds.",
          "Open nothing until it is below ‹40 °C›.",
        ),
        act("drain", "Drain the *coolant* into the drain tray. Keep it: it goes back in."),
      ]),
    ],
  },
  {
    kind: "section",
    id: "take-off",
    title: "Take off",
    blocks: [
      {
        kind: "prose",
        id: "take-off-intro",
        runs: [
          ...words("Lay every bolt beside its part, in the order it came out. Bolt lengths _differ_; see "),
          { text: "the bolt chart", style: "link", href: "https://parts.example/skua-27/bolts" },
          ...words("."),
        ],
      },
      step(3, "Guard", [
        act("guard-off", "Remove the *belt guard bolts* and the *belt guard*.", { people: 2 }),
      ]),
      step(4, "Coolant pipe", [
        act("pipe-off", "Remove the *coolant pipe bolts* and the *coolant pipe across the belt*."),
        act("seal-off", "Remove the *pipe seal*. Discard it."),
        { kind: "note", id: "note-pipe", runs: words("Bolt 3 is the long one, ‹40 mm› (‹1.57 in›).") },
      ]),
      step(5, "Belt", [
        act(
          "align-off",
          "Turn the *crankshaft* anticlockwise until the dot on the sprocket meets the cast arrow and the slot in the flange meets the timing plate.",
        ),
        act("pin-in-1", "Insert the *tensioner locking pin*."),
        act("belt-off", "Remove the *injection-pump belt*. Discard it."),
        panel(
          "spring-1",
          "warning",
          "The tensioner arm is spring-loaded.",
          "It crushes a finger.",
          "Hold the arm and let it down slowly onto its stop.",
        ),
        act("pin-out-1", "Pull the *tensioner locking pin*.", { people: 2 }),
      ]),
    ],
  },
  {
    kind: "section",
    id: "measure",
    title: "Measure",
    blocks: [
      {
        kind: "check",
        id: "step-6",
        number: "6",
        title: "Pump shaft end float",
        changed: true,
        body: [
          { kind: "prose", id: "ef-prose", runs: words("Push the shaft fully in before you set the gauge.") },
          endFloat,
        ],
        outcomes: [
          {
            id: "ef-within",
            outcome: "within",
            range: { min: 0.05, max: 0.15 },
            body: [],
            lead: { kind: "go-on", next: ref(7) },
          },
          {
            id: "ef-over",
            outcome: "over",
            text: words("‹over 0.15 mm›"),
            range: { min: 0.15, minOpen: true },
            body: [
              act(
                "sb-off",
                "Hold the *pump sprocket* with the sprocket holder. Remove the *pump sprocket bolt*. Discard it.",
                { leftHand: true },
              ),
              act(
                "washer-off",
                "Remove the *pump sprocket* and the *pump thrust washer*. Discard the washer.",
              ),
              act("washer-on", "Fit the *new pump thrust washer*, then the *pump sprocket*."),
              act(
                "sb-oil",
                "Oil the thread and the underside of the head of the *new pump sprocket bolt* with engine oil. Fit it by hand.",
              ),
              act(
                "sb-tight",
                "Hold the *pump sprocket* with the sprocket holder. Tighten the *pump sprocket bolt*.",
                {
                  leftHand: true,
                  tightening: {
                    stages: [
                      { name: "snug", value: dual("40 N·m", "30 lb·ft") },
                      { name: "final", value: dual("90°") },
                    ],
                    boxes: [""],
                  },
                },
              ),
            ],
            lead: { kind: "check-again", to: ref(6), times: 1 },
          },
          {
            id: "ef-still-over",
            outcome: "still-over",
            range: { min: 0.15, minOpen: true },
            body: [],
            lead: { kind: "end", reason: words("the pump housing is worn. Renew the pump.") },
          },
          {
            id: "ef-under",
            outcome: "under",
            text: words("‹under 0.05 mm›"),
            range: { max: 0.05, maxOpen: true },
            body: [],
            lead: { kind: "end", reason: words("the bearing is seized. Renew the pump.") },
          },
        ],
      },
      {
        kind: "condition",
        id: "when-rattle",
        when: words("the belt drive rattles at idle (asked before the work)"),
        body: [
          {
            kind: "check",
            id: "step-7",
            number: "7",
            title: "Guide roller and tensioner roller",
            body: [
              {
                kind: "each",
                id: "each-roller",
                over: words("each roller"),
                things: ["guide roller", "tensioner roller"],
                body: [act("spin", "Spin the roller by hand and listen.")],
              },
              {
                kind: "look",
                id: "roller-look",
                question: words("Does either roller grate, or does its face show a step?"),
              },
            ],
            outcomes: [
              { id: "roller-no", outcome: "no", body: [], lead: { kind: "go-on", next: ref(8) } },
              {
                id: "roller-yes",
                outcome: "yes",
                body: [],
                lead: { kind: "end", reason: words("order roller kit K-4022 and begin again with it.") },
              },
            ],
          },
        ],
      },
    ],
  },
  {
    kind: "section",
    id: "fit",
    title: "Fit",
    blocks: [
      step(8, "Hold the tensioner back", [
        act("pin-in-2", "Swing the tensioner arm back and insert the *tensioner locking pin*."),
      ]),
      step(9, "Fit the belt", [
        act(
          "align-on",
          "Turn the *injection pump shaft* by hand until the slot in the flange meets the timing plate. The crankshaft still stands at its mark.",
        ),
        act("pump-pin-in", "Insert the *pump locking pin*."),
        act(
          "belt-on",
          "Fit the *new injection-pump belt*, the arrow on the belt pointing anticlockwise. After a return, fit the belt that was kept.",
        ),
        act("belt-lay", "Lay the belt on clockwise: crank sprocket, guide roller, pump sprocket, tensioner."),
        panel(
          "spring-2",
          "caution",
          "The tensioner arm springs onto the belt.",
          "It crushes a finger.",
          "Hold the arm and let it down slowly.",
        ),
        act("pin-out-2", "Pull the *tensioner locking pin*."),
        act("pump-pin-out", "Pull the *pump locking pin*."),
      ]),
      {
        kind: "check",
        id: "step-10",
        number: "10",
        title: "Timing marks",
        body: [
          act("turn-2", "Turn the *crankshaft* anticlockwise, 2 turns, by hand."),
          {
            kind: "look",
            id: "marks-look",
            question: words("Do the dot and the cast arrow meet, and the slot and the timing plate?"),
          },
        ],
        outcomes: [
          { id: "marks-met", outcome: "met", body: [], lead: { kind: "go-on", next: ref(11) } },
          {
            id: "marks-not",
            outcome: "not-met",
            body: [
              act("again-pin", "Insert the *tensioner locking pin*."),
              act("again-belt", "Remove the *injection-pump belt*. Keep it."),
            ],
            lead: { kind: "repeat", to: ref(9), times: 2, back: ref(10) },
          },
          {
            id: "marks-still",
            outcome: "still-not-met",
            body: [],
            lead: { kind: "end", reason: words("find the cause before the engine is turned again.") },
          },
        ],
      },
    ],
  },
  {
    kind: "section",
    id: "put-back",
    title: "Put back",
    blocks: [
      step(11, "Pipe and guard", [
        act(
          "sealant-on",
          "Lay a bead of *flange sealant*, ‹2 mm› wide, around the port. Tighten the pipe within ‹15 min›.",
        ),
        act(
          "pipe-on",
          "Fit the *new pipe seal*, the *coolant pipe* and, by hand, the *coolant pipe bolts*. The long bolt goes into hole 3.",
        ),
        act(
          "pipe-tight",
          "Tighten the *coolant pipe bolts* with the torque wrench and the open-ended adapter.",
          {
            tightening: {
              stages: [{ value: TORQUE_22, setting: dual("19 N·m", "14 lb·ft") }],
              order: words("crosswise"),
              boxes: ["1", "2", "3", "4"],
            },
          },
        ),
        act("guard-on", "Fit the *belt guard* and, by hand, its bolts.", { people: 2 }),
        act("guard-tight", "Tighten the *belt guard bolts* with the torque wrench.", {
          tightening: { stages: [{ value: TORQUE_22 }], boxes: ["1", "2", "3", "4", "5", "6"] },
        }),
        {
          kind: "figure",
          id: "fig-port",
          type: "image/png",
          bytes: PNG,
          description: "Bead of sealant around the port",
          caption: words("Bead of sealant around the port"),
        },
        {
          kind: "wait",
          id: "wait-cure",
          sentence: words("Let the sealant cure for ‹2 h› before the system is filled."),
          minutes: 120,
        },
      ]),
      step(12, "Fill and connect", [
        panel(
          "paint",
          "notice",
          "Coolant strips paint.",
          "The base plate rusts.",
          "Wipe up what was spilt at once.",
        ),
        act("fill", "Fill the *coolant*, ‹4.2 L› (‹1.1 US gal›)."),
        panel(
          "fire",
          "danger",
          "A spark can light the gas above a battery.",
          "It burns, and throws acid.",
          "Switch the charger off, air the room, then connect the negative lead last.",
        ),
        act("connect", "Connect the *battery negative lead*.", { people: 2 }),
      ]),
    ],
  },
];
