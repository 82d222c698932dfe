/**
 * A check in the graph: its acts, the asking, then each outcome as a test with its body. An outcome with bounded
 * returns is entered until they are used up, and its `if still` from then on.
 */
import { type Child, checkOf, type Entry, namesIn, textIn } from "../facts";
import { placeAt, type Thing } from "../model";
import { type Around, type Asking, inBlock, inRegion, inStep, inTest, put, spotOf, startAt } from "./build";
import type { ReturnPoint, TestPoint } from "./points";
import { KINDS } from "./scope";

type PutAll = (around: Around, children: readonly Child[], line: number) => void;

/** Puts a check down. `putAll` puts down the lines of a block. */
export function putCheck(around: Around, entry: Entry, line: number, putAll: PutAll): void {
  const { draft } = around;
  const first = draft.points.length;
  const asking: Asking = { first, thing: checkThing(around, entry, line), outcomes: [] };
  startAt(around, asking.thing, line);
  const spot = spotOf(around, entry, line);
  const [before, after] = parted(entry.children);
  inBlock(draft, spot, () => {
    inRegion(draft, () =>
      inStep(draft, asking, () => {
        putAll(around, before, line);
        const tools = instrumentsOf(around, entry);
        put(draft, { kind: "ask", spot, variable: draft.variables.ofCheck(asking.thing).index, tools });
        putAll(around, after, line);
        closeReturns(around, asking);
      }),
    );
    if (asking.thing.named) put(draft, { kind: "done", spot, thing: asking.thing });
  });
}

function instrumentsOf({ scope }: Around, entry: Entry): readonly Thing[] {
  const { limits, choices } = checkOf(entry);
  const names = [...limits, ...choices].flatMap(({ tools }) => tools);
  return names.flatMap(({ name }) => scope.find(name, KINDS.tool) ?? []);
}

/** What is done before the asking, and the outcomes after it, whether bare or under a condition. */
function parted(children: readonly Child[]): [readonly Child[], readonly Child[]] {
  const isAfter = (i: number): boolean => {
    const child = children[i];
    if (!child) return false;
    if (child.entry.construct === "otherwise")
      return holdsOutcome(child.entry) || holdsOutcome(children[i - 1]?.entry);
    const next = children[i + 1]?.entry;
    return (
      holdsOutcome(child.entry) ||
      (child.entry.construct === "when" && next?.construct === "otherwise" && holdsOutcome(next))
    );
  };
  return [children.filter((_, i) => !isAfter(i)), children.filter((_, i) => isAfter(i))];
}

function holdsOutcome(entry: Entry | undefined): boolean {
  if (!entry) return false;
  if (entry.construct === "if") return true;
  const blocks = entry.construct === "when" || entry.construct === "otherwise" || entry.construct === "for";
  return blocks && entry.children.some((c) => holdsOutcome(c.entry));
}

/** Puts an outcome of the check around down, with what is done then. */
export function putOutcome(around: Around, entry: Entry, line: number, putAll: PutAll): void {
  const { draft } = around;
  const { asking } = draft;
  if (!asking) return;
  const outcome = textIn(entry.form, "outcome");
  const still = entry.form.words.includes("still");
  const { variable, mask } = draft.variables.outcome(asking.thing, outcome);
  const spot = spotOf(around, entry, line);
  const words = `${still ? "still " : ""}${outcome}`;
  const title = `“${asking.thing.title}”`;
  const passes = entry.children.every((c) => c.entry.construct === "go-on" || c.entry.construct === "note");
  const at = inTest(
    draft,
    {
      kind: "test",
      spot,
      variable: variable.index,
      mask,
      counters: [],
      usedUp: still,
      passes,
      yes: `${title} is ${words}`,
      no: `${title} is ${opposite(outcome)}${still ? " in the end" : ""}`,
    },
    () => {
      inBlock(draft, spot, () => putAll(around, entry.children, line));
      draft.onward?.push(put(draft, { kind: "jump", spot, to: 0 }));
    },
  );
  const body = draft.points.slice(at) as ReturnPoint[];
  const returns = body.filter((p) => p.kind === "return" && p.counter >= 0).map((p) => p.counter);
  asking.outcomes.push({ at, still, mask, returns });
}

/** Binds each outcome to its own returns, and each `if still` to those of the outcomes it follows. */
function closeReturns({ draft }: Around, { outcomes }: Asking): void {
  for (const test of outcomes) {
    const of = test.still ? outcomes.filter((t) => !t.still && (t.mask & test.mask) !== 0n) : [test];
    (draft.points[test.at] as TestPoint).counters = of.flatMap((t) => t.returns);
  }
}

/** The check as a thing; a nameless one is made from its head. */
function checkThing(around: Around, entry: Entry, line: number): Thing {
  const name = namesIn(entry.form, "name")[0]?.name;
  const found = name === undefined ? undefined : around.scope.find(name, KINDS.check);
  if (found?.line === line) return found;
  const title = textIn(entry.form, "title");
  const { file, draft } = around;
  return {
    kind: "check",
    name: "",
    title,
    // By its number, not by its line: it stays the same check when lines are put in above it.
    id: `${file}/${around.scope.procedure.name}/check/ ${draft.segment}.${draft.nameless++}`,
    place: placeAt(file, line, entry.form.at),
    file,
    line,
    entry,
    owner: around.scope.procedure.owns,
    owns: null,
    named: false,
    doubtful: false,
  };
}

/** Outcomes with one opposite; what is not one of several is only “not” that. */
const OPPOSITES: Readonly<Record<string, string>> = {
  met: "not met",
  "not met": "met",
  yes: "no",
  no: "yes",
};

/** What a check shows where it does not show an outcome, in words. */
export function opposite(outcome: string): string {
  return Object.hasOwn(OPPOSITES, outcome) ? (OPPOSITES[outcome] as string) : `not ${outcome}`;
}
