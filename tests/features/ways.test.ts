/** What is told of the ways: that every parting of the graph is told once, in words, also where procedures are followed. */
import { expect, test } from "vitest";
import { tellWays } from "../../server/features";
import { countWords } from "../../server/features/count-words";
import { jobOf, type Procedure, type Project } from "../../server/model";
import { buildSheet } from "../../server/sheet/build";
import { flowIn, partingsIn } from "../../server/sheet/partings";
import { graphOf } from "../../server/walk";
import { cleanExamples } from "../support/examples";
import { projectOf } from "../support/project";
import { seeded } from "../support/random";
import { MACHINE, makeProgram } from "../walk/programs";

/** The tests of a procedure's graph, and those that belong to its partings. */
function testsOf(project: Project, procedure: Procedure): { all: number[]; told: number[] } {
  const graph = graphOf(procedure);
  const partings = partingsIn(flowIn(jobOf(project, procedure), graph));
  const told = partings.flatMap(({ answers }) => answers.map(({ branch }) => branch.test));
  return {
    all: graph.controls.filter((at) => graph.points[at]?.kind === "test"),
    told: [...new Set(told)].sort((a, b) => a - b),
  };
}

function onlyProcedure(project: Project, path = "job.torquil"): Procedure {
  const procedure = project.files.get(path)?.procedures[0];
  if (!procedure || procedure.doubtful) throw new Error("no procedure that can be followed");
  return procedure;
}

test("every test of the graph belongs to a place that is told, in examples and random procedures", () => {
  const examples = projectOf(Object.fromEntries(cleanExamples().map(({ path, text }) => [path, text])));
  let looked = 0;
  for (const file of examples.files.values())
    for (const procedure of file.procedures.filter(({ doubtful }) => !doubtful)) {
      const { all, told } = testsOf(examples, procedure);
      expect(told, procedure.thing.name).toEqual(all);
      looked += all.length;
    }
  expect(looked).toBeGreaterThan(60);
  const random = seeded(31);
  for (let i = 0; i < 80; i++) {
    const project = projectOf({
      "job.torquil": makeProgram(random, 3 + (i % 6)).text,
      "winch.torquil": MACHINE,
    });
    const { all, told } = testsOf(project, onlyProcedure(project));
    expect(told).toEqual(all);
  }
});

const FOLLOWED = `torquil 1

machine winch "Winch" {
  part cover "Cover"
}

procedure job "Job" {
  on winch
  follow look
  step between "Between" {
    clean cover
  }
  follow look
}

procedure look "Look" {
  on winch
  check play "Play" {
    limit at most 0.2 mm
    if over {
      clean cover
    }
  }
}
`;

test("a procedure that is followed twice parts the ways twice", () => {
  const project = projectOf({ "job.torquil": FOLLOWED });
  const told = tellWays(project, onlyProcedure(project));
  expect(told.count?.ways).toBe("4");
  expect(told.places.map(({ title }) => title)).toEqual(["1 Play", "3 Play"]);
  expect(told.places.map(({ answers }) => answers.map(({ ways }) => ways))).toEqual([
    ["2", "2"],
    ["2", "2"],
  ]);
  const { all, told: tests } = testsOf(project, onlyProcedure(project));
  expect(tests).toEqual(all);
});

const CHOSEN = `torquil 1

machine winch "Winch" {
  part cover "Cover"
  one-of size "Size" {
    choice small "Small"
    choice large "Large"
  }
}

procedure job "Job" {
  on winch
  step fit "Fit" {
    when small {
      clean cover
    }
    when large {
      lubricate cover
    }
  }
}
`;

test("conditions of which always one holds are one question", () => {
  const project = projectOf({ "job.torquil": CHOSEN });
  const { places } = tellWays(project, onlyProcedure(project));
  expect(places.map(({ answers }) => answers.map(({ answer, ways }) => `${answer} ${ways}`))).toEqual([
    ["Small 1", "Large 1"],
  ]);
});

test("the answer for which nothing is written is called what is left", () => {
  const answersOf = (measured: string, outcomes: string): string[] => {
    const lines = `    ${measured}\n${outcomes
      .split("; ")
      .map((one) => `    if ${one} {\n      clean cover\n    }\n`)
      .join("")}`;
    const text = FOLLOWED.replace(/ {4}limit at most[\s\S]*? {4}\}\n/, lines);
    const project = projectOf({ "job.torquil": text });
    return (tellWays(project, onlyProcedure(project)).places[0]?.answers ?? []).map(({ answer }) => answer);
  };
  expect(answersOf("limit 0.1 to 0.2 mm", "under")).toEqual([
    "Under the limit",
    "Within the limit or Over the limit",
  ]);
  expect(answersOf("limit 0.1 to 0.2 mm", "not met")).toEqual(["Outside the limits", "Within the limit"]);
  expect(answersOf("limit 0.1 to 0.2 mm", "met; not met")).toEqual([
    "Within the limit",
    "Outside the limits",
  ]);
  expect(answersOf('observe "Is it dry?"', "no")).toEqual(["No", "Yes"]);
});

test("figures of any size are told as people read them", () => {
  expect([1n, 999n, 1000n, 1_234_567n].map(countWords)).toEqual(["1", "999", "1,000", "1,234,567"]);
  expect(countWords(2n ** 100n)).toBe("about 1.26 × 10^30");
});

test("the sheet has the drawing where the ways part, with its words, and none where they do not", () => {
  const options = {
    language: "en",
    paper: "a4",
    units: "both",
    draft: false,
    pictures: () => undefined,
  } as const;
  const drawn = (text: string) => {
    const project = projectOf({ "job.torquil": text });
    return buildSheet(project, onlyProcedure(project), options).blocks.flatMap((block) =>
      block.kind === "drawings" ? block.drawings : [],
    );
  };
  const [drawing, ...more] = drawn(FOLLOWED);
  expect(more).toEqual([]);
  expect(drawing?.description.replaceAll("\u00a0", " ")).toBe(
    "The ways through the work. Begin. 1 Play. at most 0.2 mm (at most 0.008 in). Over the limit: Clean Cover. Then on with what comes next. Within the limit: straight on. Step 2: Between. 3 Play. at most 0.2 mm (at most 0.008 in). Over the limit: Clean Cover. Then on with what comes next. Within the limit: straight on. End of the work.",
  );
  expect(drawn(FOLLOWED.replace(/ {4}if over[\s\S]*? {4}\}\n/, ""))).toEqual([]);
});
