/** Short ways for the tests to name bolts: `thread("M10 x 1.25")`, `boltClass("8.8")`. A name that is none fails the test. */
import type { BoltClass } from "../../server/mechanics/classes";
import { classOf, isClass } from "../../server/mechanics/classes-read";
import type { Thread } from "../../server/mechanics/threads";
import { isThread, threadOf } from "../../server/mechanics/threads-read";

export function thread(text: string): Thread {
  const read = threadOf(text);
  if (!isThread(read)) throw new Error(`the test names a thread that is none: ${text}`);
  return read;
}

export function boltClass(text: string): BoltClass {
  const read = classOf(text);
  if (!isClass(read)) throw new Error(`the test names a class that is none: ${text}`);
  return read;
}

/** How far a figure is from a published one, as a share of it. */
export const offBy = (figure: number, published: number): number => Math.abs(figure - published) / published;
