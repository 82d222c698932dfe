/**
 * A check in the graph: its acts, the asking, then each outcome as a test with its body. An outcome with bounded
 * returns is entered until they are used up, and its `if still` from then on.
 */
import { type Child, checkOf, type Entry, textIn } from "../facts";
import type { Thing } from "../model";
import { type Around, inBlock, inRegion, inTest, leadTo, put, putAsk, spotOf } from "./build";
import type { ReturnPoint, TestPoint } from "./points";

type PutAll = (around: Around, children: readonly Child[], line: number) => void;

/** Puts a check down. `putAll` puts down the lines of a block. */
export function putCheck(around: Around, entry: Entry, line: number, putAll: PutAll): void {
  const { draft } = around;
  const first = draft.points.length;
  around.starts.set(line, first);
  const thing = checkThing(around, entry, line);
  const onward: number[] = [];
  const within: Around = { ...around, onward, check: first };
  inBlock(draft, "check", () => {
    inRegion(draft, () => {
      const outcomes = entry.children.filter((c) => c.entry.construct === "if");
      const conditional = entry.children.filter((c) => holdsOutcome(c.entry));
      const plain = entry.children.filter((c) => !outcomes.includes(c) && !conditional.includes(c));
      putAll(within, plain, line);
      const spot = spotOf(around, entry, line);
      putAsk(draft, spot, draft.variables.ofCheck(thing));
      const title = `"${thing.title}"`;
      const tests: OutcomeTest[] = [];
      for (const child of outcomes) putOutcome(within, child.entry, line + child.row, { thing, title, tests, putAll });
      for (const child of conditional) putAll({ ...within, check: first }, [child], line);
      closeReturns(around, tests);
      leadTo(draft, onward, draft.points.length);
      if (thing.named) put(draft, { kind: "done", spot, thing });
    });
  });
}

interface OutcomeTest {
  readonly at: number;
  readonly still: boolean;
  readonly mask: bigint;
  readonly returns: readonly number[];
}

interface Outcomes {
  readonly thing: Thing;
  readonly title: string;
  readonly tests: OutcomeTest[];
  readonly putAll: PutAll;
}

function putOutcome(within: Around, entry: Entry, line: number, { thing, title, tests, putAll }: Outcomes): void {
  const { draft } = within;
  const outcome = textIn(entry.form, "outcome");
  const still = entry.form.words.includes("still");
  const { variable, mask } = draft.variables.outcome(thing, outcome);
  const spot = spotOf(within, entry, line);
  const words = `${still ? "still " : ""}${outcome}`;
  const passes = entry.children.every((c) => c.entry.construct === "go-on" || c.entry.construct === "note");
  const at = inTest(
    draft,
    { kind: "test", spot, variable: variable.index, mask, counters: [], usedUp: still, passes, yes: `${title} is ${words}`, no: `${title} is not ${words}` },
    () => {
      inBlock(draft, "if", () => putAll(within, entry.children, line));
      within.onward?.push(put(draft, { kind: "jump", spot, to: 0 }));
    },
  );
  const returns: number[] = [];
  for (let i = at; i < draft.points.length; i++) {
    const point = draft.points[i] as ReturnPoint;
    if (point.kind === "return" && point.counter >= 0) returns.push(point.counter);
  }
  tests.push({ at, still, mask, returns });
}

/** Binds each outcome to its own returns, and each `if still` to those of the outcomes it follows. */
function closeReturns({ draft }: Around, tests: readonly OutcomeTest[]): void {
  for (const test of tests) {
    const of = test.still ? tests.filter((t) => !t.still && (t.mask & test.mask) !== 0n) : [test];
    (draft.points[test.at] as TestPoint).counters = of.flatMap((t) => t.returns);
  }
}

function holdsOutcome(entry: Entry): boolean {
  const blocks = entry.construct === "when" || entry.construct === "otherwise" || entry.construct === "for";
  return blocks && entry.children.some((c) => c.entry.construct === "if" || holdsOutcome(c.entry));
}

/** The check as a thing; a nameless one is made from its head. */
function checkThing(around: Around, entry: Entry, line: number): Thing {
  const found = around.scope.find(textIn(entry.form, "name") || nameOf(entry), ["check"]);
  if (found?.line === line) return found;
  const title = textIn(entry.form, "title");
  const { file } = around;
  const place = { file, line, start: entry.form.at.span.start, end: entry.form.at.span.end };
  return {
    kind: "check", name: "", title, id: `${file}/check/${title}`, place, file, line, entry,
    owner: around.scope.procedure, named: false, doubtful: false,
  };
}

const nameOf = (entry: Entry): string => entry.form.slots.find((s) => s.role === "name")?.names[0]?.name ?? "";
const _unused = checkOf;
