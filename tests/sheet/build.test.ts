/** The sheets of the examples: what they hold, in which order, and that both renderers take them. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { numbering } from "../../server/model";
import { LANGUAGES, say } from "../../server/phrases/sheet";
import { renderHtml } from "../../server/sheet/html";
import {
  all,
  block,
  exampleProject,
  exampleSheet,
  idsOf,
  numbered,
  procedureIn,
  sentencesOf,
  sheetOf,
  small,
  text,
} from "./build-support";
import { pdfOf } from "./typesetter";

const belt = exampleSheet("marine-generator");
const head = exampleSheet("tractor");

/** The number of the step or check with a title. */
function numberOf(sheet: typeof belt, title: string): number {
  const found = [...all(sheet, "step"), ...all(sheet, "check")].find((step) => step.title === title);
  return Number(found?.number);
}

describe("the reading order", () => {
  it("is the workshop's", () => {
    const kinds = belt.blocks.map(({ kind }) => kind).filter((kind, index, list) => kind !== list[index - 1]);
    expect(kinds).toEqual([
      "title",
      "applicability",
      "safety",
      "tools",
      "parts",
      "consumables",
      "fluids",
      "temporaries",
      "tightening",
      "section",
      "values",
      "record",
      "sign-off",
      "revisions",
      "drawings",
    ]);
    expect(
      belt.blocks
        .filter(({ kind }) => kind === "section")
        .map((section) => "title" in section && section.title),
    ).toEqual([
      "Before the work begins",
      "Make safe",
      "Lay the belt open",
      "Take the belt off",
      "Check what stays",
      "Fit the new belt",
      "Put back",
      "Prove the work",
    ]);
  });

  it("gives every item an id of its own, and every act its line", () => {
    for (const sheet of [belt, head]) {
      const ids = idsOf(sheet);
      expect(ids.length).toBeGreaterThan(150);
      expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
      expect(
        all(sheet, "action").every(
          ({ source }) => (source?.line ?? -1) > 0 && source?.file.endsWith(".torquil"),
        ),
      ).toBe(true);
    }
  });

  it("numbers steps and checks in one series, as messages do", () => {
    const project = exampleProject("marine-generator");
    const numbers = numbering(procedureIn(project));
    const steps = [...all(belt, "step"), ...all(belt, "check")].sort(
      (a, b) => Number(a.number) - Number(b.number),
    );
    expect(steps.map(({ number }) => number)).toEqual(numbers.map(({ number }) => String(number)));
    expect(steps.map(({ source }) => source?.line)).toEqual(numbers.map(({ line }) => line));
  });
});

describe("the pair the language was designed on", () => {
  const pair = sheetOf(
    Object.fromEntries(
      ["skua-27.torquil", "belt-service.torquil"].map((file) => [
        file,
        readFileSync(new URL(`../grammar/fixtures/${file}`, import.meta.url), "utf8"),
      ]),
    ),
  );

  it("becomes a sheet of eight steps and two checks, and both renderers take it", () => {
    const steps = [...all(pair, "step"), ...all(pair, "check")].map(({ number }) => Number(number));
    expect(steps.sort((a, b) => a - b)).toEqual(
      Array.from({ length: steps.length }, (_, index) => index + 1),
    );
    expect([all(pair, "step").length, all(pair, "check").length]).toEqual([8, 2]);
    const [, timing] = all(pair, "check");
    expect(timing?.outcomes.map(({ lead }) => ("to" in lead ? lead.to.number : lead.kind))).toEqual([
      "go-on",
      "7",
      "end",
    ]);
    expect(sentencesOf(pair, 5)).toContain(
      "Hold Pump sprocket using Sprocket holder against turning. Tighten Pump sprocket bolt using Torque wrench and Angle gauge.",
    );
    expect(renderHtml(pair)).toContain("22\u00a0N·m");
    expect(pdfOf(pair).pages).toBeGreaterThan(3);
  });
});

