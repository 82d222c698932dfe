/** The words of acts: every act of the language has its sentence in every language, and says what it was given. */
import { describe, expect, it } from "vitest";
import { CONSTRUCTS } from "../../grammar";
import { type ActWord, actTemplate } from "../../server/phrases/acts";
import { actsEn } from "../../server/phrases/acts-en";
import { type JobWord, jobTemplate } from "../../server/phrases/job";
import { jobEn } from "../../server/phrases/job-en";
import { LANGUAGES, type Language } from "../../server/phrases/sheet";
import { fill, list, plain } from "../../server/sheet/fill";
import { all, block, sentencesOf, sheetOf, small, text } from "./build-support";

/** One line for each act, in each of its forms. */
const LINES: Readonly<Record<string, readonly string[]>> = {
  remove: ["remove lid"],
  fit: ["fit lid", "fit new lid", "fit old lid"],
  loosen: ["loosen bolt by 90°"],
  tighten: ["tighten bolt"],
  support: ["support lid"],
  release: ["release lid"],
  raise: ["raise lid"],
  lower: ["lower lid"],
  connect: ["connect lead"],
  disconnect: ["disconnect lead"],
  open: ["open lid"],
  close: ["close lid"],
  isolate: ["isolate lead"],
  restore: ["restore lead"],
  drain: ["drain oil 2 L"],
  fill: ["fill oil"],
  bleed: ['bleed oil until "No bubbles rise."'],
  clean: ["clean lid"],
  lubricate: ["lubricate bolt"],
  seal: ["seal lid"],
  "lay-on": ["lay-on band clockwise wheel, lid"],
  run: ["run lead through loop"],
  align: ["align notch"],
  turn: ["turn axle 2 turns clockwise", 'turn axle until "it stands"'],
  insert: ["insert pin", "insert cap", "insert tag", "insert rag"],
  pull: ["pull pin", "pull cap"],
  label: ['label lead "1"'],
  wait: [
    "wait 5 min",
    "wait 5 min after begin",
    "wait until oil below 40 °C",
    "wait until oil above 40 °C",
    'wait until "it is dry"',
  ],
  start: ["start gull"],
  stop: ["stop gull"],
  "run-in": ["run-in gull 10 min"],
  adjust: ["adjust bolt to 0.3 mm"],
  prove: ['prove tester on "a live socket"'],
  press: ["press lid out", "press lid in"],
  grind: ["grind lid"],
  drill: ["drill lid"],
  chisel: ["chisel lid"],
  scrape: ["scrape lid"],
  "blow-out": ["blow-out lid"],
  charge: ["charge lead"],
  "throw-away": ["throw-away lid"],
  "put-by": ["put-by lid"],
};

const MACHINE = `part lid "Lid"
part wheel "Wheel"
clip loop "Loop"
cable lead "Lead"
fluid oil "Oil" 5 L
consumable grease "Grease"
shaft axle "Axle"  turns clockwise only
belt band "Band"
mark notch "Notch"  on axle  at 0°
fastener bolt "Bolt" {
thread M8
oiled grease on thread and under head
tighten 22 N·m
}`;
const HEADER = `tool tester "Tester"
tool spanner "Spanner"
temporary pin "Pin" into lid
temporary cap "Cap" over lid
temporary tag "Tag" on axle
temporary rag "Rag"
kit "K" {
item lid 1
}`;

function sheetWith(lines: readonly string[], language: Language = "en") {
  return sheetOf(small(MACHINE, HEADER, `step begin "Begin" {\n${lines.join("\n")}\n}`), { language });
}

const acts = CONSTRUCTS.filter((construct) => construct.act === true).map(({ id }) => id);

