/**
 * The sections of the sheet: those of the text, and those that are needed for what stands in none.
 */
import { namesIn } from "../facts";

import type { Spot } from "../model";
import type { Note, Section } from "./blocks";
import { type Build, firstStep, itemOf, saidIn, titleOf, titles, words } from "./build-context";
import { conditionOf, eachOf, flowOf, followedLine, type Item, itemsOf, paragraph } from "./build-work";
import { sentences, textOf } from "./fill";

/** All sections of a job: before it begins, the work, how it ends. */
export function sectionsOf(build: Build): readonly Section[] {
  const { root } = build.job;
  const state = (construct: string): readonly Note[] =>
    root.children.filter(({ entry }) => entry.construct === construct).map((spot) => stateNote(build, spot));
  const sections = pieced(build, root);
  const [first, ...rest] = sections;
  const begun = first?.id === "begin";
  return [
    ...named(build, "begin", [...state("starts"), ...(begun ? first.blocks : [])]),
    ...(begun ? rest : sections),
    ...named(build, "end", state("ends")),
  ];
}

function named(
  build: Build,
  id: "begin" | "work" | "end",
  blocks: readonly Item[],
  suffix = "",
): readonly Section[] {
  if (blocks.length === 0) return [];
  return [{ kind: "section", id: `${id}${suffix}`, title: textOf(words(build, `section.${id}`)), blocks }];
}

/** The sections in a place of the job; what stands in none is gathered into one of its own. */
function pieced(build: Build, parent: Spot): readonly Section[] {
  const pieces = [
    ...parent.entry.paragraphs.map(({ row, text }, index) => ({
      row,
      spot: null,
      items: [paragraph(parent, text, row, index)],
    })),
    ...parent.children.map((spot) => ({ row: spot.line - parent.line, spot, items: [] as readonly Item[] })),
  ].sort((a, b) => a.row - b.row);
  const made: Section[] = [];
  let loose: Item[] = [];
  let worked = false;
  const flush = (): void => {
    const word = worked || made.length > 0 || parent !== build.job.root ? "work" : "begin";
    const whole = parent === build.job.root && made.length === 0;
    made.push(...named(build, word, loose, whole ? "" : `:${parent.id}${numbered(made.length)}`));
    loose = [];
    worked = false;
  };
  for (const { spot, items } of pieces) {
    if (spot && holdsSection(spot)) {
      flush();
      made.push(...sectionsIn(build, spot));
    } else {
      loose.push(...(spot ? itemsOf(build, spot) : items));
      if (spot && firstStep(spot)) worked = true;
    }
  }
  flush();
  return made;
}

function holdsSection(spot: Spot): boolean {
  return spot.entry.construct === "section" || spot.children.some(holdsSection);
}

/** The sections of a section, of a condition, of what is done for each, or of a followed procedure. */
function sectionsIn(build: Build, spot: Spot): readonly Section[] {
  switch (spot.entry.construct) {
    case "section":
      return [
        {
          kind: "section",
          ...itemOf(spot),
          title: spot.thing ? titleOf(spot.thing) : "",
          blocks: flowOf(build, spot),
        },
      ];
    case "when":
    case "otherwise":
      return pieced(build, spot).map((section, index) => ({
        ...section,
        blocks: [conditionOf(build, spot, section.blocks, numbered(index))],
      }));
    case "for":
      return pieced(build, spot).map((section, index) => ({
        ...section,
        blocks: [eachOf(build, spot, section.blocks, numbered(index))],
      }));
    case "follow":
      return spot.children.flatMap((procedure) => {
        const [first, ...rest] = pieced(build, procedure);
        return first
          ? [{ ...first, blocks: [followedLine(build, spot, procedure), ...first.blocks] }, ...rest]
          : [];
      });
    default:
      return pieced(build, spot);
  }
}

const numbered = (index: number): string => (index === 0 ? "" : `#${index + 1}`);

/** What is so when the job begins, or left so when it ends. */
function stateNote(build: Build, spot: Spot): Note {
  const lines = spot.children.map(({ entry, ...rest }) => {
    const what = titles(build, saidIn({ entry, ...rest }, entry.form, "things", "fluids"));
    return namesIn(entry.form, "things").length + namesIn(entry.form, "fluids").length > 0
      ? words(build, `state.${entry.construct}` as "state.off", { what })
      : [];
  });
  const lead = words(build, spot.entry.construct === "starts" ? "starts-with" : "ends-with");
  return { kind: "note", ...itemOf(spot), runs: sentences([lead, ...lines]) };
}
