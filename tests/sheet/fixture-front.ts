/** The sheet made by hand: what stands before the work. */
import type { Block } from "../../server/sheet/blocks";
import { dual, ref, refs, TORQUE_22, words } from "./make";

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

export const front: readonly Block[] = [
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
        number: "1",
        svg: BOLT_DRAWING,
        description:
          "Coolant pipe flange with four bolts, tightened crosswise: 1 top left, 2 bottom right, 3 top right, 4 bottom left.",
        caption: words("Coolant pipe bolts: order of tightening"),
      },
    ],
  },
];
