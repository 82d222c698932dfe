/**
 * What is remembered on a way: for each variable that a later test needs, the values still possible; for each counter,
 * how often it was used. Equal memories are one number.
 */
import type { Slice } from "./slice";
import type { Choice } from "./variables";

export interface Memories {
  readonly start: number;
  /** The memory with a variable narrowed to some values; null where none is left. An outcome not asked for has none. */
  readonly narrow: (memory: number, variable: number, mask: bigint) => number | null;
  /** As `narrow`, for a variable that need not be remembered. */
  readonly knowing: (memory: number, choice: Choice) => number;
  /** An outcome is open again. */
  readonly reopen: (memory: number, variable: number) => number;
  readonly used: (memory: number, counter: number) => number;
  readonly use: (memory: number, counter: number) => number;
  /** Without what no point from this one on needs. */
  readonly forget: (memory: number, point: number) => number;
}

/** The memories of a slice, none known yet but the start. */
export function makeMemories(slice: Slice): Memories {
  const { variables } = slice.control.graph;
  const slots = slice.memory;
  const slotOf = new Map(slots.map((m, i) => [`${m.kind}${m.index}`, i]));
  const values: (readonly bigint[])[] = [];
  const byKey = new Map<string, number>();
  const intern = (list: readonly bigint[]): number => {
    const key = list.join();
    let index = byKey.get(key);
    if (index === undefined) {
      index = values.push(list) - 1;
      byKey.set(key, index);
    }
    return index;
  };
  const get = (memory: number, slot: number): bigint => values[memory]?.[slot] as bigint;
  const set = (memory: number, slot: number, value: bigint): number =>
    get(memory, slot) === value ? memory : intern((values[memory] as readonly bigint[]).with(slot, value));
  const variableSlot = (variable: number): number | undefined => slotOf.get(`variable${variable}`);
  const counterSlot = (counter: number): number => slotOf.get(`counter${counter}`) as number;
  const start = intern(slots.map((m) => m.base));
  const edges = [...new Set(slots.map((m) => m.lastUse))];
  const earliest = Math.min(...edges);
  return {
    start,
    narrow: (memory, variable, mask) => {
      const slot = variableSlot(variable) as number;
      const left = get(memory, slot);
      // Before its check is made an outcome has no value: no test on it holds.
      if (left === 0n) return mask >= 0n ? null : memory;
      const next = left & mask;
      return next === 0n ? null : set(memory, slot, next);
    },
    knowing: (memory, { variable, mask }) => {
      const slot = variableSlot(variable.index);
      return slot === undefined ? memory : set(memory, slot, mask);
    },
    reopen: (memory, variable) => {
      const slot = variableSlot(variable);
      return slot === undefined ? memory : set(memory, slot, variables.all[variable]?.full ?? 0n);
    },
    used: (memory, counter) => Number(get(memory, counterSlot(counter))),
    use: (memory, counter) => set(memory, counterSlot(counter), get(memory, counterSlot(counter)) + 1n),
    forget: (memory, point) => {
      if (point <= earliest) return memory;
      let kept = memory;
      slots.forEach((m, slot) => {
        if (point > m.lastUse) kept = set(kept, slot, m.base);
      });
      return kept;
    },
  };
}
