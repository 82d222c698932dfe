/**
 * Lays a sheet out: from its blocks to the few kinds of node that the renderers draw, in the order of the blocks.
 */
import { phrase, say } from "../phrases/sheet";
import { base, runs, text } from "./atoms";
import type { Block, Sheet, TitleBlock } from "./blocks";
import { applicability, safety } from "./layout-front";
import { consumables, fluids, parts, temporaries, tightening, tools } from "./layout-lists";
import { jobRecord, recordedValues, revisions, signOff } from "./layout-records";
import { drawing, section } from "./layout-work";
import type { Layout, Line, Node } from "./nodes";
import { listHeading } from "./tables";

/** Lays a sheet out. The closing safety line is always part of the result, whatever blocks the sheet has. */
export function layOut(sheet: Sheet): Layout {
  const language = sheet.words;
  const revision = sheet.revision;
  return {
    lang: sheet.lang,
    paper: sheet.paper,
    title: sheet.title,
    running: [
      ...(sheet.document === undefined ? [] : [sheet.document]),
      ...(revision === undefined ? [] : [`${say(language, "fact.revision")} ${revision.name}`]),
    ].join("  ·  "),
    validity: validity(sheet),
    pageOf: phrase(language, "page-of"),
    draft: sheet.draft ? say(language, "draft") : "",
    date: revision?.date ?? "",
    changed: say(language, "changed"),
    nodes: sheet.blocks.flatMap((block) => nodes(sheet, block)),
    closing: say(language, "closing"),
  };
}

function validity({ words, revision }: Sheet): string {
  if (revision === undefined) return say(words, "not-released");
  return revision.date === undefined
    ? say(words, "valid-only", { revision: revision.name })
    : say(words, "valid-only-dated", { revision: revision.name, date: revision.date });
}

function nodes(sheet: Sheet, block: Block): Node[] {
  const language = sheet.words;
  switch (block.kind) {
    case "title":
      return titleBlock(sheet, block);
    case "applicability":
      return applicability(language, block);
    case "safety":
      return safety(language, block);
    case "tools":
      return tools(language, block);
    case "parts":
      return parts(language, block);
    case "consumables":
      return consumables(language, block);
    case "fluids":
      return fluids(language, block);
    case "temporaries":
      return temporaries(language, block);
    case "tightening":
      return tightening(language, block);
    case "drawings":
      return block.drawings.length === 0
        ? []
        : [listHeading(language, block, "head.ways"), ...block.drawings.map((one) => drawing(language, one))];
    case "section":
      return section(language, block);
    case "values":
      return recordedValues(language, block);
    case "record":
      return jobRecord(language, block);
    case "sign-off":
      return signOff(language, block);
    case "revisions":
      return revisions(language, block);
  }
}

/** The facts under the title, a word of warning on a draft, and what the margin bars mean where there are any. */
function titleBlock(sheet: Sheet, block: TitleBlock): Node[] {
  const language = sheet.words;
  const say1 = (id: string, words: string): Line => ({
    kind: "line",
    id: `${block.id}.${id}`,
    changed: false,
    look: "note",
    mark: "",
    atoms: [text(words)],
  });
  return [
    {
      kind: "facts",
      ...base(block),
      rows: block.facts.map((fact) => ({
        ...base(fact),
        name: say(language, `fact.${fact.fact}`),
        value: runs(fact.value),
      })),
    },
    ...(sheet.draft ? [say1("draft", say(language, "draft-note"))] : []),
    ...(sheet.changedSince === undefined
      ? []
      : [say1("changed-since", say(language, "changed-since", { revision: sheet.changedSince }))]),
    ...(sheet.removedSince === undefined
      ? []
      : [say1("removed-since", say(language, "removed-since", { what: sheet.removedSince.join("; ") }))]),
  ];
}
