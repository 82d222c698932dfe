/**
 * Marks on a sheet what has changed since another revision: bars in the margin, and what is gone, in words.
 */
import type { Sheet } from "./blocks";

/** What has changed, as the sheet needs to know it. */
export interface ChangedSince {
  /** The revision it is compared with. */
  readonly revision: string;
  /** Whether a line of the text has changed; lines from 0. */
  readonly isChanged: (file: string, line: number) => boolean;
  /** What is gone, each as one text. */
  readonly removed: readonly string[];
}

interface Line {
  readonly file: string;
  readonly line: number;
}

/** The sheet with a bar beside every item of which the line has changed, or one that it is made from. */
export function markChanged(sheet: Sheet, { revision, isChanged, removed }: ChangedSince): Sheet {
  const marked = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(marked);
    if (value === null || typeof value !== "object" || value instanceof Uint8Array) return value;
    const inside = Object.entries(value).map(([key, one]) => [key, marked(one)]);
    const { source, madeFrom = [] } = value as { source?: Line; madeFrom?: readonly Line[] };
    const lines = [...(source ? [source] : []), ...madeFrom];
    const bar = lines.some(({ file, line }) => isChanged(file, line)) ? [["changed", true]] : [];
    return Object.fromEntries([...inside, ...bar]);
  };
  const blocks = marked(sheet.blocks) as Sheet["blocks"];
  return {
    ...sheet,
    blocks,
    changedSince: revision,
    ...(removed.length > 0 ? { removedSince: removed } : {}),
  };
}