describe("every act of the language", () => {
  it("has its lines here", () => {
    expect(Object.keys(LINES).sort()).toEqual([...acts].sort());
  });

  it.each(acts)("%s is a sentence in every language", (verb) => {
    const lines = LINES[verb] as string[];
    const said = LANGUAGES.map((language) => sentencesOf(sheetWith(lines, language), 1));
    for (const [index, line] of lines.entries()) {
      const sentences = said.map((all) => all[index] ?? "");
      for (const sentence of sentences) {
        expect(sentence).toMatch(/^\S[^{}[\]*]*\.$/);
        expect([line, sentence.length > 6]).toEqual([line, true]);
      }
      expect([line, new Set(sentences).size]).toEqual([line, LANGUAGES.length]);
    }
    expect(said.map((sentences) => sentences.length)).toEqual(LANGUAGES.map(() => lines.length));
  });

  it.each(acts)("%s says its tool", (verb) => {
    if (verb === "wait" || verb === "throw-away" || verb === "put-by") return;
    const [line = ""] = LINES[verb] as string[];
    for (const language of LANGUAGES) {
      const [sentence] = sentencesOf(sheetWith([`${line} with spanner`], language), 1);
      expect([verb, language, sentence]).toEqual([verb, language, expect.stringContaining("Spanner")]);
    }
  });
});

/** The places and groups of a template, in any order. */
function shape(template: string): { places: string[]; groups: string[] } {
  const places = [...template.matchAll(/\{\w+\}/g)].map(([place]) => place).sort();
  const groups = [...template.matchAll(/\[([^\]]*)\]/g)].map(([, inner = ""]) =>
    (inner.match(/\{\w+\}/g) ?? []).sort().join(),
  );
  return { places, groups: groups.sort() };
}

describe.each(LANGUAGES)("the templates in %s", (language) => {
  it("have the places of the English ones, groups closed and not empty", () => {
    for (const id of Object.keys(actsEn) as ActWord[])
      expect([id, shape(actTemplate(language, id))]).toEqual([id, shape(actsEn[id])]);
    for (const id of Object.keys(jobEn) as JobWord[])
      expect([id, shape(jobTemplate(language, id))]).toEqual([id, shape(jobEn[id])]);
    const templates = [
      ...Object.keys(actsEn).map((id) => actTemplate(language, id as ActWord)),
      ...Object.keys(jobEn).map((id) => jobTemplate(language, id as JobWord)),
    ];
    for (const template of templates) {
      expect(template.trim()).not.toBe("");
      expect(template.replace(/\[[^[\]]*\]|\{\w+\}/g, "")).not.toMatch(/[[\]{}]/);
      for (const [, inner] of template.matchAll(/\[([^\]]*)\]/g)) expect(inner).toMatch(/\{\w+\}/);
    }
  });
});

describe("filling a template", () => {
  const a = [{ text: "Lid [*{b}*]", style: "strong" }] as const;

  it("leaves out a group that lacks what it holds, and takes what is put in as it is", () => {
    expect(fill("Remove {a}[ with {b}].", { a })).toEqual([
      { text: "Remove ", style: "text" },
      a[0],
      { text: ".", style: "text" },
    ]);
    expect(text(fill("Remove {a}[ with {b}].", { a, b: plain("x") }))).toBe("Remove Lid [*{b}*] with x.");
    expect(fill("Fit *NEW* {a}", { a: [] })).toEqual([
      { text: "Fit ", style: "text" },
      { text: "NEW", style: "strong" },
      { text: " ", style: "text" },
    ]);
  });

  it("joins lists in each language", () => {
    const items = ["a", "b", "c"].map(plain);
    expect(LANGUAGES.map((language) => text(list(language, items)))).toEqual([
      "a, b and c",
      "a, b und c",
      "a, b et c",
      "a, b y c",
    ]);
    expect(text(list("en", items, "list.or"))).toBe("a, b or c");
    expect(list("en", [])).toEqual([]);
  });

  it("keeps a figure with its unit", () => {
    expect(plain("Gauge, 0.03 to 1.00 mm, bolt 3 first")[0]?.text).toBe(
      "Gauge, 0.03 to 1.00\u00a0mm, bolt 3 first",
    );
  });
});

