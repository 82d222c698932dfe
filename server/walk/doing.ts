/**
 * Acts in the graph: one point for each thing that a line names.
 */
import { type Act, type At, actOf, type Entry } from "../facts";
import { keptByEntry } from "../facts/kept";
import type { Thing } from "../model";
import { type Around, spotOf } from "./build";
import type { ActPoint } from "./points";
import { KINDS } from "./scope";

interface Subject {
  readonly name: string;
  readonly at: At;
  readonly accepts: readonly string[];
}

/** The roles of what an act is done on; its clips, pulleys and events are not. */
const SUBJECTS: ReadonlySet<string> = new Set([
  "what",
  "marks",
  "shaft",
  "belt",
  "tester",
  "thing",
  "things",
]);

/** An act with what it is done on, as far as its line tells. */
const reading = keptByEntry((entry: Entry): { readonly act: Act; readonly subjects: readonly Subject[] } => ({
  act: actOf(entry),
  subjects: entry.form.slots
    .filter((slot) => SUBJECTS.has(slot.role))
    .flatMap((slot) => slot.names.map(({ name, at }) => ({ name, at, accepts: slot.accepts }))),
}));

const NONE: readonly Thing[] = [];

/** Puts an act down. */
export function putAct(around: Around, entry: Entry, line: number): void {
  const { act, subjects } = reading(entry);
  const { find } = around.scope;
  const { points, parent, region, block } = around.draft;
  const supplies = act.tools.length === 0 ? NONE : act.tools.flatMap((t) => find(t.name, KINDS.supply) ?? []);
  const spot = spotOf(around, entry, line);
  const verb = entry.construct;
  const first = points.length;
  // Written out, since there are many: a long procedure has tens of thousands of acts.
  const putOn = (thing: Thing | null, at: At): void => {
    const point: ActPoint = { kind: "act", spot, at, parent, region, block, verb, act, thing, supplies };
    points.push(point);
  };
  for (const { name, at, accepts } of subjects) putOn(find(name, accepts) ?? null, at);
  if (subjects.length === 0) putOn(null, entry.form.at);
  if (verb === "remove" && subjects.length > 1) fastenersFirst(points as ActPoint[], first);
}

/** One line may take out a part and what secures it, in whatever order it names them. */
function fastenersFirst(points: ActPoint[], first: number): void {
  const isFastener = ({ thing }: ActPoint): number => Number(thing?.kind === "fastener");
  const own = points.splice(first).sort((a, b) => isFastener(b) - isFastener(a));
  for (const point of own) points.push(point);
}
