/** The layout: what the renderers are given to draw. */
import { describe, expect, it } from "vitest";
import type { Outcome, Sheet, Step } from "../../server/sheet/blocks";
import { layOut } from "../../server/sheet/layout";
import type { Node } from "../../server/sheet/nodes";
import { itemWithText } from "../../server/sheet/where";
import { BELT_SHEET } from "./fixture";
import { act, step, words } from "./make";

function nodesOf(blocks: Sheet["blocks"]): readonly Node[] {
  return layOut({ ...BELT_SHEET, blocks }).nodes;
}

function bodyOf(work: Step): readonly Node[] {
  const node = nodesOf([{ kind: "section", id: "s", title: "S", blocks: [work] }])[1];
  return node?.kind === "step" ? node.body : [];
}

function said(node: Node | undefined): string {
  const atoms = node?.kind === "line" ? node.atoms : node?.kind === "frame" ? node.head : [];
  return atoms
    .map((atom) => {
      if (atom.kind === "run" || atom.kind === "ref" || atom.kind === "badge") return atom.text;
      if (atom.kind === "tick") return `[ ]${atom.label}`;
      if (atom.kind === "chip") return `${atom.value} (${atom.other})`;
      return atom.kind === "field" ? `____${atom.unit}` : "\n";
    })
    .join("");
}

function check(outcomes: readonly Outcome[]): Step {
  return { ...step(4, "End float", []), kind: "check", outcomes };
}

const at = (number: number) => ({ id: `step-${number}`, number: String(number) });

describe("acts", () => {
  it("are lettered through a step, past z", () => {
    const marks = bodyOf(
      step(
        1,
        "S",
        Array.from({ length: 28 }, (_, index) => act(`a${index}`, "Turn.")),
      ),
    ).map((node) => (node.kind === "line" ? node.mark : "?"));
    expect([marks[0], marks[25], marks[26], marks[27]]).toEqual(["a", "z", "aa", "ab"]);
  });

  it("say a tightening at the place of work: both units, the wrench's setting, LH, a box for every bolt and stage", () => {
    const [line] = bodyOf(
      step(1, "S", [
        act("t", "Tighten the bolts.", {
          leftHand: true,
          tightening: {
            order: words("crosswise"),
            boxes: ["1", "2"],
            stages: [
              { name: "snug", value: { value: "40 N·m", other: "30 lb·ft" }, setting: { value: "36 N·m" } },
              { name: "final", value: { value: "90°" } },
            ],
          },
        }),
      ]),
    );
    expect(said(line)).toBe(
      "Tighten the bolts. Left-hand thread\nOrder: crosswise\nsnug 40 N·m (30 lb·ft)  set wrench to 36 N·m  [ ]1  [ ]2\nfinal 90° ()  [ ]1  [ ]2",
    );
  });
});

describe("outcomes", () => {
  it("say where they lead, by step number, and where they come back to", () => {
    const leads: Outcome["lead"][] = [
      { kind: "go-on", next: at(5) },
      { kind: "go-on" },
      { kind: "go-to", to: at(9) },
      { kind: "check-again", to: at(4), times: 1 },
      { kind: "repeat", to: at(2), times: 2, back: at(4) },
      { kind: "end", reason: words("renew the pump.") },
    ];
    const frames = bodyOf(
      check(leads.map((lead, index) => ({ id: `o${index}`, outcome: "over", body: [], lead }))),
    );
    expect(frames.map(said)).toEqual([
      "[ ]Over the limit  → Go on with step 5",
      "[ ]Over the limit  → Go on",
      "[ ]Over the limit  → Go to step 9",
      "[ ]Over the limit  → Check again (step 4), at most once  [ ]Return 1",
      "[ ]Over the limit  → Repeat from step 2, then come back to step 4, at most 2 times  [ ]Return 1  [ ]Return 2",
      "[ ]Over the limit  → End the job: renew the pump.",
    ]);
  });

  it("with acts lead on after them", () => {
    const [frame] = bodyOf(
      check([
        { id: "o", outcome: "still-over", body: [act("a", "Renew it.")], lead: { kind: "go-to", to: at(9) } },
      ]),
    );
    expect(said(frame)).toBe("[ ]Still over the limit");
    expect(frame?.kind === "frame" ? frame.body.map(said) : []).toEqual(["Renew it.", "→ Go to step 9"]);
  });
});

describe("lists", () => {
  it("that are empty are left out with their heading, and so are empty columns", () => {
    expect(nodesOf([{ kind: "tools", id: "t", rows: [] }])).toEqual([]);
    const [, table] = nodesOf([
      { kind: "tools", id: "t", rows: [{ id: "t1", name: words("Tray"), range: { value: "6 L" }, at: [] }] },
    ]);
    expect(table?.kind === "table" ? table.columns.map(({ head }) => head) : []).toEqual([
      "Ready",
      "Tool",
      "Range",
    ]);
    expect(table?.kind === "table" ? table.rowHead : -1).toBe(1);
  });

  it("have an In and an Out box for every use of a temporary item", () => {
    const table = layOut(BELT_SHEET).nodes.find((node) => node.id === "temporaries.table");
    const ticks =
      table?.kind === "table"
        ? table.rows.map((row) => row.cells.map((cell) => cell.filter(({ kind }) => kind === "tick").length))
        : [];
    expect(ticks).toEqual([
      [0, 0, 2, 2],
      [0, 0, 1, 1],
    ]);
  });
});

describe("the layout", () => {
  it("survives JSON", () => {
    const layout = layOut(BELT_SHEET);
    expect(JSON.parse(JSON.stringify(layout))).toEqual(layout);
  });

  it("says what the sheet is valid as", () => {
    const { revision, ...unreleased } = BELT_SHEET;
    expect(layOut(BELT_SHEET).validity).toBe(`Valid only as revision ${revision?.name} of 2026-11-20`);
    expect(layOut({ ...BELT_SHEET, revision: { name: "D" } }).validity).toBe("Valid only as revision D");
    expect(layOut(unreleased).validity).toBe("Not released: there is no revision yet");
  });

  it("tells which item a text belongs to", () => {
    const layout = layOut(BELT_SHEET);
    expect(itemWithText(layout, "meets the cast arrow").item).toBe("align-off");
    expect(itemWithText(layout, "It scalds").item).toBe("burn");
    expect(itemWithText(layout, "TW-3").item).toBe("p-washer");
    expect(itemWithText(layout, "no such text")).toEqual({ item: "", text: "no such text" });
  });
});