describe("what else an act says", () => {
  const said = (line: string, machine = MACHINE, header = HEADER) =>
    sentencesOf(sheetOf(small(machine, header, `step begin "Begin" {\n${line}\n}`)), 1).join(" | ");

  it.each([
    [
      "remove bolt  holding wheel with spanner  by two people",
      "Hold Wheel using Spanner against turning. Remove Bolt.",
    ],
    ["remove lid  discard", "Remove Lid. Discard: do not fit again."],
    ["remove lid  keep", "Remove Lid. Keep for refitting."],
    [
      "fit lid  loosely  in own place",
      "Fit Lid. Each back in its own place. Set in place only: do not press home.",
    ],
    ['fit lid  way-round arrow-up "Arrow"', "Fit Lid. Way round: arrow up (Arrow)."],
    ["tighten bolt  with spanner  never tester", "Tighten Bolt using Spanner. Never use Tester."],
    [
      "tighten bolt  on its wheels  while turning wheel",
      "Tighten Bolt. Keep turning Wheel meanwhile. With the machine standing on its wheels.",
    ],
    ["fit lid  within 10 min of begin", "Fit Lid. Within 10 min of step 1, Begin."],
    [
      "seal lid  with grease  within 10 min of grease",
      "Seal Lid using Grease. Within 10 min of opening Grease.",
    ],
    ["align notch", "Bring the marks into line: Notch. Turn Axle clockwise only."],
    ['bleed oil until "clear."  at most 15 min', "Bleed Oil until: clear. At most 15 min."],
    ["lubricate bolt", "Lubricate Bolt using Grease. On the thread and under the head."],
    ["start gull  without lid", "Start Gull. Lid stays off on purpose."],
    ["insert pin, cap", "Insert Pin and Cap."],
    [
      "fit bolt  by hand\ntighten bolt",
      "Fit Bolt. By hand only for now: tightened later in this step. | Tighten Bolt.",
    ],
    ["fit bolt  by hand", "Fit Bolt. By hand only."],
    ["loosen bolt  from the ends in", "Loosen Bolt. Order: from the ends in."],
  ])("%s", (line, sentence) => {
    expect(said(line)).toBe(sentence);
  });

  it("marks people and left-hand threads", () => {
    const sheet = sheetOf(
      small(
        'part lid "Lid"\nfastener nut "Nut"  secures lid  left-hand',
        "",
        'step "S" {\nremove nut  by two people\n}',
      ),
    );
    expect(all(sheet, "action")[0]).toMatchObject({ people: 2, leftHand: true });
  });

  it("says which threads of an act are left-hand where not all are", () => {
    const sheet = sheetOf(
      small(
        'part lid "Lid"\nfastener left "Left screw"  secures lid  left-hand\nfastener right "Right screw"  secures lid',
        "",
        'step "S" {\nremove left, right\nfit left\n}',
      ),
    );
    const [both, one] = all(sheet, "action");
    expect(text(both?.sentence)).toBe("Remove Left screw and Right screw. Left-hand thread on: Left screw.");
    expect([both?.leftHand, one?.leftHand]).toEqual([undefined, true]);
  });

  it("works the order out at the act, in the table and at the boxes, and lets a given one go before", () => {
    const group = (lines: string): string =>
      `part lid "Lid"\nfastener nuts "Nuts" {\nsecures lid\n${lines}\ntighten 50 N·m\n}`;
    const printed = (lines: string): unknown[] => {
      const sheet = sheetOf(
        small(
          group(lines),
          'tool wrench "Wrench"  10 to 100 N·m',
          'step "S" {\nloosen nuts  crosswise\ntighten nuts  with wrench\n}',
        ),
      );
      const [loosened, tightened] = all(sheet, "action");
      const row = block(sheet, "tightening").rows[0];
      const order = row?.order ? text(row.order) : "";
      return [text(loosened?.sentence), order, tightened?.tightening?.boxes.join(" ")];
    };
    expect(printed("layout circle  holes 1 to 5\ncrosswise")).toEqual([
      "Loosen Nuts. Order: crosswise: 1, 3, 5, 2, 4.",
      "crosswise: 1, 3, 5, 2, 4",
      "1 3 5 2 4",
    ]);
    expect(printed("layout circle  holes 1 to 4\norder 2, 4, 1, 3\ncrosswise").slice(1)).toEqual([
      "crosswise: 2, 4, 1, 3",
      "2 4 1 3",
    ]);
    expect(printed("count 4\ncrosswise")).toEqual(["Loosen Nuts. Order: crosswise.", "crosswise", "1 2 3 4"]);
  });

  it("says what is kept turning where only the machine file does", () => {
    const sheet = sheetOf(
      small(
        'part hub "Hub"\nfastener nut "Nut" {\nsecures hub\nstage seat 50 N·m  while turning hub\nstage free back 60°\n}',
        "",
        'step "S" {\ntighten nut to seat\ntighten nut\n}',
      ),
    );
    const [seat, free] = all(sheet, "action").map(({ sentence }) => text(sentence));
    expect(seat).toContain("Keep turning Hub meanwhile.");
    expect(free).not.toContain("turning");
  });

  it("says how a line may bend where it is led through its clips", () => {
    const sheet = sheetOf(
      small(
        'clip eye "Eye"\nhose feed "Feed hose" {\nthrough eye\nbend-radius at least 60 mm\nslack 20 mm\n}',
        "",
        'step "S" {\nrun feed through eye\n}',
      ),
    );
    expect(text(all(sheet, "action")[0]?.sentence)).toBe(
      "Run Feed hose in this order through: Eye. Bend radius: at least 60 mm (at least 2.36 in). Leave 20 mm (0.8 in) of slack.",
    );
  });

  it("names what is not declared by its name", () => {
    expect(said("remove lost-thing")).toBe("Remove lost thing.");
  });
});

