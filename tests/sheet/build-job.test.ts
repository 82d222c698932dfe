/** Jobs that follow others, begin and end part-way, branch, and bring pictures. */
import { describe, expect, it } from "vitest";
import { numbering } from "../../server/model";
import { renderHtml } from "../../server/sheet/html";
import { prose } from "../../server/sheet/markdown";
import { projectOf } from "../support/project";
import { all, block, idsOf, numbered, procedureIn, sentencesOf, sheetOf, small, text } from "./build-support";
import { PNG } from "./fixture-work";
import { pdfOf } from "./typesetter";

const MACHINE = `torquil 1
machine gull "Gull" {
part lid "Lid"  weight 20 kg
part rotor "Rotor"
circuit mains "Mains"
option heater "Heater"
variant early "Early"  serial 1 to 99
variant late "Late"  serial 100 to 200
one-of fuel "Fuel" {
choice diesel "Diesel"
choice gas "Gas"
}
}
`;
const ISOLATE = `torquil 1
use "gull.torquil"
procedure isolate-it "Isolate the Gull" {
on gull
document "G-1"
wear "Rubber gloves"
tool tester "Tester"
section "Off" {
step "Switch off" {
isolate mains
}
check dead "Dead" {
observe "Is it dead?"
if no {
repeat from dead  at most 1 time
}
}
}
}
`;
const JOB = `torquil 1
use "gull.torquil"
use "isolate.torquil"
procedure renew-rotor "Renew the rotor" {
on gull
tool crane "Crane"  rating 100 kg
follow isolate-it
section "Work" {
step first "First" {
remove lid
follow isolate-it
remove rotor
}
check free "Free" {
observe "Is it free?"
if no {
follow isolate-it
check again  at most 2 times
}
}
step "Last" {
fit lid
}
}
}
`;
const FILES = { "gull.torquil": MACHINE, "isolate.torquil": ISOLATE, "job.torquil": JOB };

describe("a followed procedure", () => {
  const sheet = sheetOf(FILES, {}, "renew-rotor");

  it("joins the caller's series, wherever it is followed from, as messages number it", () => {
    const steps = [...all(sheet, "step"), ...all(sheet, "check")].sort(
      (a, b) => Number(a.number) - Number(b.number),
    );
    expect(steps.map(({ number, title }) => `${number} ${title}`)).toEqual([
      "1 Switch off",
      "2 Dead",
      "3 First",
      "4 Switch off",
      "5 Dead",
      "6 Free",
      "7 Switch off",
      "8 Dead",
      "9 Last",
    ]);
    const numbers = numbering(procedureIn(projectOf(FILES), "renew-rotor"));
    expect(steps.map(({ source }) => [source?.file, source?.line])).toEqual(
      numbers.map(({ file, line }) => [file, line]),
    );
  });

  it("leads within the pass it stands in", () => {
    const leads = [2, 5, 8].map((number) =>
      numbered(sheet, number).outcomes.map(({ lead }) =>
        "to" in lead ? lead.to.number : "next" in lead ? lead.next?.number : undefined,
      ),
    );
    expect(leads).toEqual([
      ["3", "2"],
      [undefined, "5"],
      [undefined, "8"],
    ]);
  });

  it("joins its lists, and is named where it begins and in the title", () => {
    expect(block(sheet, "tools").rows.map(({ name }) => text(name))).toEqual(["Crane", "Tester"]);
    expect(block(sheet, "safety").equipment.map((item) => text(item.text))).toEqual(["Rubber gloves"]);
    expect(block(sheet, "title").facts.find(({ fact }) => fact === "also-follow")?.value).toEqual([
      { text: "Isolate the Gull (G-1)", style: "text" },
    ]);
    expect(all(sheet, "prose").map(({ runs }) => text(runs))).toEqual(
      Array(3).fill("Here begins: Isolate the Gull (G-1)."),
    );
    expect(sheet.blocks.flatMap((one) => (one.kind === "section" ? one.title : []))).toEqual(["Off", "Work"]);
  });

  it("prints, with no id twice", () => {
    const ids = idsOf(sheet);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    expect(renderHtml(sheet)).toContain("Here begins");
    expect(pdfOf(sheet).pages).toBeGreaterThan(1);
  });

  it("is not joined again from within itself", () => {
    const loop =
      'torquil 1\nprocedure a "A" {\nstep "One" {\n}\nfollow b\n}\nprocedure b "B" {\nstep "Two" {\n}\nfollow a\n}\n';
    expect(all(sheetOf(loop), "step").map(({ number, title }) => number + title)).toEqual(["1One", "2Two"]);
  });
});

