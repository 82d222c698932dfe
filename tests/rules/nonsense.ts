/**
 * A machine and a procedure whose every figure is a place to put nonsense into, and all that is made from such a text: findings,
 * sheet, drawings, hover.
 */
import { hover } from "../../server/features";
import type { Project } from "../../server/model";
import { checkProject, type Finding, findingText } from "../../server/rules";
import { buildSheet } from "../../server/sheet/build";
import { renderHtml } from "../../server/sheet/html";
import { projectOf } from "../support/project";

/** What stands in `⟦kind|usual⟧` is one figure. Without nonsense nothing is found. */
const TEXT = `torquil 1

machine auk-3 "Auk 3 pump" {
  view front "Looking at the belt"
  consumable oil "Oil"
  fluid water "Water"  ⟦volume|3 L⟧
  part cover "Cover"  weight ⟦weight|4 kg⟧
  part crank-sprocket "Crank sprocket"
  part roller "Roller"
  part pump-sprocket "Pump sprocket"
  part tensioner "Tensioner"
  part motor-pulley "Motor pulley"
  part fan-pulley "Fan pulley"
  part tank "Tank"  centre ⟦place|0 mm⟧, ⟦place|0 mm⟧
  part tap-end "Tap end"  centre 600 mm, 100 mm
  clip upper "Upper clip"  centre ⟦place|200 mm⟧, 40 mm
  clip lower "Lower clip"  centre 400 mm, ⟦place|90 mm⟧
  shaft crank "Crankshaft"  turns anticlockwise
  shaft pump "Pump shaft"  ratio ⟦ratio|1/2⟧ of crank
  mark crank-mark "Dot to the arrow"  on crank  at ⟦bearing|0°⟧  seen at ⟦bearing|90°⟧
  belt timing-belt "Timing belt"  toothed {
    pitch ⟦length|8 mm⟧
    teeth ⟦count|106⟧
    path clockwise
    pulley crank-sprocket  teeth ⟦count|24⟧  centre ⟦place|0 mm⟧, ⟦place|0 mm⟧  on crank  loaded
    pulley roller  diameter ⟦length|60 mm⟧  centre 15 mm, ⟦place|130 mm⟧  back of belt
    pulley pump-sprocket  teeth ⟦count|48⟧  centre 110 mm, 240 mm  on pump  loaded
    pulley tensioner  diameter 55 mm  centre ⟦place|100 mm⟧, 140 mm  back of belt  travel ⟦spare|10 mm⟧
  }
  belt fan-belt "Fan belt"  vee  thickness ⟦length|8 mm⟧ {
    length ⟦length|834 mm⟧
    path clockwise
    pulley motor-pulley  diameter ⟦length|100 mm⟧  centre 0 mm, 0 mm
    pulley fan-pulley  diameter 80 mm  centre ⟦place|275 mm⟧, 0 mm
  }
  hose feed-hose "Feed hose" {
    from tank to tap-end
    through upper, lower
    bend-radius at least ⟦length|50 mm⟧
    length ⟦length|700 mm⟧
    slack ⟦spare|20 mm⟧
  }
  fastener cover-bolts "Cover bolts" {
    secures cover
    thread M8
    class 8.8
    oiled oil on thread and under head
    count ⟦count|6⟧
    layout circle  holes 1 to ⟦hole|6⟧  first at ⟦bearing|90°⟧ clockwise
    crosswise
    spanner ⟦length|13 mm⟧
    grip ⟦length|30 mm⟧
    threads-into aluminium
    stage snug ⟦torque|10 N·m⟧
    stage final ⟦angle|60°⟧
    reuse by length at most ⟦length|62.5 mm⟧
  }
  fastener foot-bolts "Foot bolts" {
    thread M10
    class 10.9
    dry
    count ⟦count|4⟧
    layout grid  holes 1 to 4 in ⟦count|2⟧ rows
    hole 1 centre ⟦place|0 mm⟧, ⟦place|60 mm⟧
    hole 2 centre 80 mm, 60 mm
    hole 3 centre 0 mm, 0 mm
    hole 4 centre ⟦place|80 mm⟧, 0 mm
    from the middle out
    order 1, ⟦hole|4⟧, 2, 3
    tighten ⟦torque|50 N·m⟧
  }
}

procedure cover-job "Look under the cover" {
  on auk-3
  document "A3-1"
  working-time ⟦time|45 min⟧
  tool wrench "Torque wrench"  ⟦torque|5 to 25 N·m⟧
  tool big-wrench "Large torque wrench"  20 to ⟦torque|100 N·m⟧
  tool gauge "Angle gauge"
  tool crowfoot "Crowfoot"  in-line ⟦reach|40 mm⟧ wrench ⟦length|400 mm⟧
  tool bent "Bent adapter"  angled 40 mm at ⟦bearing|45°⟧ wrench 400 mm
  tool rule "Rule"
  tool tray "Tray"  4 L
  section "Work" {
    step "Off" {
      drain water  keep  with tray
      remove cover-bolts, cover
      remove timing-belt, feed-hose
    }
    check length "Length of the bolts" {
      limit at most ⟦limit|62.5 mm⟧  with rule
      record
      if over {
        end job "Order new ones."
      }
    }
    step "On" {
      fit feed-hose
      run feed-hose through upper, lower
      fit timing-belt
      align crank-mark
      lay-on timing-belt clockwise  crank-sprocket, roller, pump-sprocket, tensioner
      fit cover
      lubricate cover-bolts  with oil
      fit cover-bolts  by hand
      tighten cover-bolts {
        stage snug with wrench, crowfoot
        stage final with gauge
      }
      loosen foot-bolts by ⟦angle|1/2 turn⟧
      tighten foot-bolts  with big-wrench, bent
      fill water
      wait ⟦time|2 min⟧
    }
  }
}
`;