describe("a tightening", () => {
  const MACHINE_BOLTS = `fastener bolts "Bolts" {
thread M10
left-hand
count 4
stage first 20 N·m
stage second 60 N·m
stage third 90°
}
fastener plug "Plug"  tighten 40 N·m`;
  const TOOLS =
    'tool wrench "Wrench"  10 to 100 N·m\ntool crowfoot "Crowfoot"  in-line 100 mm wrench 300 mm\ntool square "Square"  at right angle\ntool bent "Bent"  angled 100 mm at 45° wrench 300 mm';
  const stages = (lines: string) =>
    all(sheetOf(small(MACHINE_BOLTS, TOOLS, `step "S" {\n${lines}\n}`)), "action").map(({ tightening }) =>
      tightening?.stages.map(({ name, value, setting }) =>
        [name, value.value, setting?.value].filter(Boolean).join(" ").replaceAll("\u00a0", " "),
      ),
    );

  it("goes through the stages that are due", () => {
    expect(stages("tighten bolts to first\ntighten bolts")).toEqual([
      ["first 20 N·m"],
      ["second 60 N·m", "third 90° further"],
    ]);
    expect(stages("tighten bolts\ntighten bolts")[1]).toHaveLength(3);
    expect(stages("tighten bolts to second\nloosen bolts\ntighten bolts to first")).toEqual([
      ["first 20 N·m", "second 60 N·m"],
      undefined,
      ["first 20 N·m"],
    ]);
  });

  it("sets the wrench lower for an adapter in line, by L / (L + E), and not for one at right angle", () => {
    expect(stages("tighten plug with wrench, crowfoot")).toEqual([["40 N·m 30.0 N·m"]]);
    expect(stages("tighten plug with wrench, square")).toEqual([["40 N·m"]]);
    // 40 × 300 / (300 + 100 cos 45°) = 32.4, by hand.
    expect(stages("tighten plug with wrench, bent")).toEqual([["40 N·m 32.4 N·m"]]);
    expect(stages("tighten bolts {\nstage first with wrench, crowfoot\nstage second with wrench\n}")).toEqual(
      [["first 20 N·m 15.0 N·m", "second 60 N·m"]],
    );
  });

  it("is one act for each fastener, with a box for each", () => {
    const sheet = sheetOf(small(MACHINE_BOLTS, "", 'step "S" {\ntighten bolts, plug\n}'));
    expect(
      all(sheet, "action").map(({ sentence, tightening }) => [text(sentence), tightening?.boxes]),
    ).toEqual([
      ["Tighten Bolts.", ["1", "2", "3", "4"]],
      ["Tighten Plug.", [""]],
    ]);
  });
});

