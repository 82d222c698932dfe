/**
 * A sheet made by hand: the belt kit of a marine generator, with one of everything a sheet can hold. Invented.
 */
import type {
  Action,
  Block,
  Dual,
  Measure,
  Panel,
  Ref,
  Run,
  Runs,
  Sheet,
  Step,
  Work,
} from "../../server/sheet/blocks";

/** Runs from a text in which `*…*` is strong, `_…_` is emphasis and `‹…›` is a quantity. */
export function words(text: string): Runs {
  const styles: Record<string, Run["style"]> = { "*": "strong", _: "em", "‹": "quantity" };
  return text
    .split(/(\*[^*]+\*|_[^_]+_|‹[^›]+›)/)
    .filter((part) => part !== "")
    .map((part) => {
      const style = styles[part.charAt(0)];
      return style === undefined ? { text: part, style: "text" } : { text: part.slice(1, -1), style };
    });
}

function ref(number: number): Ref {
  return { id: `step-${number}`, number: String(number) };
}

function refs(...numbers: number[]): Ref[] {
  return numbers.map(ref);
}

function dual(value: string, other?: string): Dual {
  return other === undefined ? { value } : { value, other };
}

export function act(id: string, sentence: string, more: Partial<Action> = {}): Action {
  return { kind: "action", id, sentence: words(sentence), ...more };
}

export function panel(
  id: string,
  signal: Panel["signal"],
  hazard: string,
  consequence: string,
  avoid: string,
): Panel {
  return {
    kind: "panel",
    id,
    signal,
    hazard: words(hazard),
    consequence: words(consequence),
    avoid: words(avoid),
  };
}

export function step(number: number, title: string, body: readonly Work[]): Step {
  return { kind: "step", id: `step-${number}`, number: String(number), title, body, outcomes: [] };
}

/** A small grey picture of a ring, in base 64. */
export const PNG =
  "iVBORw0KGgoAAAANSUhEUgAAAPAAAABkCAAAAACdyeIbAAABq0lEQVR42u3c4bGEMAgE4C2MwtIzReT9f+NpVJbELNvA+Q3OnBoAXSwocIELHJKmAG6/siO4XWUncBvNFuB2Lx8Htyf5LvhM5ZPISOX6cTLJSOP6ebLISOH6WDLI4HP9TuhksL1+N2QxFuPSyWB6/WmIYvC8/iY0Mdb08sRYk8sjY1kvSQyG16NCEGNlL0OMpb0EcTzYnSNeDMzyhouxujdajFlemySOBY9A/+eGeBnwcIHtOJklRl6B7SxpJUaW166SJEbSDW32Shx3UyOlwDaWjBIjo8Bmr8VhJUZCgc0CxR8Am0WIlwHHevliOtgsSFzgOeBwL1tc4FiwWZx4KbAngP0DYDNCiQucCW4TwK3ABS5wgQtc4PofLrDUs7Tc21K9D28Lro948uDtvkvLnTzoni3JnB7KnQ/rdQDI9XjodfHo9WnJdeLp9VrKddPq9UvrdcTrzTzITbXozS3pTabpzR52uenSrjc/rDchrrcDoMtteeh6ezy63KaWA/Luu3gOyXtvW/pB3nmf1hV5w41pT8zsy6mth9PQSddRm0vT8JN+t7YPF3iz/AFN+BoSJJmSpgAAAABJRU5ErkJggg==";

const TORQUE_22: Dual = dual("22 N·m", "16 lb·ft");

const BOLT_DRAWING = `<svg xmlns="http://www.w3.org/2000/svg" width="220" height="130" viewBox="0 0 220 130">
<rect x="10" y="10" width="200" height="110" rx="14" fill="none" stroke="#111" stroke-width="2"/>
${[
  [50, 40, "1"],
  [170, 90, "2"],
  [170, 40, "3"],
  [50, 90, "4"],
]
  .map(
    ([x, y, n]) =>
      `<circle cx="${x}" cy="${y}" r="15" fill="#fff" stroke="#111" stroke-width="2"/><text x="${x}" y="${Number(y) + 6}" font-family="Noto Sans" font-size="16" font-weight="bold" text-anchor="middle">${n}</text>`,
  )
  .join("\n")}
<path d="M66 46 L154 84" stroke="#111" stroke-width="1.5" stroke-dasharray="4 3"/>
</svg>`;

