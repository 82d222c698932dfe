/**
 * Small projects for tests, from texts by path.
 */
import { type Document, readDocument } from "../../grammar";
import { buildProject, type Project, type Resolve } from "../../server/model";

/** Resolves paths among the given ones; anything that starts with `..` out of the root is outside. */
export function resolver(paths: ReadonlySet<string>): Resolve {
  return (from, path) => {
    const parts = from.split("/").slice(0, -1);
    for (const step of path.split("/")) {
      if (step === "..") {
        if (parts.length === 0) return { problem: "outside" };
        parts.pop();
      } else if (step !== ".") parts.push(step);
    }
    const file = parts.join("/");
    return paths.has(file) ? { file } : { problem: "missing" };
  };
}

/** The documents of some texts. */
export function documentsOf(texts: Readonly<Record<string, string>>): Map<string, Document> {
  return new Map(Object.entries(texts).map(([path, text]) => [path, readDocument(text)]));
}

/** A project of some texts by path. */
export function projectOf(texts: Readonly<Record<string, string>>, before?: Project): Project {
  const documents = documentsOf(texts);
  return buildProject(documents, resolver(new Set(documents.keys())), before);
}
