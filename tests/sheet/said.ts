/** What a sheet says, as plain texts in reading order: by its blocks, and by its layout. */
import type { Block, Dual, Ref, Runs, Sheet, Stage, Step, Work } from "../../server/sheet/blocks";
import { layOut } from "../../server/sheet/layout";
import type { Atom, Node } from "../../server/sheet/nodes";

const runs = (written: Runs | undefined): string[] =>
  (written ?? []).map(({ text, style, href }) =>
    style === "link" && href !== text ? `${text}(${href})` : text,
  );
const dual = (value: Dual | undefined): string[] =>
  value === undefined ? [] : value.other === undefined ? [value.value] : [value.value, value.other];
const refs = (at: readonly Ref[]): string[] => [...new Set(at.map(({ number }) => number))];
const some = (text: string | undefined): string[] => (text === undefined ? [] : [text]);
const stage = ({ name, value, setting }: Stage): string[] => [
  ...some(name),
  ...dual(value),
  ...dual(setting),
];

/** Everything the blocks of a sheet hold that somebody has to read, in the order a sheet says it. Not the words of ours. */
export function saidByBlocks(sheet: Sheet): string[] {
  return [sheet.title, ...sheet.blocks.flatMap(block)].filter((text) => text !== "");
}

function block(of: Block): string[] {
  switch (of.kind) {
    case "title":
      return of.facts.flatMap(({ value }) => runs(value));
    case "applicability":
      return of.questions.flatMap(({ question, write, answers }) => [
        ...runs(question),
        ...some(write),
        ...answers.flatMap(({ answer, leads }) => [
          ...(typeof answer === "string" ? [] : [answer.text]),
          ...(leads === "stop" ? [] : runs(leads)),
        ]),
      ]);
    case "safety":
      return [
        ...of.equipment.flatMap(({ text }) => runs(text)),
        ...of.heavy.flatMap(({ part, weight, how }) => [...runs(part), ...dual(weight), ...runs(how)]),
        ...of.hazards.flatMap(({ text, at }) => [...runs(text), ...refs(at)]),
      ];
    case "tools":
      return of.rows.flatMap(({ name, range, note, at }) => [
        ...runs(name),
        ...dual(range),
        ...runs(note),
        ...refs(at),
      ]);
    case "parts":
      return [
        ...some(of.kit),
        ...of.rows.flatMap(({ name, number, quantity, note }) => [
          ...runs(name),
          ...some(number),
          quantity,
          ...runs(note),
        ]),
      ];
    case "consumables":
      return of.rows.flatMap(({ name, grade, openTime, cure, note, at }) => [
        ...runs(name),
        ...runs(grade),
        ...some(openTime),
        ...some(cure),
        ...runs(note),
        ...refs(at),
      ]);
    case "fluids":
      return of.rows.flatMap(({ name, amount, grade, note, at }) => [
        ...runs(name),
        ...dual(amount),
        ...runs(grade),
        ...runs(note),
        ...refs(at),
      ]);
    case "temporaries":
      return of.rows.flatMap(({ name, place, uses }) => [
        ...runs(name),
        ...runs(place),
        ...(["in", "out"] as const).flatMap((way) => uses.flatMap((use) => some(use[way]?.number))),
      ]);
    case "tightening":
      return of.rows.flatMap(({ name, thread, count, state, stages, order, renew, at }) => [
        ...runs(name),
        ...some(thread),
        count,
        ...runs(state),
        ...stages.flatMap(stage),
        ...runs(order),
        ...(renew === "always" ? [] : runs(renew)),
        ...refs(at),
      ]);
    case "drawings":
      return of.drawings.flatMap(({ number, caption }) => [number, ...runs(caption)]);
    case "section":
      return [of.title, ...of.blocks.flatMap(work)];
    case "values":
      return of.rows.flatMap(({ name, at, limit, places }) => [
        ...runs(name),
        at.number,
        ...runs(limit),
        ...places,
      ]);
    case "record":
      return of.fields.flatMap((field) => some(field.of));
    case "sign-off":
      return [];
    case "revisions":
      return of.rows.flatMap(({ name, date, reason }) => [name, ...some(date), ...runs(reason)]);
  }
}

function work(of: Work | Step): string[] {
  switch (of.kind) {
    case "step":
    case "check":
      return [
        of.number,
        of.title,
        ...of.body.flatMap(work),
        ...of.outcomes.flatMap(({ text, body, lead }) => [
          ...runs(text),
          ...body.flatMap(work),
          ...(lead.kind === "end" ? runs(lead.reason) : []),
        ]),
      ];
    case "action":
      return [
        ...runs(of.sentence),
        ...refs(of.drawings ?? []),
        ...(of.boxes ?? []),
        ...runs(of.tightening?.order),
        ...(of.tightening?.stages ?? []).flatMap((each) => [...stage(each), ...(of.tightening?.boxes ?? [])]),
      ];
    case "panel":
      return [...runs(of.hazard), ...runs(of.consequence), ...runs(of.avoid)];
    case "wait":
      return [...runs(of.sentence), ...runs(of.until?.limit)];
    case "measure":
      return [
        ...runs(of.what),
        ...runs(of.limit),
        ...of.places.flatMap((place) => [place, of.unit]),
        ...runs(of.temperature),
        ...runs(of.instrument),
      ];
    case "look":
      return runs(of.question);
    case "prose":
    case "note":
      return runs(of.runs);
    case "figure":
      return runs(of.caption);
    case "drawing":
      return [of.number, ...runs(of.caption)];
    case "condition":
      return [...runs(of.when), ...of.body.flatMap(work)];
    case "each":
      return [...runs(of.over), ...of.things, ...of.body.flatMap(work)];
  }
}

/** The whole text of the sheet as it is laid out, words of ours and all: what has to stand on paper, each once. */
export function saidByLayout(sheet: Sheet): string {
  const { title, nodes, closing } = layOut(sheet);
  return [title, ...nodes.map(node), closing].join(" ");
}

function node(of: Node): string {
  switch (of.kind) {
    case "heading":
      return of.text;
    case "facts":
      return of.rows.map(({ name, value }) => `${name} ${atoms(value)}`).join(" ");
    case "line":
      return `${of.mark} ${atoms(of.atoms)}`;
    case "table":
      return [
        ...of.columns.map(({ head }) => head),
        ...of.rows.flatMap(({ cells }) => cells.map(atoms)),
      ].join(" ");
    case "panel":
      return [of.word, ...[of.hazard, of.consequence, of.avoid].map(atoms)].join(" ");
    case "step":
      return [of.number, of.badge, of.title, ...of.body.map(node)].join(" ");
    case "frame":
      return [atoms(of.head), ...of.body.map(node)].join(" ");
    case "picture":
    case "drawing":
      return atoms(of.caption);
  }
}

function atoms(list: readonly Atom[]): string {
  return list.map(atom).join("");
}

function atom(of: Atom): string {
  switch (of.kind) {
    case "run":
      return of.href !== undefined && of.href !== of.text ? `${of.text} (${of.href})` : of.text;
    case "ref":
    case "badge":
      return of.text;
    case "tick":
      return of.label;
    case "field":
      return of.size === "cell" ? "" : of.unit;
    case "chip":
      return of.other === "" ? of.value : `${of.value} (${of.other})`;
    case "break":
      return " ";
  }
}
