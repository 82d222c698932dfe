/**
 * The sheet of a procedure: from the bound model to the sheet's blocks, in reading order. Everything on it is worked out
 * from what the writer said once; nothing is asked of anybody. A pure function: same model and options, same sheet.
 */
import { headerOf } from "../facts";
import { jobOf, type Procedure, type Project } from "../model";
import type { Block, Sheet } from "./blocks";
import { type Build, NO_DRAWINGS, type SheetOptions, titleOf } from "./build-context";
import { drawingsOf } from "./build-drawings";
import { applicability, titleBlock } from "./build-front";
import { consumables, fluids, temporaries, tools } from "./build-lists";
import { parts } from "./build-parts";
import { jobRecord, recordedValues, revisions, signOff } from "./build-records";
import { safety } from "./build-safety";
import { sectionsOf } from "./build-sections";
import { tighteningTable } from "./build-tightening";
import { usesOf } from "./build-uses";
import { waysOf } from "./build-ways";

export type { SheetOptions } from "./build-context";

/** Builds the sheet of a procedure. Never throws: what cannot be found is said in its place. */
export function buildSheet(project: Project, procedure: Procedure, options: SheetOptions): Sheet {
  const job = jobOf(project, procedure);
  const undrawn: Build = { ...options, project, job, uses: usesOf(job), drawings: NO_DRAWINGS };
  const build: Build = { ...undrawn, drawings: drawingsOf(undrawn) };
  const { documentNumber, revisions: all, status } = headerOf(procedure.thing.entry);
  const [newest] = all;
  return {
    lang: options.language,
    words: options.language,
    paper: options.paper,
    draft: options.draft || status === "draft",
    title: titleOf(procedure.thing),
    ...(documentNumber ? { document: documentNumber } : {}),
    ...(newest ? { revision: { name: newest.mark, ...(newest.date ? { date: newest.date } : {}) } } : {}),
    blocks: blocksOf(build),
  };
}

/** The blocks in the order they are read. */
function blocksOf(build: Build): readonly Block[] {
  return [
    titleBlock(build),
    applicability(build),
    safety(build),
    tools(build),
    parts(build),
    consumables(build),
    fluids(build),
    temporaries(build),
    tighteningTable(build),
    ...sectionsOf(build),
    recordedValues(build),
    jobRecord(build),
    signOff(build),
    revisions(build),
    ...waysOf(build),
  ];
}