describe("what is read first", () => {
  it("states document, newest revision, machine and serials", () => {
    expect(belt.document).toBe("SK27-0410");
    expect(belt.revision).toEqual({ name: "C", date: "2026-11-20" });
    const facts = Object.fromEntries(
      block(belt, "title").facts.map(({ fact, value }) => [fact, text(value)]),
    );
    expect(facts).toMatchObject({
      machine: "Skua 27 marine generator",
      "applies-to": "Serial numbers 1200 to 4899",
      "working-time": "4 h 30 min",
      kit: "K-4021",
    });
  });

  it("asks for the serial number, the version and the symptom, with what each leads to", () => {
    const questions = block(belt, "applicability").questions;
    expect(questions.map(({ id }) => id)).toEqual([
      "question:serial",
      "question:variant",
      "question:symptom:whine",
    ]);
    expect(questions[0]?.answers[1]).toEqual({ answer: "no", leads: "stop" });
    const turn = numberOf(belt, "Pump shaft by hand");
    expect(text(questions[2]?.question)).toContain("Ask before step 1.");
    expect(text(questions[2]?.answers[0]?.leads as never)).toBe(`matters in step ${turn}`);
  });

  it("asks for bulletins with their date and serials, and for options that something hangs on", () => {
    const questions = block(head, "applicability").questions.map(({ question }) => text(question));
    expect(questions[1]).toBe(
      "Has this bulletin been carried out: Bulletin H-117: loose washers under the head bolts, 2024-09-16? It concerns serial numbers 300 to 1150.",
    );
    expect(questions[2]).toBe("Is this fitted: Cab with heater?");
  });

  it("sums up what protects: equipment, heavy parts in both units, each hazard once", () => {
    const { equipment, heavy, hazards } = block(head, "safety");
    expect(equipment.map((item) => text(item.text))).toEqual([
      "Safety glasses",
      "Oil-proof gloves",
      "Safety shoes",
    ]);
    expect(heavy.map(({ part, weight, how }) => [text(part), weight.value, weight.other, text(how)])).toEqual(
      [["Cylinder head with injectors and valves", "46\u00a0kg", "101\u00a0lb", "2 people"]],
    );
    const crushing = hazards.filter((hazard) => text(hazard.text).startsWith("The head weighs"));
    expect(crushing.map(({ at }) => at.map(({ number }) => Number(number)))).toEqual([
      [numberOf(head, "Lift the head off"), numberOf(head, "Set the head down")],
    ]);
    const order = ["danger", "warning", "caution", "notice"];
    const signals = block(belt, "safety").hazards.map(({ signal }) => order.indexOf(signal));
    expect(signals).toEqual([...signals].sort());
    expect(signals[0]).toBe(0);
  });
});

