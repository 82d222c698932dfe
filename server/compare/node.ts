/**
 * A node of one side of a comparison: what it says, where it stands, and what its names mean. Nodes are numbered in the
 * order of the text, so that an edit can name them.
 */
import type { FileModel, Thing } from "../model";
import type { Form, Own } from "./form";

/** Lines of a file, from 0, both included. */
export interface Lines {
  readonly file: string;
  readonly line: number;
  readonly endLine: number;
}

/** A stretch of a line as it is told to a person: words, or a name with the title of what it means. */
export type Piece = { readonly text: string } | { readonly name: string; readonly title: string };

/** A name of a node, and what it means. */
export interface Meant {
  readonly name: string;
  readonly thing: Thing | null;
}

export interface Node extends Own {
  /** Unique on its side: its number in the order of the text. */
  readonly number: number;
  readonly parent: Node | null;
  readonly children: readonly Node[];
  readonly place: Lines;
  /** The line as written, without what stands in other lines; empty where no line is meant. */
  readonly written: string;
  /** Where in its first line it begins, of a clause; else 0. */
  readonly column: number;
  readonly pieces: readonly Piece[];
  /** What it declares. */
  readonly thing: Thing | null;
  /** Its names in the order of the slots, with what they mean. */
  readonly meant: readonly Meant[];
  /** How many nodes it is, itself included. */
  readonly size: number;
}

/** One side: its nodes in the order of the text, the project first. */
export interface Side {
  readonly root: Node;
  readonly nodes: readonly Node[];
  readonly byThing: ReadonlyMap<Thing, Node>;
  readonly files: ReadonlyMap<string, FileModel>;
}

/** A node and everything in it, each before what stands in it. */
export function within(node: Node): readonly Node[] {
  return [node, ...node.children.flatMap(within)];
}

/** The nearest node at or above one that fits. */
export function nearest(node: Node | null, fits: (node: Node) => boolean): Node | null {
  for (let at = node; at; at = at.parent) if (fits(at)) return at;
  return null;
}

/** A node as plain data. */
export function formOf({ kind, words, slots, children }: Node): Form {
  return { kind, words, slots, children: children.map(formOf) };
}

/** The titles and words of pieces in one text, titles between stars. */
export function spoken(pieces: readonly Piece[]): string {
  return pieces.map((piece) => ("text" in piece ? piece.text : `*${piece.title}*`)).join("");
}
