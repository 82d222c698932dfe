/**
 * What a file declares, before any name is bound: things, links, and whether broken lines may have declared more.
 * A pure function of path and document.
 */
import { constructs, type Document, isBlock, type Line } from "../../grammar";
import {
  allDetails,
  type Child,
  type Entry,
  keptByEntry,
  type NameAt,
  namesIn,
  readEntry,
  slotIn,
  textIn,
} from "../facts";
import type { Owner, Place, Thing, ThingKind } from "./types";

export interface RawLink {
  readonly path: string;
  readonly place: Place;
  readonly kind: "use" | "figure";
}

export interface Declared {
  readonly path: string;
  readonly document: Document;
  readonly entries: readonly Child[];
  readonly things: readonly Thing[];
  readonly links: readonly RawLink[];
  /** A line that could not be read and may have declared a name. */
  readonly brokenDeclaration: boolean;
  /** Some line could not be read. */
  readonly broken: boolean;
}

const kept = new WeakMap<Document, Map<string, Declared>>();

/** What a document declares, as a file of this path. */
export function declare(path: string, document: Document): Declared {
  let byPath = kept.get(document);
  if (!byPath) {
    byPath = new Map();
    kept.set(document, byPath);
  }
  let declared = byPath.get(path);
  if (!declared) {
    declared = read(path, document);
    byPath.set(path, declared);
  }
  return declared;
}

/** The absolute place of something in an entry whose head stands on `line`. */
export function placeAt(
  file: string,
  line: number,
  at: { readonly row: number; readonly span: { readonly start: number; readonly end: number } },
): Place {
  return { file, line: line + at.row, start: at.span.start, end: at.span.end };
}

function read(path: string, document: Document): Declared {
  const entries: Child[] = [];
  let row = 0;
  for (const node of document.tree.children) {
    const line = !isBlock(node);
    if (!line || node.kind === "statement" || node.kind === "broken")
      entries.push({ row, entry: readEntry(node) });
    row += line ? 1 : node.lineCount;
  }
  const things: Thing[] = [];
  const links: RawLink[] = [];
  for (const child of entries) {
    const inside = declaresOf(child.entry, { path, line: child.row, owner: null });
    for (const thing of inside.things) things.push(thing);
    for (const link of inside.links) links.push(link);
  }
  return {
    path,
    document,
    entries,
    things,
    links,
    brokenDeclaration: document.lines.some(mayDeclare),
    broken: document.tree.problems.length > 0 || document.lines.some((l) => l.kind === "broken"),
  };
}

/** Whether a broken line may have declared a name: its head is lost, or is that of a declaration. */
function mayDeclare(line: Line): boolean {
  if (line.kind !== "broken") return false;
  // A word cut short may read as a clause (`tool` as `to`), so a clause that cannot be read counts too.
  if (line.head === "" || line.head === "use" || line.head === "choose" || line.head.startsWith("+"))
    return true;
  return constructs.get(line.head)?.declares !== undefined;
}

/** What an entry declares, itself and all that stands in it. */
interface Declares {
  readonly things: readonly Thing[];
  readonly links: readonly RawLink[];
}

interface Where {
  readonly path: string;
  readonly line: number;
  readonly owner: Owner | null;
}

/** Lines that are written alike are one entry: what it declares is kept for so many of the places where it stands. */
const PLACES_AT_MOST = 16;
const keptDeclares = new WeakMap<Entry, (Where & Declares)[]>();

/** What an entry declares where it stands; kept while it stands there. */
function declaresOf(entry: Entry, where: Where): Declares {
  if (!entry.hasBlock && !constructs.get(entry.construct)?.declares) return readDeclares(entry, where);
  const places = keptDeclares.get(entry) ?? [];
  const known = places.findIndex((one) => one.path === where.path && one.owner === where.owner);
  if (known >= 0 && places[known]?.line === where.line) return places[known] as Declares;
  const made = { ...where, ...readDeclares(entry, where) };
  if (known >= 0) places[known] = made;
  else places.push(made);
  if (places.length > PLACES_AT_MOST) places.shift();
  keptDeclares.set(entry, places);
  return made;
}