const front: readonly Block[] = [
  {
    kind: "title",
    id: "title",
    facts: [
      { id: "fact-document", fact: "document", value: words("SK27-0410") },
      { id: "fact-revision", fact: "revision", value: words("C, 2026-11-20"), changed: true },
      { id: "fact-machine", fact: "machine", value: words("Skua 27 marine generator") },
      { id: "fact-applies", fact: "applies-to", value: words("Serial numbers 1200 to 4899, all variants") },
      { id: "fact-time", fact: "working-time", value: words("‹3 h 30 min›, waiting time not included") },
      { id: "fact-qualification", fact: "qualification", value: words("Marine diesel fitter") },
      { id: "fact-people", fact: "people", value: words("One fitter; a second person for steps 5 and 12") },
      { id: "fact-kit", fact: "kit", value: words("K-4021") },
    ],
  },
  {
    kind: "applicability",
    id: "applies",
    questions: [
      {
        id: "q-serial",
        question: words("Is the serial number on the generator's plate between *1200* and *4899*?"),
        write: "Serial number:",
        answers: [{ answer: "yes" }, { answer: "no", leads: "stop" }],
      },
      {
        id: "q-rattle",
        question: words(
          "Does the belt drive *rattle at idle*? Ask the operator before the engine is stopped.",
        ),
        answers: [{ answer: "yes", leads: words("do step 7 as well") }, { answer: "no" }],
      },
      {
        id: "q-guard",
        question: words("Which belt guard is fitted?"),
        answers: [
          { answer: { text: "Pressed steel, 6 bolts" } },
          { answer: { text: "Cast, 4 bolts" }, leads: "stop" },
        ],
      },
    ],
  },
  {
    kind: "safety",
    id: "safety",
    equipment: [
      { id: "ppe-eyes", text: words("Safety glasses") },
      { id: "ppe-gloves", text: words("Heat-resistant gloves, up to ‹100 °C›") },
      { id: "ppe-shoes", text: words("Safety shoes") },
    ],
    heavy: [
      {
        id: "heavy-guard",
        part: words("Belt guard"),
        weight: dual("14 kg", "31 lb"),
        how: words("Two people, or a sling on the two lifting eyes"),
      },
    ],
    hazards: [
      {
        id: "hz-fire",
        signal: "danger",
        text: words("A spark can light the gas above a battery."),
        at: refs(12),
      },
      {
        id: "hz-burn",
        signal: "warning",
        text: words("Hot coolant sprays out of an open system."),
        at: refs(2),
      },
      {
        id: "hz-spring",
        signal: "warning",
        text: words("The tensioner arm is spring-loaded."),
        at: refs(5, 9),
      },
    ],
  },
  {
    kind: "tools",
    id: "tools",
    rows: [
      {
        id: "t-wrench",
        name: words("Torque wrench"),
        range: dual("10 to 100 N·m", "7 to 74 lb·ft"),
        at: refs(8, 11),
      },
      {
        id: "t-adapter",
        name: words("Open-ended adapter ‹19 mm›"),
        note: words("‹50 mm› from square drive to bolt, in line with the wrench"),
        at: refs(8),
      },
      { id: "t-angle", name: words("Angle gauge"), at: refs(6) },
      { id: "t-holder", name: words("Sprocket holder"), at: refs(6), changed: true },
      { id: "t-dial", name: words("Dial gauge"), range: dual("0 to 1 mm", "0 to 0.04 in"), at: refs(6) },
      { id: "t-thermo", name: words("Contact thermometer"), at: refs(1) },
      { id: "t-tray", name: words("Drain tray"), range: dual("6 L", "1.6 US gal"), at: refs(2) },
    ],
  },
  {
    kind: "parts",
    id: "parts",
    kit: "K-4021",
    rows: [
      { id: "p-belt", use: "new", name: words("Injection-pump belt"), number: "TB-106", quantity: "1" },
      { id: "p-seal", use: "new", name: words("Pipe seal"), number: "PS-2", quantity: "1" },
      {
        id: "p-washer",
        use: "new",
        name: words("Pump thrust washer"),
        number: "TW-3",
        quantity: "1",
        note: words("Only if the end float is over the limit"),
      },
      {
        id: "p-bolt",
        use: "new",
        name: words("Pump sprocket bolt"),
        number: "SB-8",
        quantity: "1",
        note: words("Only if the end float is over the limit"),
        changed: true,
      },
      { id: "p-guard", use: "refit", name: words("Belt guard and its bolts"), quantity: "1 + 6" },
      {
        id: "p-pipe",
        use: "refit",
        name: words("Coolant pipe across the belt, and its bolts"),
        quantity: "1 + 4",
      },
      { id: "p-oldbelt", use: "scrap", name: words("Old belt, old pipe seal"), quantity: "1 each" },
    ],
  },
  {
    kind: "consumables",
    id: "consumables",
    rows: [
      { id: "c-oil", name: words("Engine oil"), grade: words("As in the engine"), at: refs(6) },
      {
        id: "c-sealant",
        name: words("Flange sealant"),
        grade: words("Anaerobic, medium strength"),
        openTime: "15 min",
        cure: "2 h",
        at: refs(10),
      },
    ],
  },
  {
    kind: "fluids",
    id: "fluids",
    rows: [
      {
        id: "f-coolant",
        name: words("Coolant"),
        amount: dual("4.2 L", "1.1 US gal"),
        grade: words("Glycol, 50 %"),
        drained: "keep",
        at: refs(2, 12),
      },
    ],
  },
  {
    kind: "temporaries",
    id: "temporaries",
    rows: [
      {
        id: "tmp-tensioner",
        name: words("Tensioner locking pin, ‹4 mm›"),
        place: words("Hole in the tensioner arm"),
        uses: [
          { in: ref(5), out: ref(5) },
          { in: ref(8), out: ref(9) },
        ],
      },
      {
        id: "tmp-pump",
        name: words("Pump locking pin, ‹6 mm›"),
        place: words("Pump sprocket"),
        uses: [{ in: ref(9), out: ref(9) }],
      },
    ],
  },
  {
    kind: "tightening",
    id: "tightening",
    rows: [
      {
        id: "tt-guard",
        name: words("Belt guard bolts"),
        thread: "M8, 8.8",
        count: "6",
        state: words("Dry"),
        stages: [{ value: TORQUE_22 }],
        at: refs(11),
      },
      {
        id: "tt-pipe",
        name: words("Coolant pipe bolts"),
        thread: "M8, 8.8",
        count: "4",
        state: words("Dry"),
        stages: [{ value: TORQUE_22, setting: dual("19 N·m", "14 lb·ft") }],
        order: words("Crosswise: 1, 2, 3, 4"),
        at: refs(10),
      },
      {
        id: "tt-sprocket",
        name: words("Pump sprocket bolt"),
        thread: "M12 × 1.25, 10.9",
        count: "1",
        state: words("Engine oil on thread and under head"),
        leftHand: true,
        renew: "always",
        stages: [
          { name: "snug", value: dual("40 N·m", "30 lb·ft") },
          { name: "final", value: dual("90°") },
        ],
        at: refs(6),
        changed: true,
      },
    ],
  },
  {
    kind: "drawings",
    id: "drawings",
    drawings: [
      {
        kind: "drawing",
        id: "d-pipe-bolts",
        svg: BOLT_DRAWING,
        description:
          "Coolant pipe flange with four bolts, tightened crosswise: 1 top left, 2 bottom right, 3 top right, 4 bottom left.",
        caption: words("Coolant pipe bolts: order of tightening"),
      },
    ],
  },
];