describe("the flow of a job", () => {
  const machine = MACHINE.split("\n").slice(2, -2).join("\n");
  const job = (steps: string, header = "") => sheetOf(small(machine, header, steps));

  it("keeps what stands in no section, before the work and in it", () => {
    const sheet = job('"Read this."\nstep "A" {\n}\nsection "S" {\nstep "B" {\n}\n}\nstep "C" {\n}');
    expect(
      sheet.blocks.flatMap((one) =>
        one.kind === "section" ? [[one.title, one.blocks.map(({ kind }) => kind).join()]] : [],
      ),
    ).toEqual([
      ["The work", "prose,step"],
      ["S", "step"],
      ["The work", "step"],
    ]);
  });

  it("says what is so when it begins, and left so when it ends", () => {
    const sheet = job(
      'step "A" {\n}',
      "starts with {\noff lid, rotor\nisolated mains\n}\nends with {\noff lid\n}",
    );
    expect(all(sheet, "note").map(({ runs }) => text(runs))).toEqual([
      "When this job begins, already so: Off: Lid and Rotor. Isolated: Mains.",
      "When this job ends, left so on purpose: Off: Lid.",
    ]);
  });

  it("puts sections under their condition, and names each kind of condition", () => {
    const sheet = job(
      'when heater {\nsection "S" {\nstep "A" {\n}\n}\n}\notherwise {\nsection "T" {\nstep "B" {\n}\n}\n}\nsection "U" {\nwhen diesel {\nstep "C" {\n}\n}\nwhen late {\nstep "D" {\n}\n}\nwhen clank {\nstep "E" {\n}\n}\n}',
      'symptom clank "Clanking"',
    );
    expect(all(sheet, "condition").map(({ when, otherwise }) => [text(when), otherwise])).toEqual([
      ["this is fitted: Heater", undefined],
      ["this is fitted: Heater", true],
      ["Fuel: Diesel", undefined],
      ["the machine is: Late", undefined],
      ["this was noticed: Clanking", undefined],
    ]);
    expect(
      block(sheet, "applicability").questions.map(({ question, answers }) => [
        text(question),
        answers.map(({ leads }) => (leads === "stop" ? leads : text(leads))),
      ]),
    ).toEqual([
      ["Which version is the machine?", ["", "matters in step 4"]],
      ["Has this been noticed: Clanking?", ["matters in step 5", ""]],
      ["Is this fitted: Heater?", ["matters in step 1", ""]],
      ["Fuel: which one?", ["matters in step 3", ""]],
    ]);
  });

  it("goes on past the other half of a condition, and nowhere from the end of what is repeated for each", () => {
    const check = (title: string) => `check "${title}" {\nobserve "So?"\n}`;
    const sheet = job(
      `set side "Sides" of left, right\nsection "S" {\nwhen heater {\n${check("A")}\n}\notherwise {\nstep "B" {\n}\n}\nfor each side {\n${check("C")}\n}\n${check("D")}\n}`,
    );
    const next = [1, 3, 4].map((number) =>
      numbered(sheet, number).outcomes.map(({ lead }) => ("next" in lead ? lead.next?.number : undefined)),
    );
    expect(next).toEqual([
      ["3", "3"],
      [undefined, undefined],
      [undefined, undefined],
    ]);
  });

  it("says leads that stand in a step or under a condition", () => {
    const sheet = job(
      'step "A" {\nwhen heater {\ngo to c\n}\notherwise {\nend job "**Stop.**"\n}\n}\nstep c "C" {\n}',
    );
    expect(sentencesOf(sheet, 1)).toEqual(["Go to step 2.", "End the job: Stop."]);
  });

  it("leaves the number of returns open where a draft does", () => {
    const sheet = job('check "A" {\nlimit at least 1 mm\nif under {\ncheck again\n}\n}');
    expect(numbered(sheet, 1).outcomes[1]?.lead).toEqual({
      kind: "check-again",
      to: { id: "check:A", number: "1" },
    });
    expect(renderHtml(sheet)).not.toContain("at most");
  });

  it("repeats a check from itself as checking again", () => {
    const sheet = job('check c "C" {\nobserve "So?"\nif no {\nrepeat from c  at most 2 times\n}\n}');
    expect(numbered(sheet, 1).outcomes[1]?.lead).toEqual({
      kind: "check-again",
      to: { id: "check:c", number: "1" },
      times: 2,
    });
  });

  it("is marked as a draft when the writer says so", () => {
    expect(job('step "A" {\n}', "status draft").draft).toBe(true);
    expect(job('step "A" {\n}', "status released").draft).toBe(false);
  });

  it("keeps ids when steps are put in before and titles stay", () => {
    const step = (title: string, act: string) => `step "${title}" {\n${act}\n}`;
    const ids = (sheet: ReturnType<typeof job>) => all(sheet, "action").map(({ id }) => id);
    const before = ids(
      job(`section "S" {\n${step("A", "remove lid")}\n${step("B", "fit lid\nfit rotor")}\n}`),
    );
    const after = ids(
      job(
        `section "R" {\n${step("New", "open lid")}\n}\nsection "S" {\n${step("B", "fit lid\nfit rotor")}\n${step("A", "remove lid")}\n}`,
      ),
    );
    expect([...before].sort()).toEqual(after.filter((id) => !id.includes("New")).sort());
    expect(before).toHaveLength(3);
  });

  it("stops who has a version it is not for", () => {
    const sheet = sheetOf(small(machine, "", 'step "A" {\n}').replace("on gull", "on gull  only on late"));
    expect(block(sheet, "applicability").questions[0]?.answers).toEqual([
      { answer: { text: "Early" }, leads: "stop" },
      { answer: { text: "Late" } },
    ]);
  });

  it("tells what is heavy, and by how many it is handled", () => {
    const sheet = job('step "A" {\nremove lid  by two people\n}');
    expect(block(sheet, "safety").heavy.map(({ part, how }) => [text(part), text(how)])).toEqual([
      ["Lid", "2 people"],
    ]);
    expect(block(job('step "A" {\nremove rotor\n}'), "safety").heavy).toEqual([]);
  });
});