describe("what is needed", () => {
  const rows = block(belt, "parts").rows.map(({ use, name, quantity, note }) => [
    use,
    text(name),
    quantity,
    text(note),
  ]);

  it("sorts parts into new, refit and scrap by what is done to them", () => {
    const float = numberOf(belt, "Pump shaft end float");
    expect(rows).toContainEqual(["new", "Injection-pump belt", "1", ""]);
    expect(rows).toContainEqual([
      "new",
      "Pump thrust washer",
      "1",
      `Only when step ${float} came to “Over the limit”.`,
    ]);
    expect(rows).toContainEqual(["refit", "Coolant pipe bolts", "4", ""]);
    expect(rows).toContainEqual(["scrap", "Injection-pump belt", "1", ""]);
    expect(rows).toContainEqual([
      "scrap",
      "Pump sprocket bolt",
      "1",
      `Only when step ${float} came to “Over the limit”.`,
    ]);
    expect(rows.some(([use, name]) => use === "refit" && name === "Injection-pump belt")).toBe(false);
  });

  it("pairs each way in of a temporary with its way out, also over a return", () => {
    const pins = block(belt, "temporaries").rows.map(({ name, place, uses }) => [
      text(name),
      text(place),
      uses.map((use) => [use.in?.number, use.out?.number]),
    ]);
    const at = (title: string) => String(numberOf(belt, title));
    const [back, down, again, onto, marks] = [
      "Hold the tensioner back",
      "Let the tensioner down",
      "Hold the tensioner back again",
      "Let the tensioner onto the belt",
      "Timing marks",
    ].map(at);
    expect(pins).toContainEqual([
      "Tensioner locking pin, 4 mm (0.16 in)",
      "Belt tensioner",
      [
        [back, down],
        [again, onto],
        [marks, onto],
      ],
    ]);
  });

  it("tells fluids and whether they are kept", () => {
    const kept = block(belt, "fluids").rows.map(({ name, amount, drained }) => [
      text(name),
      amount?.value,
      drained,
    ]);
    expect(kept).toEqual([["Coolant", "4.2\u00a0L", "keep"]]);
    expect(block(head, "fluids").rows.map(({ drained, note }) => [drained, text(note)])).toEqual([
      ["dispose", "Disposal: Collecting point for coolant."],
      ["dispose", "Disposal: Collecting point for used oil."],
    ]);
  });

  it("tells supplies with open time and cure", () => {
    const sealant = block(head, "consumables").rows.find(({ name }) =>
      text(name).startsWith("Liquid sealant"),
    );
    expect(sealant).toMatchObject({ openTime: "10\u00a0min", cure: "1\u00a0h" });
  });

  it("tabulates every fastener that is tightened", () => {
    const table = block(head, "tightening").rows;
    const bolts = table.find(({ name }) => text(name) === "Cylinder head bolts");
    expect(bolts).toMatchObject({ thread: "M12 × 1.25, 10.9", count: "14" });
    expect(bolts?.stages.map(({ name, value }) => [name, value.value, value.other])).toEqual([
      ["seat", "30\u00a0N·m", "22\u00a0lb·ft"],
      ["clamp", "70\u00a0N·m", "52\u00a0lb·ft"],
      ["first angle", "90° further", undefined],
      ["second angle", "60° further", undefined],
    ]);
    expect(text(bolts?.order)).toBe("from the middle out: 4, 11, 3, 12, 5, 10, 2, 13, 6, 9, 1, 14, 7, 8");
    expect(text(bolts?.state)).toBe("Engine oil on thread and under head");
    expect(text(bolts?.renew as never)).toBe(
      "Reuse only when measured: length at most 126.0 mm (at most 4.96 in).",
    );
  });
});

