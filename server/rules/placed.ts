/**
 * Faults of lines and of blocks, kept by subtree: after an edit only the lines and blocks that are new, and the blocks
 * around them, are looked at again. Places are relative until the whole file is put together.
 */
import { isBlock, type Line, type Node } from "../../grammar";
import type { At, Entry } from "../facts";
import { type FileModel, type Place, placeAt } from "../model";
import { RULES } from "./registry";
import type { BlockRule, Fault, LineRule, Rule } from "./types";

/** A rule's fault before it becomes a finding. */
export interface Raw<P> {
  readonly rule: Rule;
  readonly fault: Fault<P>;
}

/** A fault of a line or an entry that stands some rows down in the node or entry it was collected for. */
interface Placed {
  readonly row: number;
  readonly raw: Raw<At>;
}

const NONE: readonly Placed[] = [];
const lineRules = RULES.filter((rule): rule is LineRule => rule.grain === "line");
const blockRules = RULES.filter((rule): rule is BlockRule => rule.grain === "block");

const byNode = new WeakMap<Node, readonly Placed[]>();
const byEntry = new WeakMap<Entry, readonly Placed[]>();

/** The faults of a file's lines and blocks. */
export function placedFaults(file: FileModel): Raw<Place>[] {
  const found: Raw<Place>[] = [];
  let row = 0;
  for (const node of file.document.tree.children) {
    for (const placed of faultsOfNode(node)) found.push(moved(placed, file.path, row));
    row += isBlock(node) ? node.lineCount : 1;
  }
  for (const child of file.entries) {
    for (const placed of faultsOfEntry(child.entry)) found.push(moved(placed, file.path, child.row));
  }
  return found;
}

function faultsOfNode(node: Node): readonly Placed[] {
  let faults = byNode.get(node);
  if (!faults) {
    faults = isBlock(node) ? ofBlock(node) : ofLine(node);
    byNode.set(node, faults);
  }
  return faults;
}

function ofLine(line: Line): readonly Placed[] {
  if (line.kind === "blank" || line.kind === "close") return NONE;
  return collect(lineRules, (rule, report) => rule.check(line, report));
}

function ofBlock(
  block: Node & { readonly children: readonly Node[]; readonly head: Line | null },
): readonly Placed[] {
  const faults: Placed[] = block.head ? [...faultsOfNode(block.head)] : [];
  let row = block.head ? 1 : 0;
  for (const child of block.children) {
    addMoved(faults, faultsOfNode(child), row);
    row += isBlock(child) ? child.lineCount : 1;
  }
  return faults.length === 0 ? NONE : faults;
}

function faultsOfEntry(entry: Entry): readonly Placed[] {
  const known = byEntry.get(entry);
  if (known) return known;
  const faults = entry.doubtful ? [] : [...collect(blockRules, (rule, report) => rule.check(entry, report))];
  for (const child of entry.children) addMoved(faults, faultsOfEntry(child.entry), child.row);
  const kept = faults.length === 0 ? NONE : faults;
  byEntry.set(entry, kept);
  return kept;
}

function addMoved(to: Placed[], faults: readonly Placed[], by: number): void {
  for (const { row, raw } of faults) to.push({ row: row + by, raw });
}

function collect<R extends Rule>(
  rules: readonly R[],
  run: (rule: R, report: (fault: Fault<At>) => void) => void,
): readonly Placed[] {
  const faults: Placed[] = [];
  for (const rule of rules) run(rule, (fault) => faults.push({ row: 0, raw: { rule, fault } }));
  return faults.length === 0 ? NONE : faults;
}

function moved({ row, raw: { rule, fault } }: Placed, file: string, base: number): Raw<Place> {
  const to = (at: At): Place => placeAt(file, base + row, at);
  const { related, fixes, place, ...rest } = fault;
  return {
    rule,
    fault: {
      ...rest,
      place: to(place),
      ...(related ? { related: related.map((r) => ({ ...r, place: to(r.place) })) } : {}),
      ...(fixes
        ? {
            fixes: fixes.map((f) => ({
              ...f,
              changes: f.changes.map((c) => ({ ...c, place: to(c.place) })),
            })),
          }
        : {}),
    },
  };
}