describe("a torque with two sides", () => {
  const printed = (torque: string, look: object) =>
    all(
      sheetOf(small(`fastener bolt "Bolt"  tighten ${torque}`, "", 'step "S" {\ntighten bolt\n}'), look),
      "action",
    )[0]?.tightening?.stages[0]?.value;

  // No-break spaces round the figures, thin ones round the stroke, a minus sign and no hyphen; a comma for a point where it is one.
  it.each(["en", "de", "fr", "es"] as const)("in %s, in both units", (language) => {
    expect(printed("30 +3/-1 N·m", { language, units: "both" })).toEqual({
      value: "30\u00a0+3\u202f/\u202f\u22121\u00a0N·m",
      other: "22\u00a0+2\u202f/\u202f\u22121\u00a0lb·ft",
    });
    const point = language === "en" ? "." : ",";
    expect(printed("8.5 N·m +10/-2.5 %", { language, units: "both" })).toMatchObject({
      value: `8${point}5\u00a0N·m\u00a0+10\u202f/\u202f\u22122${point}5\u00a0%`,
    });
    expect(printed("30 N·m ± 10 %", { language, units: "both" })).toEqual({
      value: "30\u00a0N·m\u00a0±\u00a010\u00a0%",
      other: "22\u00a0lb·ft\u00a0±\u00a010\u00a0%",
    });
  });
});

describe("the units shown", () => {
  const of = (units: "both" | "metric" | "imperial", torque = "22 N·m") =>
    all(
      sheetOf(small(`fastener bolt "Bolt"  tighten ${torque}`, "", 'step "S" {\ntighten bolt\n}'), { units }),
      "action",
    )[0]?.tightening?.stages[0]?.value;

  it("are both, or one side, and the writer's own figure is never worked out anew", () => {
    expect(of("both")).toEqual({ value: "22\u00a0N·m", other: "16\u00a0lb·ft" });
    expect(of("metric")).toEqual({ value: "22\u00a0N·m" });
    expect(of("imperial")).toEqual({ value: "16\u00a0lb·ft" });
    expect(of("imperial", "22 N·m (17 lb·ft)")).toEqual({ value: "17\u00a0lb·ft" });
    expect(of("metric", "35 lb·ft")).toEqual({ value: "47\u00a0N·m" });
  });

  it("are spelled as the language spells figures", () => {
    const limit = (language: Language) =>
      text(
        all(sheetOf(small("", "", 'check "C" {\nlimit over 0.5 to 0.55 mm\n}'), { language }), "measure")[0]
          ?.limit,
      );
    expect(LANGUAGES.map(limit)).toEqual([
      "over 0.5 to 0.55 mm (over 0.0197 to 0.0217 in)",
      "über 0,5 bis 0,55 mm (über 0,0197 bis 0,0217 in)",
      "plus de 0,5 à 0,55 mm (plus de 0,0197 à 0,0217 in)",
      "más de 0,5 a 0,55 mm (más de 0,0197 a 0,0217 in)",
    ]);
  });
});
