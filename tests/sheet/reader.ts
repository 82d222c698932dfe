/** Reads a PDF back with a reader library (pdf.js): its text in reading order, by its tags, page furniture left out. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** A PDF as a reader sees it. */
export interface ReadBack {
  readonly pages: number;
  readonly title: string;
  readonly lang: string;
  /** The text of everything tagged, figures left out. */
  readonly text: string;
  /** How often each tag occurs, on all pages together. */
  readonly tags: ReadonlyMap<string, number>;
  /** What the figures say to whoever cannot see them, in order. */
  readonly alts: readonly string[];
}

interface Tag {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly alt?: string;
  readonly children?: readonly Tag[];
}

/** Reads a PDF; throws where the library finds it broken. */
export async function readBack(bytes: Uint8Array): Promise<ReadBack> {
  const document = await getDocument({ data: new Uint8Array(bytes), stopAtErrors: true, verbosity: 0 })
    .promise;
  const texts: string[] = [];
  const tags = new Map<string, number>();
  const alts: string[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const byMark = textsByMark((await page.getTextContent({ includeMarkedContent: true })).items);
    const tree = (await page.getStructTree()) as Tag | null;
    if (tree) texts.push(follow(tree, byMark, tags));
    if (tree) alts.push(...altsOf(tree));
  }
  const { info, metadata } = await document.getMetadata();
  const language = (info as { Language?: string }).Language ?? "";
  const title = String(metadata?.get("dc:title") ?? (info as { Title?: string }).Title ?? "");
  await document.destroy();
  return { pages: texts.length, title, lang: language, text: texts.join(""), tags, alts };
}

/** The text of each marked stretch of a page, by its id. */
function textsByMark(items: readonly object[]): Map<string, string> {
  const byMark = new Map<string, string>();
  const open: (string | null)[] = [];
  for (const item of items as { type?: string; id?: string | null; str?: string }[]) {
    if (item.type === "beginMarkedContentProps") open.push(item.id ?? null);
    else if (item.type === "beginMarkedContent") open.push(null);
    else if (item.type === "endMarkedContent") open.pop();
    else {
      const mark = open.findLast((id) => id !== null);
      if (mark) byMark.set(mark, (byMark.get(mark) ?? "") + (item.str ?? ""));
    }
  }
  return byMark;
}

function altsOf({ alt, children = [] }: Tag): string[] {
  return [...(alt ? [alt] : []), ...children.flatMap(altsOf)];
}

/** The text below a tag, in the order of the tags. What is drawn in a figure is told by its description, not by text. */
function follow(tag: Tag, byMark: ReadonlyMap<string, string>, tags: Map<string, number>): string {
  if (tag.type === "content") return byMark.get(tag.id ?? "") ?? "";
  if (tag.role) tags.set(tag.role, (tags.get(tag.role) ?? 0) + 1);
  const children = tag.children ?? [];
  const kept = tag.role === "Figure" ? children.filter((child) => child.role === "Caption") : children;
  return kept.map((child) => follow(child, byMark, tags)).join("");
}
