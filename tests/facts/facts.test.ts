/**
 * What blocks say, read as typed facts.
 */
import { expect, test } from "vitest";
import { type Block, isBlock, type Node, readDocument } from "../../grammar";
import {
  actOf,
  beltFacts,
  cautionOf,
  checkOf,
  type Entry,
  fastenerFacts,
  headerOf,
  kitsOf,
  leverageOf,
  possibleOutcomes,
  readEntry,
  toolFacts,
} from "../../server/facts";

const first = (text: string): Entry => readEntry(readDocument(text).tree.children[0] as Node);

test("a fastener's clauses mean the same on the line and in the block", () => {
  const inline = fastenerFacts(
    first(`fastener b "Bolt" secures lid thread M8 class 8.8 dry count 6 tighten 22 N·m`),
  );
  const block = fastenerFacts(
    first(
      `fastener b "Bolt" {\n  secures lid\n  thread M8\n  class 8.8\n  dry\n  count 6\n  tighten 22 N·m\n}`,
    ),
  );
  expect(inline).toMatchObject({ thread: "M8", class: "8.8", state: "dry", count: 6 });
  const bare = (facts: typeof inline) =>
    JSON.parse(
      JSON.stringify(facts, (key, value) => (key === "at" || key === "countAt" ? undefined : value)),
    );
  expect(bare(block)).toEqual(bare(inline));
});

test("stages: torque, angle, back, back to, by feel", () => {
  const { stages } = fastenerFacts(
    first(
      `fastener b "Bolt" {\n stage snug 40 N·m crosswise\n stage turn 1/4 turn\n stage ease back 180°\n stage slot back to "the next slot"\n stage last by feel "It seats."\n}`,
    ),
  );
  expect(stages.map((s) => [s.name, s.kind, s.text])).toEqual([
    ["snug", "torque", ""],
    ["turn", "angle", ""],
    ["ease", "back", ""],
    ["slot", "back-to", "the next slot"],
    ["last", "by-feel", "It seats."],
  ]);
  expect(stages[0]?.method).toBe("crosswise");
  expect(stages[1]?.value?.nominal?.si).toBeCloseTo(Math.PI / 2, 12);
});

test("a belt's pulleys stand in the order of the lines", () => {
  const facts = beltFacts(
    first(
      `belt t "Belt" toothed {\n pitch 8 mm\n teeth 106\n path clockwise\n pulley a teeth 24 centre 0 mm, 0 mm on crank\n pulley b diameter 60 mm centre 15 mm, -130 mm back of belt travel 10 mm\n}`,
    ),
  );
  expect(facts).toMatchObject({ toothed: true, teeth: 106, path: "clockwise" });
  expect(facts.pulleys.map((p) => [p.part.name, p.teeth, p.backOfBelt, p.shaft?.name])).toEqual([
    ["a", 24, false, "crank"],
    ["b", null, true, undefined],
  ]);
  expect(facts.pulleys[1]?.centre?.[1]?.nominal?.si).toBeCloseTo(-0.13, 12);
});

test("a procedure's header, kit and prose", () => {
  const entry = first(
    `procedure p "P" {\n on winch serial 1200 to 4899\n document "W-1"\n revision C 2026-11-20 "Because."\n working-time 3 h 30 min\n wear "Gloves."\n kit "K-1" {\n  item seal 2 "S-1" only if float over\n }\n "One"\n "paragraph."\n\n "Another."\n}`,
  );
  expect(headerOf(entry)).toMatchObject({
    documentNumber: "W-1",
    serials: [{ from: 1200, to: 4899 }],
    wear: ["Gloves."],
  });
  expect(headerOf(entry).workingTime?.nominal?.si).toBe(12600);
  expect(headerOf(entry).revisions).toMatchObject([{ mark: "C", date: "2026-11-20", reason: "Because." }]);
  expect(kitsOf(entry)[0]?.items[0]).toMatchObject({
    count: 2,
    number: "S-1",
    row: 7,
    onlyIf: { outcome: "over" },
  });
  expect(entry.paragraphs.map((p) => p.text)).toEqual(["One paragraph.", "Another."]);
});

