/**
 * A project from its documents: links resolved, loops found, each file bound. A file whose own text, used files and
 * links are what they were is not bound again.
 */
import type { Document } from "../../grammar";
import { bindFile } from "./bind";
import { type Declared, declare } from "./declare";
import type { FileModel, Link, Project, Resolve } from "./types";

interface KeptFile {
  readonly model: FileModel;
  readonly seen: readonly Declared[];
  readonly links: readonly Link[];
}

const kept = new WeakMap<Project, ReadonlyMap<string, KeptFile>>();

/**
 * Builds the model of all documents. `resolve` says where a path leads; a file it names must be among the documents
 * or counts as unreadable. With the project before, unchanged files are taken over from it.
 */
export function buildProject(
  documents: ReadonlyMap<string, Document>,
  resolve: Resolve,
  before?: Project,
): Project {
  const old = before ? kept.get(before) : undefined;
  const linksOf = linker(documents, resolve);
  const files = new Map<string, FileModel>();
  const made = new Map<string, KeptFile>();
  for (const [path, document] of documents) {
    const declared = declare(path, document);
    const { used, links } = reach(declared, documents, linksOf);
    const seen = [declared, ...used];
    const known = old?.get(path);
    const file =
      known && same(known.seen, seen) && sameLinks(known.links, links)
        ? known
        : { model: bindFile(declared, used, links), seen, links };
    files.set(path, file.model);
    made.set(path, file);
  }
  const project = { files };
  kept.set(project, made);
  return project;
}

function same<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}

function sameLinks(a: readonly Link[], b: readonly Link[]): boolean {
  return (
    a.length === b.length && a.every((link, i) => link.file === b[i]?.file && link.problem === b[i]?.problem)
  );
}

type LinksOf = (declared: Declared) => readonly Link[];

function linker(documents: ReadonlyMap<string, Document>, resolve: Resolve): LinksOf {
  const cache = new Map<Declared, readonly Link[]>();
  return (declared) => {
    const known = cache.get(declared);
    if (known) return known;
    const links = declared.links.map((raw): Link => {
      const target = resolve(declared.path, raw.path);
      if ("problem" in target) return { ...raw, file: null, problem: target.problem };
      if (raw.kind === "use" && !documents.has(target.file))
        return { ...raw, file: null, problem: "unreadable" };
      return { ...raw, file: target.file, problem: null };
    });
    cache.set(declared, links);
    return links;
  };
}

/** The files reached through `use`, nearest first; a link that leads back to its own file is a loop. */
function reach(
  start: Declared,
  documents: ReadonlyMap<string, Document>,
  linksOf: LinksOf,
): { used: Declared[]; links: Link[] } {
  const used: Declared[] = [];
  const seen = new Set([start.path]);
  const queue = [start];
  for (let next = queue.shift(); next; next = queue.shift()) {
    for (const link of linksOf(next)) {
      if (link.kind !== "use" || link.file === null || seen.has(link.file)) continue;
      seen.add(link.file);
      const declared = declare(link.file, documents.get(link.file) as Document);
      used.push(declared);
      queue.push(declared);
    }
  }
  const links = linksOf(start).map(
    (link): Link => (leadsBack(link, start.path, documents, linksOf) ? { ...link, problem: "loop" } : link),
  );
  return { used, links };
}

function leadsBack(
  link: Link,
  home: string,
  documents: ReadonlyMap<string, Document>,
  linksOf: LinksOf,
): boolean {
  if (link.kind !== "use" || link.file === null) return false;
  const seen = new Set<string>();
  const queue = [link.file];
  for (let path = queue.shift(); path !== undefined; path = queue.shift()) {
    if (path === home) return true;
    if (seen.has(path)) continue;
    seen.add(path);
    const document = documents.get(path);
    if (!document) continue;
    for (const { kind, file } of linksOf(declare(path, document)))
      if (kind === "use" && file !== null) queue.push(file);
  }
  return false;
}
