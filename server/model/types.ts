/**
 * The model: what stands in the files of a project, with every name bound to the thing it means. Places are absolute.
 */
import type { Document } from "../../grammar";
import type { Child, Entry } from "../facts";

/** A stretch of one line of a file; lines from 0, UTF-16 offsets. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

/** The kinds of thing that can be declared; those of `declares` in the table of constructs, and `face`, `outcome`, `member`. */
export type ThingKind =
  | "machine"
  | "view"
  | "fluid"
  | "consumable"
  | "line"
  | "part"
  | "clip"
  | "face"
  | "fastener"
  | "shaft"
  | "belt"
  | "mark"
  | "set"
  | "member"
  | "variant"
  | "hazard"
  | "procedure"
  | "person"
  | "tool"
  | "temporary"
  | "symptom"
  | "bulletin"
  | "option"
  | "one-of"
  | "choice"
  | "section"
  | "step"
  | "check";

/**
 * A machine or procedure as the one that things stand in. The same object as long as it keeps its name and line, so
 * that what stands in it need not be made anew when something else in it changes.
 */
export interface Owner {
  readonly kind: ThingKind;
  readonly name: string;
  readonly id: string;
}

/** Something with a name. */
export interface Thing {
  readonly kind: ThingKind;
  readonly name: string;
  /** What the sheet calls it. */
  readonly title: string;
  /** Unique in the project and stable under edits elsewhere: file, owner, kind and name; nameless steps by title. */
  readonly id: string;
  /** Where its name stands; for a nameless step or section, its title. */
  readonly place: Place;
  readonly file: string;
  /** The line of the entry's head. */
  readonly line: number;
  readonly entry: Entry;
  /** The machine or procedure it stands in. */
  readonly owner: Owner | null;
  /** What it is to the things that stand in it; null unless it is a machine or procedure. */
  readonly owns: Owner | null;
  /** False for a section, step or check that has only a title. */
  readonly named: boolean;
  /** A line of its own block could not be read: nothing is held against it. */
  readonly doubtful: boolean;
}

/** One use of a name. */
export interface Binding {
  readonly name: string;
  readonly place: Place;
  /** The kinds that fit. */
  readonly accepts: readonly string[];
  /** The role in the form: `what`, `tools`, `things`, `target` … and the construct or clause it stands in. */
  readonly role: string;
  readonly within: string;
  /** What it means; null where nothing of that name fits. */
  readonly thing: Thing | null;
  /** Something of that name, but of a kind that does not fit. */
  readonly misfit: Thing | null;
  /** The procedure or machine it stands in. */
  readonly owner: Owner | null;
}

/** A `use`, a `follow … from` or a figure, and where its path leads. */
export interface Link {
  readonly path: string;
  readonly place: Place;
  readonly kind: "use" | "figure";
  /** The file it leads to, as known to the project; null where there is a problem. */
  readonly file: string | null;
  readonly problem: "missing" | "outside" | "unreadable" | "loop" | null;
}

/** Where a path in a file leads; the project's way to the disk says. */
export type Resolve = (
  from: string,
  path: string,
) => { readonly file: string } | { readonly problem: "missing" | "outside" | "unreadable" };

export interface Machine {
  readonly thing: Thing;
  /** Everything declared in it, faces and set members included. */
  readonly things: readonly Thing[];
}

/** A line or block right under a procedure's head, with the uses of names in it. */
export interface Part {
  readonly entry: Entry;
  readonly line: number;
  /** The same list as before while nothing in the part, and nothing it names, has changed. */
  readonly bindings: readonly Binding[];
}

export interface Procedure {
  readonly thing: Thing;
  /** The machine it is for; null where it is not said or not known. */
  readonly machine: Machine | null;
  /** Declared in the procedure: tools, temporaries, conditions … */
  readonly things: readonly Thing[];
  /** Sections, steps and checks, in order of the text. */
  readonly targets: readonly Thing[];
  /** Looks a name up as seen from here: own things first, then the machine's, then what else is in sight. */
  readonly find: (name: string, accepts?: readonly string[]) => Thing | undefined;
  readonly bindings: readonly Binding[];
  readonly parts: readonly Part[];
  /** A line in it, in its machine, or a file it uses could not be read, or a name is unknown: it is not followed. */
  readonly doubtful: boolean;
}

export interface FileModel {
  readonly path: string;
  readonly document: Document;
  /** Top-level entries with their lines. */
  readonly entries: readonly Child[];
  readonly links: readonly Link[];
  readonly machines: readonly Machine[];
  readonly procedures: readonly Procedure[];
  /** Every declaration of the file. */
  readonly things: readonly Thing[];
  readonly bindings: readonly Binding[];
  /** Every name in sight from the file, for completion. */
  readonly inSight: readonly Thing[];
  /** A broken line here or in a used file may have declared something: an unknown name proves nothing. */
  readonly mayDeclareMore: boolean;
}

export interface Project {
  readonly files: ReadonlyMap<string, FileModel>;
}