describe("pictures", () => {
  const files = (bytes: Uint8Array | undefined) =>
    sheetOf(
      {
        "a.torquil": 'torquil 1\nprocedure p "P" {\nstep "A" {\nfigure "p.png" "A ring"\n}\n}\n',
        "p.png": "",
      },
      { pictures: (file) => (file === "p.png" ? bytes : undefined) },
    );

  it("are found by their link and told by their first bytes", () => {
    const bytes = Uint8Array.from(Buffer.from(PNG, "base64"));
    const [figure] = all(files(bytes), "figure");
    expect(figure).toMatchObject({ type: "image/png", bytes: PNG, description: "A ring" });
    expect(pdfOf(files(bytes)).pages).toBeGreaterThan(0);
    const svg = new TextEncoder().encode(
      '<?xml version="1.0"?>\n<!-- x -->\n<svg xmlns="http://www.w3.org/2000/svg"/>',
    );
    expect(all(files(svg), "figure")[0]?.type).toBe("image/svg+xml");
  });

  it("that cannot be read are said to be missing, in their place", () => {
    expect(all(files(undefined), "note").map(({ runs }) => text(runs))).toEqual([
      "The picture “p.png” could not be read.",
    ]);
    expect(all(files(new Uint8Array([1, 2])), "note").map(({ runs }) => text(runs))).toEqual([
      "The picture “p.png” is no PNG, JPEG, GIF, WebP or SVG file.",
    ]);
  });
});

describe("the writer's prose", () => {
  it("keeps strong, emphasis, code and links, and nothing else", () => {
    expect(prose("Turn **slowly**, _never_ `fast`; see [the chart](https://a.example/b).")).toEqual([
      { text: "Turn ", style: "text" },
      { text: "slowly", style: "strong" },
      { text: ", ", style: "text" },
      { text: "never", style: "em" },
      { text: " ", style: "text" },
      { text: "fast", style: "code" },
      { text: "; see ", style: "text" },
      { text: "the chart", style: "link", href: "https://a.example/b" },
      { text: ".", style: "text" },
    ]);
    expect(prose("<b>x</b> ![alt](y.png) & \\*z\\* 40 mm")).toEqual([
      { text: "<b>x</b> !", style: "text" },
      { text: "alt", style: "link", href: "y.png" },
      { text: " & *z* 40\u00a0mm", style: "text" },
    ]);
    expect(prose("**a _b_**")).toEqual([{ text: "a b", style: "strong" }]);
    expect(prose("")).toEqual([]);
  });
});