/** A place for a figure. */
export interface Slot {
  readonly kind: string;
  readonly usual: string;
}

const SLOT = /⟦(\w+)\|([^⟧]*)⟧/g;
export const SLOTS: readonly Slot[] = [...TEXT.matchAll(SLOT)].map(([, kind = "", usual = ""]) => ({
  kind,
  usual,
}));

/** The text with what a function puts into each place. */
export function filledIn(figure: (slot: Slot, index: number) => string): string {
  let index = 0;
  return TEXT.replace(SLOT, (_, kind: string, usual: string) => figure({ kind, usual }, index++));
}

const DIGITS = "0".repeat(308);
/** The unit that each kind of figure is written with. */
const UNITS: Readonly<Record<string, string>> = {
  length: "mm",
  place: "mm",
  spare: "mm",
  reach: "mm",
  limit: "mm",
  torque: "N·m",
  angle: "°",
  bearing: "°",
  weight: "kg",
  volume: "L",
  time: "min",
};

/** What is no figure, wherever it stands. */
const NO_FIGURES = [
  `1${DIGITS}`,
  `-1${DIGITS}`,
  `0.${DIGITS}1`,
  "1e308",
  "NaN",
  "Infinity",
  "-Infinity",
  "1/0",
  "0/0",
  "null",
  "+3/-1",
];
const NOUGHT = ["0", "0/5", "-0", "0.000"];
const BELOW = ["-5", "−5", "-0.000001", "-1/2"];
/** Kinds of which nought is none, and kinds of which only less than nought is none. */
const OVER_NOUGHT: ReadonlySet<string> = new Set(
  "length torque angle weight volume time count ratio".split(" "),
);
const FROM_NOUGHT: ReadonlySet<string> = new Set(["spare", "reach"]);
/** Figures that may be right in one place and wrong in another. */
const ODD = [
  "1000000",
  "10000",
  "999999999999999",
  "0.000000001",
  "1.5",
  "3 ± 5",
  "at least 3",
  "5 +3/-9",
  "about 0",
];

const withUnit = (numbers: readonly string[], { kind }: Slot): readonly string[] =>
  numbers.map((number) => `${number} ${UNITS[kind] ?? ""}`.trim());

/** What must be found at such a place; with what is no figure at any. */
export function wrongAt(slot: Slot, anywhere: boolean): readonly string[] {
  const { kind } = slot;
  const reversed = kind in UNITS && kind !== "bearing" ? ["5 to 2", "over 5 to 5"] : [];
  return [
    ...withUnit(anywhere ? [...NO_FIGURES, ...reversed] : ["1/0"], slot),
    ...(OVER_NOUGHT.has(kind) ? withUnit([...NOUGHT, ...BELOW], slot) : []),
    ...(FROM_NOUGHT.has(kind) ? withUnit(BELOW, slot) : []),
    "5 furlongs",
  ];
}

/** What must be found there, and what may be. */
export const nonsenseAt = (slot: Slot): readonly string[] => [
  ...wrongAt(slot, true),
  ...withUnit([...NOUGHT, ...BELOW, ...ODD], slot),
  "",
  "5 V",
];

/** The codes of what is found in a text. */
export const codesIn = (text: string): readonly string[] =>
  [...checkProject(projectOf({ "a.torquil": text })).values()].flat().map(({ code }) => code);

/** Everything that is made from a text, as one text; the findings beside it. */
export function everythingOf(text: string): {
  readonly findings: readonly Finding[];
  readonly shown: string;
} {
  const project = projectOf({ "a.torquil": text });
  const findings = [...checkProject(project).values()].flat();
  const shown = [...findings.map(findingText), ...sheetsOf(project), ...hovers(project, text)];
  return { findings, shown: shown.join("\n") };
}

function sheetsOf(project: Project): readonly string[] {
  return [...project.files.values()]
    .flatMap(({ procedures }) => procedures)
    .map((procedure) =>
      renderHtml(
        buildSheet(project, procedure, {
          language: "en",
          paper: "a4",
          units: "both",
          draft: true,
          pictures: () => undefined,
        }),
      )
        .replace(/<(script|style)[\s\S]*?<\/\1>/g, "")
        .replace(/ data-\w+="[^"]*"/g, ""),
    );
}

/** Hover at the name that each line begins with, and at its figures. */
function hovers(project: Project, text: string): readonly string[] {
  const found: string[] = [];
  text.split("\n").forEach((line, row) => {
    const words = [...line.matchAll(/[\p{L}\d][^\s"{},]*/gu)];
    for (const [place, { index, 0: word }] of words.entries()) {
      if (place !== 1 && !/^\d/.test(word)) continue;
      const told = hover(project, "a.torquil", { line: row, character: index });
      if (told) found.push(told.title, ...told.sentences);
    }
  });
  return [...new Set(found)];
}
