/** The sheet as PDF: tagged, the same bytes, nothing parted, nothing lost, and clear errors. */
import { describe, expect, it } from "vitest";
import { LANGUAGES, say } from "../../server/phrases/sheet";
import type { Sheet, Step } from "../../server/sheet/blocks";
import { pagesOfItems, renderPdf } from "../../server/sheet/pdf";
import { BELT_SHEET } from "./fixture";
import { act, panel, step, words } from "./make";
import { pdfOf, textsOf, typesetter } from "./typesetter";

function withSteps(steps: readonly Step[]): Sheet {
  return { ...BELT_SHEET, blocks: [{ kind: "section", id: "work", title: "Work", blocks: steps }] };
}

function errorOf(sheet: Sheet) {
  const result = renderPdf(sheet, typesetter);
  if (!("error" in result)) throw new Error("a PDF was made");
  return result.error;
}

describe("the PDF", () => {
  const { bytes, pages } = pdfOf(BELT_SHEET);

  it("is tagged, titled and dated from the revision, not from the clock", () => {
    const raw = bytes.toString("latin1");
    expect(raw).toContain("/StructTreeRoot");
    expect(raw).toContain("/MarkInfo");
    expect(raw).toContain("<pdfuaid:part>1</pdfuaid:part>");
    expect(raw).toContain("Renew the injection-pump belt");
    expect(raw.match(/\/(?:Creation|Mod)Date \(D:\d+/g)?.map((date) => date.slice(-14))).toEqual([
      "20261120000000",
      "20261120000000",
    ]);
  });

  it("has the same bytes a second time", () => {
    expect(pdfOf(BELT_SHEET).bytes.equals(bytes)).toBe(true);
  });

  it("has the same bytes whatever was set before it, also what could not be", () => {
    const fresh = renderPdf(BELT_SHEET, { ...typesetter });
    const others = [1, 2, 3, 4].map((n) =>
      withSteps([step(n, `Step ${n}`, [act(`a${n}`, `Turn it ${n} times.`)])]),
    );
    for (const other of others) expect(pdfOf(other).bytes.equals(bytes)).toBe(false);
    expect(errorOf(withSteps([step(1, "벨트", [])])).code).toBe("missing-glyph");
    expect("pdf" in fresh && Buffer.from(fresh.pdf).equals(pdfOf(BELT_SHEET).bytes)).toBe(true);
  });

  it("says nothing that poppler takes for an error", () => {
    expect(bytes.toString("latin1")).toMatch(/\/MarkInfo <<\s+\/Marked true\s+>>/);
  });

  it("says no date when the revision has none, or one that is no day", () => {
    for (const revision of [{ name: "C" }, { name: "C", date: "2026-02-31" }]) {
      expect(pdfOf({ ...BELT_SHEET, revision }).bytes.toString("latin1")).not.toContain("/CreationDate");
    }
  });

  it("is as large as its paper", () => {
    expect(bytes.toString("latin1")).toMatch(/\/MediaBox \[0 0 595\.27\d* 841\.8\d*\]/);
    expect(pdfOf({ ...BELT_SHEET, paper: "letter" }).bytes.toString("latin1")).toContain(
      "/MediaBox [0 0 612 792]",
    );
  });

  it("counts its pages", () => {
    expect(bytes.toString("latin1").match(/\/Type \/Page\b(?!s)/g)).toHaveLength(pages);
    expect(pages).toBeGreaterThan(3);
  });

  it("is a different one as a draft", () => {
    expect(pdfOf({ ...BELT_SHEET, draft: true }).bytes.equals(bytes)).toBe(false);
  });

  it.each(LANGUAGES)("ends with the closing safety line in %s, whatever blocks there are", (language) => {
    for (const blocks of [BELT_SHEET.blocks, []]) {
      expect(textsOf({ ...BELT_SHEET, words: language, blocks }).at(-1)).toBe(say(language, "closing"));
    }
  });
});

describe("pages", () => {
  it("never part a safety panel from the act it stands before", () => {
    const steps = Array.from({ length: 60 }, (_, index) =>
      step(index + 1, `Step ${index + 1}`, [
        act(`before-${index}`, "Turn the crankshaft until the marks meet. ".repeat(1 + ((index * 7) % 11))),
        panel(
          `panel-${index}`,
          "warning",
          "The arm is spring-loaded. ".repeat(1 + 9 * (index % 4)),
          "It crushes a finger.",
          "Hold the arm.",
        ),
        ...(index % 3 === 0
          ? [panel(`second-${index}`, "caution", "Oil is hot.", "It scalds.", "Wait.")]
          : []),
        act(
          `act-${index}`,
          "Pull the pin and let the arm down slowly onto the belt. ".repeat(1 + (index % 4)),
        ),
      ]),
    );
    const found = pagesOfItems(withSteps(steps), typesetter);
    if ("error" in found) throw new Error(found.error.message);
    const page = (id: string) => found.pages.get(id);
    const parted = steps.filter((_, index) => {
      const ids = [
        `panel-${index}`,
        `panel-${index}.end`,
        ...(index % 3 === 0 ? [`second-${index}`] : []),
        `act-${index}`,
      ];
      return new Set(ids.map(page)).size !== 1;
    });
    expect(page("act-59")).toBeGreaterThan(8);
    expect(parted.map(({ title }) => title)).toEqual([]);
  });

  it("hold a panel that is taller than a page", () => {
    const long = "Hot coolant sprays out of an open system and does not stop. ".repeat(150);
    const drain = step(1, "Drain", [panel("p", "danger", long, long, "Wait."), act("a", "Drain.")]);
    const found = pagesOfItems(withSteps([drain]), typesetter);
    if ("error" in found) throw new Error(found.error.message);
    expect(found.pages.get("p.end")).toBeGreaterThan((found.pages.get("p") ?? 0) + 2);
    expect(found.pages.get("a")).toBe(found.pages.get("p.end"));
  });
});

describe("text from the data", () => {
  const markup = '#panic("run") $x$ *a* _b_ `c` @d <e> \\u{41} // f [g] {h} "i" = j';

  it("is never run as markup", () => {
    const steps = [
      step(1, markup, [act("a", ""), { kind: "prose", id: "p", runs: [{ text: markup, style: "text" }] }]),
    ];
    expect(textsOf({ ...withSteps(steps), title: markup, document: markup }).join("")).toContain(markup);
    expect(pdfOf({ ...withSteps(steps), title: markup, document: markup }).pages).toBe(1);
  });

  it("may be in any letters the fonts have", () => {
    const text = "燃料噴射ポンプのベルト, Ремень ТНВД, Ιμάντας, ≤ 0,15 mm → ⌀ 6 ≠ ☐ ⚠";
    expect(pdfOf(withSteps([step(1, text, [act("a", text)])])).pages).toBe(1);
  });

  it("may be words far too long for their place", () => {
    const long = "Kurbelgehäuseentlüftungsschlauchschelle".repeat(6);
    const name = `TB-106/${"W".repeat(200)}`;
    const sheet: Sheet = {
      ...withSteps([
        step(1, long, [
          act("a", name, {
            boxes: [name],
            tightening: { stages: [{ name, value: { value: name } }], boxes: [long] },
          }),
        ]),
      ]),
      title: long,
      document: name,
    };
    expect(pdfOf(sheet).pages).toBeGreaterThan(0);
  });

  it("that no font can show is an error that names character, text and item", () => {
    const error = errorOf(withSteps([step(1, "Belt", [act("belt-off", "Remove the 벨트.")])]));
    expect(error.code).toBe("missing-glyph");
    expect(error.item).toBe("belt-off");
    expect(error.message).toContain("“벨” (U+BCA8), in “Remove the 벨트.”, at belt-off");
  });

  it("is found in a table as well", () => {
    const error = errorOf({
      ...BELT_SHEET,
      blocks: [{ kind: "tools", id: "t", rows: [{ id: "tool-1", name: words("렌치"), at: [] }] }],
    });
    expect(error).toMatchObject({ code: "missing-glyph", item: "tool-1" });
  });
});

describe("pictures", () => {
  const figure = (id: string, bytes: string, type: "image/png" | "image/svg+xml" = "image/png") =>
    ({ kind: "figure", id, type, bytes, description: `Picture ${id}` }) as const;
  const good = figure(
    "good",
    Buffer.from(
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0 0h9v9z"/></svg>',
    ).toString("base64"),
    "image/svg+xml",
  );

  it.each([
    ["not a picture", Buffer.from("hello").toString("base64")],
    ["empty", ""],
    ["cut off", "iVBORw0KGgoAAAANSUhEUgAAAAI="],
  ])("that cannot be read are an error that names picture and item: %s", (_, bytes) => {
    const error = errorOf(withSteps([step(1, "Look", [good, figure("bad", bytes)])]));
    expect(error).toMatchObject({ code: "bad-picture", item: "bad" });
    expect(error.message).toContain("“Picture bad”, at bad cannot be read");
  });
});

describe("a reference to a step that is not there", () => {
  it("is printed as text", () => {
    const sheet: Sheet = {
      ...BELT_SHEET,
      blocks: [
        {
          kind: "tools",
          id: "t",
          rows: [{ id: "t1", name: words("Drain tray"), at: [{ id: "gone", number: "9" }] }],
        },
      ],
    };
    expect(pdfOf(sheet).pages).toBe(1);
  });
});

describe("without the fonts", () => {
  it("there is an error and no page with holes", () => {
    const result = renderPdf(BELT_SHEET, { ...typesetter, fonts: [] });
    expect(result).toMatchObject({ error: { code: "not-typeset" } });
  });
});