describe("the work", () => {
  it("says each act at the place of work", () => {
    expect(sentencesOf(belt, numberOf(belt, "Lay the belt on"))).toEqual([
      "Fit NEW Injection-pump belt. After a return: the one that was kept. Way round: anticlockwise (Arrow on the belt).",
      "Lay Injection-pump belt on clockwise in this order: Crank sprocket, Guide roller, Pump sprocket and Belt tensioner.",
    ]);
    expect(sentencesOf(head, numberOf(head, "Put the bolts in"))).toContain(
      "Fit NEW Cylinder head bolts. By hand only: tightened in step 30.",
    );
    expect(sentencesOf(belt, numberOf(belt, "Fill with coolant"))).toEqual([
      "Fill with Coolant, 4.2 L (4.4 US qt).",
    ]);
  });

  it("gives a tightening its stages with a box a bolt, and only the stages that are due", () => {
    const step = numbered(head, numberOf(head, "Tighten by torque"));
    const acts = step.body.flatMap((work) => (work.kind === "action" ? [work.tightening] : []));
    expect(acts.map((how) => how?.stages.map(({ name }) => name))).toEqual([["seat"], ["clamp"]]);
    expect(acts[0]?.boxes).toEqual([
      "4",
      "11",
      "3",
      "12",
      "5",
      "10",
      "2",
      "13",
      "6",
      "9",
      "1",
      "14",
      "7",
      "8",
    ]);
    expect(text(acts[0]?.order)).toBe("from the middle out");
  });

  it("waits with a limit to measure, or with the time to go on", () => {
    const waits = [...all(belt, "wait"), ...all(head, "wait")];
    expect(waits[0]?.until).toEqual({
      limit: [{ text: "under 40\u00a0°C", style: "quantity" }],
      unit: "°C",
      range: { max: 40, maxOpen: true },
    });
    expect(waits.map(({ minutes }) => minutes).filter(Boolean)).toEqual([5, 60, 5]);
  });

  it("puts a panel directly before the act it is about", () => {
    const { body } = numbered(belt, numberOf(belt, "Let the tensioner down"));
    expect(body.map(({ kind }) => kind)).toEqual(["panel", "action"]);
    expect(body[0]).toMatchObject({ kind: "panel", signal: "warning" });
  });

  it("leads from a check by step number, and back", () => {
    const float = numberOf(belt, "Pump shaft end float");
    const check = numbered(belt, float);
    expect(
      check.outcomes.map(({ outcome, lead }) => [
        outcome,
        lead.kind,
        "to" in lead ? lead.to.number : "next" in lead ? lead.next?.number : "",
        "times" in lead ? lead.times : 0,
      ]),
    ).toEqual([
      ["within", "go-on", String(float + 1), 0],
      ["over", "check-again", String(float), 1],
      ["still-over", "end", "", 0],
      ["under", "end", "", 0],
    ]);
    expect(check.outcomes.map(({ range }) => range)).toEqual([
      { min: 0.05, max: 0.15 },
      { min: 0.15, minOpen: true },
      { min: 0.15, minOpen: true },
      { max: 0.05, maxOpen: true },
    ]);
    const timing = numbered(belt, numberOf(belt, "Timing marks"));
    expect(timing.outcomes.map(({ outcome, lead }) => [outcome, lead.kind])).toEqual([
      ["met", "go-on"],
      ["not-met", "repeat"],
      ["still-not-met", "end"],
    ]);
    expect(timing.outcomes[1]?.lead).toMatchObject({
      to: { number: String(numberOf(belt, "Pin the pump")) },
      back: { number: timing.number },
      times: 2,
    });
  });

  it("shows limits in both units, with place, instrument and temperature", () => {
    const [measure] = all(head, "measure");
    expect(measure).toMatchObject({
      unit: "mm",
      range: { max: 0.05 },
      places: ["Along the exhaust side", "Along the injection side", "Across each end", "Both diagonals"],
    });
    expect([text(measure?.limit), text(measure?.instrument), text(measure?.temperature)]).toEqual([
      "at most 0.05 mm (at most 0.002 in)",
      "Straight edge, 500 mm and Feeler gauges, 0.03 to 1.00 mm",
      "15 to 25 °C (59 to 77 °F)",
    ]);
  });

  it("has a place to write for each member of the sets that a check is done for, and for each of its places", () => {
    const sheet = sheetOf(
      small(
        'set side "Side" of left, right\npart hub "Hub"',
        "",
        `for each side {
  check play "Play" {
    limit at most 0.1 mm
    place "Top"
    place "Front"
    record
  }
  check wear "Wear" {
    observe "Is it worn?"
    record
  }
}
check whole "Whole" {
  observe "Is it whole?"
  record
}`,
      ),
    );
    const four = ["left: Top", "left: Front", "right: Top", "right: Front"];
    expect(all(sheet, "measure").map(({ places }) => places)).toEqual([four]);
    expect(block(sheet, "values").rows.map(({ places }) => places)).toEqual([four, ["left", "right"], [""]]);
  });

  it("lists a choice by value, each with where it leads", () => {
    const { outcomes } = numbered(head, numberOf(head, "Piston protrusion"));
    expect(outcomes.map(({ outcome, text: said }) => [outcome, text(said)])).toEqual([
      ["choice", "0.40 to 0.50 mm (0.0157 to 0.0197 in): One notch, 1.2 mm"],
      ["choice", "over 0.50 to 0.60 mm (over 0.0197 to 0.0236 in): Two notches, 1.3 mm"],
      ["choice", "over 0.60 to 0.70 mm (over 0.0236 to 0.0276 in): Three notches, 1.4 mm"],
      ["outside", ""],
    ]);
  });

  it("says conditions, their other half, and what is done for each of several", () => {
    const conditions = all(head, "condition").map(({ when, otherwise }) => [text(when), otherwise ?? false]);
    expect(conditions).toContainEqual(["step 24, Head bolts, length, came to: “Over the limit”", false]);
    expect(conditions).toContainEqual(["step 24, Head bolts, length, came to: “Over the limit”", true]);
    expect(all(head, "each").map(({ over, things }) => [text(over), things])).toEqual([
      ["each of Cylinder, one at a time", ["cylinder 1", "cylinder 2", "cylinder 3"]],
    ]);
  });
});