function readDeclares(entry: Entry, where: Where): Declares {
  const { path, line, owner } = where;
  const things: Thing[] = [];
  const links: RawLink[] = [];
  const kind = constructs.get(entry.construct)?.declares as ThingKind | undefined;
  const thing = kind ? thingOf(entry, where, kind) : null;
  if (thing) things.push(thing);
  if (kind === "set") {
    for (const member of namesIn(entry.form, "members"))
      things.push(derived(entry, where, "member", member, member.name));
  }
  const own = thing?.owns ?? owner;
  for (const detail of entry.details) {
    const face = detail.clause === "face" ? namesIn(detail, "face")[0] : undefined;
    if (face) things.push(derived(entry, { ...where, owner: own }, "face", face, textIn(detail, "title")));
  }
  if (entry.construct === "use") links.push(linkOf(path, entry, line, "use"));
  if (entry.construct === "follow" && slotIn(entry.form, "path"))
    links.push(linkOf(path, entry, line, "use"));
  if (entry.construct === "figure") links.push(linkOf(path, entry, line, "figure"));
  for (const child of entry.children) {
    const inside = declaresOf(child.entry, { path, line: line + child.row, owner: own });
    for (const t of inside.things) things.push(t);
    for (const l of inside.links) links.push(l);
  }
  return things.length + links.length === 0 ? NOTHING : { things, links };
}

const NOTHING: Declares = { things: [], links: [] };

function linkOf(path: string, entry: Entry, line: number, kind: RawLink["kind"]): RawLink {
  const slot = slotIn(entry.form, "path");
  return { path: slot?.text ?? "", place: placeAt(path, line, slot?.at ?? entry.form.at), kind };
}

function thingOf(entry: Entry, { path, line, owner }: Where, kind: ThingKind): Thing {
  const name = namesIn(entry.form, "name")[0];
  const titleSlot = slotIn(entry.form, "title") ?? slotIn(entry.form, "from");
  const title = titleSlot?.text ?? "";
  const at = name?.at ?? titleSlot?.at ?? entry.form.at;
  const id = idOf(path, owner, kind, name?.name ?? title);
  return {
    kind,
    name: name?.name ?? "",
    title,
    id,
    place: placeAt(path, line, at),
    file: path,
    line,
    entry,
    owner,
    owns: kind === "machine" || kind === "procedure" ? ownerOf(kind, name?.name ?? "", id, line) : null,
    named: name !== undefined,
    doubtful: entry.doubtful,
  };
}

const OWNERS_AT_MOST = 10_000;
const owners = new Map<string, Owner>();

function ownerOf(kind: ThingKind, name: string, id: string, line: number): Owner {
  const key = `${id}:${line}`;
  let owner = owners.get(key);
  if (!owner) {
    if (owners.size >= OWNERS_AT_MOST) owners.clear();
    owner = { kind, name, id };
    owners.set(key, owner);
  }
  return owner;
}

function derived(
  entry: Entry,
  { path, line, owner }: Where,
  kind: ThingKind,
  name: NameAt,
  title: string,
): Thing {
  return {
    kind,
    name: name.name,
    title,
    id: idOf(path, owner, kind, name.name),
    place: placeAt(path, line, name.at),
    file: path,
    line: line + name.at.row,
    entry,
    owner,
    owns: null,
    named: true,
    doubtful: entry.doubtful,
  };
}

function idOf(file: string, owner: Owner | null, kind: string, name: string): string {
  return [file, owner?.name ?? "", kind, name].join("/");
}

/** A name that an entry uses as a reference, with the construct or clause it stands in. */
export interface Reference {
  readonly name: NameAt;
  readonly accepts: readonly string[];
  readonly role: string;
  readonly within: string;
}

/** Every name that an entry's own lines use as a reference. */
export const referencesIn = keptByEntry((entry: Entry): readonly Reference[] => {
  const act = constructs.get(entry.construct)?.act === true;
  const found: Reference[] = [];
  for (const detail of allDetails(entry)) {
    for (const slot of detail.slots) {
      // In a fastener a stage line declares the stage; in an act it names one.
      const stage = act && detail.clause === "stage" && slot.role === "stage";
      const accepts = stage ? STAGE : slot.accepts;
      if (accepts.length === 0) continue;
      const within = detail.clause || entry.construct;
      for (const name of slot.names) found.push({ name, accepts, role: slot.role, within });
    }
  }
  return found;
});

const STAGE: readonly string[] = ["stage"];