const endFloat: Measure = {
  kind: "measure",
  id: "end-float",
  limit: words("‹0.05 to 0.15 mm› (‹0.0020 to 0.0059 in›)"),
  unit: "mm",
  range: { min: 0.05, max: 0.15 },
  places: [""],
  temperature: words("‹15 to 25 °C›"),
  instrument: words("Dial gauge"),
};

const work: readonly Block[] = [
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

const back: readonly Block[] = [
  {
    kind: "values",
    id: "values",
    rows: [
      {
        id: "rv-end-float",
        name: words("Pump shaft end float"),
        measure: "end-float",
        limit: endFloat.limit,
        unit: "mm",
        places: [""],
        at: ref(6),
      },
    ],
  },
  {
    kind: "record",
    id: "record",
    fields: [
      { id: "rec-serial", field: "machine-serial" },
      { id: "rec-hours", field: "running-hours" },
      { id: "rec-wrench", field: "wrench" },
      { id: "rec-cal", field: "calibrated-until" },
      { id: "rec-dial", field: "instrument", of: "Dial gauge" },
      { id: "rec-start", field: "started" },
      { id: "rec-end", field: "finished" },
    ],
  },
  {
    kind: "sign-off",
    id: "sign-off",
    rows: [
      { id: "so-fitter", role: "fitter" },
      { id: "so-second", role: "second-person" },
    ],
  },
  {
    kind: "revisions",
    id: "revisions",
    rows: [
      {
        id: "rev-c",
        name: "C",
        date: "2026-11-20",
        reason: words("End float is now measured, after field reports."),
        changed: true,
      },
      {
        id: "rev-b",
        name: "B",
        date: "2026-03-02",
        reason: words("Sprocket bolt is now renewed every time it comes out."),
      },
    ],
  },
];

export const BELT_SHEET: Sheet = {
  lang: "en",
  words: "en",
  paper: "a4",
  draft: false,
  title: "Renew the injection-pump belt",
  document: "SK27-0410",
  revision: { name: "C", date: "2026-11-20" },
  changedSince: "B",
  blocks: [...front, ...work, ...back],
};