test("a check: limits, places, outcomes", () => {
  const check = checkOf(
    first(
      `check c "C" {\n limit "Height" over 0.55 to 0.65 mm with gauge at 20 °C\n place "front"\n proves washer\n record\n if over {\n  check again at most 1 time\n }\n if still over {\n  end job "Worn."\n }\n}`,
    ),
  );
  expect(check.limits[0]).toMatchObject({ what: "Height", tools: [{ name: "gauge" }] });
  expect(check.limits[0]?.value).toMatchObject({ lowIncluded: false, highIncluded: true });
  expect(check.outcomes.map((o) => [o.outcome, o.still, o.row])).toEqual([
    ["over", false, 5],
    ["over", true, 8],
  ]);
  expect(possibleOutcomes(check)).toEqual(["met", "not met", "over", "under"]);
});

test("acts: names, tools, holding, stages of a tightening, times", () => {
  const act = actOf(first(`tighten b {\n stage snug with wrench\n holding hub with bar\n}`));
  expect(act).toMatchObject({
    verb: "tighten",
    what: [{ name: "b" }],
    holding: { name: "hub" },
    holdingWith: [{ name: "bar" }],
  });
  expect(act.stages).toMatchObject([{ name: { name: "snug" }, tools: [{ name: "wrench" }] }]);
  expect(actOf(first(`fit new seal in own place by two people within 10 min of paste`))).toMatchObject({
    age: "new",
    ownPlace: true,
    people: 2,
    within: { event: { name: "paste" } },
  });
  expect(actOf(first(`lay-on belt clockwise a, b, c`))).toMatchObject({
    direction: "clockwise",
    course: [{ name: "a" }, { name: "b" }, { name: "c" }],
  });
});

test("a caution has its three parts", () => {
  expect(cautionOf(first(`warning burn {\n "Hot."\n can "Scald."\n so "Wait."\n}`))).toEqual({
    word: "warning",
    hazard: expect.objectContaining({ name: "burn" }),
    text: "Hot.",
    can: "Scald.",
    so: "Wait.",
  });
});

test("an adapter's figures for the balance of moments", () => {
  const leverage = (clause: string) => {
    const { adapter } = toolFacts(first(`tool w "Wrench" ${clause}`));
    return adapter && leverageOf(adapter);
  };
  expect(leverage("in-line 50 mm wrench 400 mm")).toEqual([0.4, 0.05, 0]);
  expect(leverage("angled 50 mm at 90° wrench 400 mm")?.[2]).toBeCloseTo(Math.PI / 2, 12);
  expect(leverage("angled 50 mm at 40 to 50° wrench 400 mm")).toBeNull();
  expect(leverage("angled 50 mm at 45 mm wrench 400 mm")).toBeNull();
  expect(leverage("at right angle")).toBeNull();
});

test("a tool's range, adapter and alternatives", () => {
  expect(
    toolFacts(first(`tool w "Wrench" 10 to 100 N·m in-line 50 mm wrench 400 mm or other`)),
  ).toMatchObject({
    adapter: { lever: { kind: "length" }, angle: "in-line" },
    alternative: [{ name: "other" }],
  });
});

test("a quantity that cannot be read is null and says why", () => {
  const problems = (line: string) =>
    first(line).form.slots.flatMap((s) => s.problems.map((p) => [p.code, p.found, p.instead]));
  expect(problems(`wait 30`)).toEqual([["bare-number", "30", "time"]]);
  expect(problems(`wait 30 mim`)).toEqual([["unknown-unit", "mim", "min"]]);
  expect(problems(`wait 30 mm`)).toEqual([["wrong-dimension", "mm", "time"]]);
});

test("a block read again from the same lines is the same entry", () => {
  const tree = readDocument(`machine m "M" {\n  part a "A"\n}`).tree;
  expect(readEntry(tree.children[0] as Block)).toBe(readEntry(tree.children[0] as Block));
  expect(isBlock(tree.children[0] as Node)).toBe(true);
});

test("a clause alone in a block is the clause, though the same words begin a construct", () => {
  const belt = beltFacts(first(`belt t "Belt" {\n  pulley a {\n    teeth 24\n    on crank\n  }\n}`));
  expect(belt.pulleys).toMatchObject([{ part: { name: "a" }, teeth: 24, shaft: { name: "crank" } }]);
  const mark = first(`mark m "Dot" {\n  on crank\n  at 0°\n}`);
  expect(mark.children).toEqual([]);
  expect(mark.details.map((d) => d.clause)).toEqual(["on-shaft", "at-angle"]);
});

test("a broken line in a pulley's block makes the belt doubtful", () => {
  expect(first(`belt t "Belt" {\n  pulley a {\n    teeth\n  }\n}`).doubtful).toBe(true);
});
