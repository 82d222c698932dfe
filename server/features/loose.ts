/**
 * Names that lines use and the model does not bind, since only one place can have declared them: the hazard of a
 * caution, an outcome that a check chooses, the way round of a part, the members of a set behind `left-hand on`.
 */
import { constructs } from "../../grammar";
import {
  allDetails,
  CAUTION_WORDS,
  checkOf,
  clauseOf,
  type Detail,
  type Entry,
  fastenerFacts,
  keptBy,
  type NameAt,
  namesIn,
  partFacts,
  slotIn,
} from "../facts";
import { type FileModel, type Place, placeAt, type Thing } from "../model";

/** What such a name belongs to, and what it is there. */
export type LooseKind = "thing" | "outcome" | "way";

/** One such name. For `thing` it names the thing itself, else an outcome or way of the thing. */
export interface Loose {
  readonly kind: LooseKind;
  readonly thing: Thing;
  readonly name: string;
  readonly place: Place;
  readonly declares: boolean;
}

type Find = (name: string, accepts: readonly string[]) => Thing | undefined;

interface Around {
  readonly file: string;
  readonly find: Find;
  /** What is declared on a line of the file. */
  readonly declared: ReadonlyMap<number, Thing>;
  readonly members: (set: Thing, name: string) => Thing | undefined;
  readonly found: Loose[];
}

/** Every such name of a file, in the order of its text. */
export const looseNames = keptBy((file: FileModel): readonly Loose[] => {
  const found: Loose[] = [];
  const declared = new Map(
    file.things.filter((t) => t.kind !== "member" && t.kind !== "face").map((t) => [t.line, t]),
  );
  const members = (set: Thing, name: string): Thing | undefined =>
    file.inSight.find((t) => t.kind === "member" && t.entry === set.entry && t.name === name);
  const shared: Find = (name, accepts) =>
    file.inSight.find((t) => t.name === name && accepts.includes(t.kind) && t.owner?.kind !== "procedure");
  for (const { row, entry } of file.entries) {
    const procedure = file.procedures.find((p) => p.thing.entry === entry && p.thing.line === row);
    look({ file: file.path, find: procedure?.find ?? shared, declared, members, found }, entry, row, null);
  }
  return found;
});

function look(around: Around, entry: Entry, line: number, check: Thing | null): void {
  const own = around.declared.get(line) ?? null;
  const add = (kind: LooseKind, thing: Thing | null | undefined, name?: NameAt, declares = false): void => {
    if (!thing || !name) return;
    const place = placeAt(around.file, line, name.at);
    around.found.push({ kind, thing, name: name.name, place, declares });
  };
  if (CAUTION_WORDS.includes(entry.construct)) {
    const hazard = namesIn(entry.form, "hazard")[0];
    add("thing", hazard && around.find(hazard.name, ["hazard"]), hazard);
  }
  if (entry.construct === "choose") add("outcome", check, namesIn(entry.form, "choice")[0], true);
  if (entry.construct === "if") add("outcome", check, chosen(check, entry.form));
  if (entry.construct === "when") afterCheck(around, entry.form, "condition", add);
  for (const detail of allDetails(entry)) {
    if (detail.clause === "only-if") afterCheck(around, detail, "check", add);
    if (detail.clause === "way-round") {
      const way = namesIn(detail, "direction")[0];
      const goes = constructs.get(entry.construct)?.act ? goingThatWay(around, entry, way) : own;
      add("way", goes, way, goes === own);
    }
    if (detail.clause === "left-hand") {
      const set = around.find(fastenerFacts(entry).forEach?.name ?? "", ["set"]);
      for (const name of namesIn(detail, "members"))
        add("thing", set && around.members(set, name.name), name);
    }
  }
  const inside = entry.construct === "check" ? own : check;
  for (const child of entry.children) look(around, child.entry, line + child.row, inside);
}

/** The outcome that a form names, where the check declares it with `choose`. */
function chosen(check: Thing | null | undefined, form: Detail): NameAt | undefined {
  const slot = slotIn(form, "outcome");
  const known = check && slot && checkOf(check.entry).choices.some((c) => c.name.name === slot.text);
  return known ? { name: slot.text, at: slot.at } : undefined;
}

function afterCheck(
  { find }: Around,
  detail: Detail,
  role: string,
  add: (kind: LooseKind, thing: Thing | undefined, name?: NameAt) => void,
): void {
  const name = namesIn(detail, role)[0];
  const check = name && find(name.name, ["check"]);
  add("outcome", check, chosen(check, detail));
}

/** The part or belt that an act puts on and that declares this way round. */
function goingThatWay({ find }: Around, entry: Entry, way: NameAt | undefined): Thing | undefined {
  return namesIn(entry.form, "what")
    .flatMap(({ name }) => find(name, ["part", "belt"]) ?? [])
    .find((thing) => wayOf(thing)?.name === way?.name);
}

/** The way round that a part or belt declares. */
export function wayOf(thing: Thing): NameAt | undefined {
  return namesIn(partFacts(thing.entry).wayRound ?? clauseOf(thing.entry, "way-round"), "direction")[0];
}