describe("what is kept", () => {
  it("has a row for each recorded value that its measure fills in", () => {
    const rows = block(belt, "values").rows.map(({ name, measure, unit, at }) => [
      text(name),
      measure !== undefined,
      unit,
      at.number,
    ]);
    expect(rows).toContainEqual([
      "End float, as found",
      true,
      "mm",
      String(numberOf(belt, "Pump shaft end float")),
    ]);
    expect(rows).toContainEqual([
      "Frequency at half load",
      true,
      "Hz",
      String(numberOf(belt, "Values under load")),
    ]);
    expect(rows).toContainEqual([
      "Marks in line after two turns",
      false,
      undefined,
      String(numberOf(belt, "Timing marks")),
    ]);
    const measures = new Set(all(belt, "measure").map(({ id }) => id));
    expect(
      block(belt, "values").rows.every(({ measure }) => measure === undefined || measures.has(measure)),
    ).toBe(true);
  });

  it("asks for wrenches and instruments with their calibration, and for the second person where one is needed", () => {
    const fields = (sheet: typeof belt) =>
      block(sheet, "record").fields.map(({ field, of }) => (of ? `${field} ${of}` : field));
    expect(fields(belt)).toContain("wrench Small torque wrench");
    expect(fields(belt)).toContain("calibrated-until Dial gauge with stand, reading 0.01 mm");
    expect(fields(belt)).not.toContain("second-person");
    expect(fields(head)).toContain("second-person");
    expect(block(head, "sign-off").rows.map(({ role }) => role)).toEqual([
      "fitter",
      "second-person",
      "customer",
    ]);
  });
});

describe.each(LANGUAGES)("in %s", (language) => {
  it.each(["marine-generator", "tractor", "trailer-hub", "forklift", "loader", "cargo-bike"])(
    "the %s prints to a page and to paper, and closes with the safety line",
    (name) => {
      const sheet = exampleSheet(name, { language });
      const html = renderHtml(sheet);
      const page = html.replace(/<(script|style)>[\s\S]*?<\/\1>/g, "");
      expect(page).toContain(say(language, "closing"));
      expect(page).not.toMatch(/\{\w+\}|\[object|undefined/);
      expect(pdfOf(sheet).pages).toBeGreaterThan(8);
      expect(JSON.stringify(exampleSheet(name, { language }))).toBe(JSON.stringify(sheet));
    },
  );

  it("leaves no sentence of ours in English", () => {
    const words = (sheet: typeof belt) =>
      new Set(
        all(sheet, "action").map(({ sentence }) =>
          sentence
            .filter((run) => run.style === "text")
            .map((run) => run.text)
            .join("…"),
        ),
      );
    const english = words(belt);
    const own = words(exampleSheet("marine-generator", { language }));
    if (language !== "en")
      expect([...own].filter((one) => english.has(one) && /\p{L}{3}/u.test(one))).toEqual([]);
    expect(own.size).toBeGreaterThan(15);
  });
});
