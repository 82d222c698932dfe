/** A thread or a property class that does not exist. */
import { clauseOf, slotIn } from "../facts";
import { type ClassRefusal, classOf, isClass } from "../mechanics/classes-read";
import { isThread, type ThreadRefusal, threadOf } from "../mechanics/threads-read";
import { type Place, placeAt, type Thing } from "../model";
import { listed, titleOf, twins } from "./say";
import type { Fault, Fix, ThingRule } from "./types";

export const threadUnknown: ThingRule = {
  code: "thread-unknown",
  severity: "warning",
  group: "fasteners",
  grain: "thing",
  messages: {
    size: "No standard thread is called {found}: there is no such size.",
    pitch: "No standard thread is called {found}: that size is not made with that pitch.",
    series: "{found} says two different threads: the pitch belongs to the one, the series to the other.",
    class: "No property class is called {found}.",
    "class-odd": "“{found}” is read as no property class, so no torque is held against it.",
    "class-inch": "“{found}” is a grade of inch bolts, and {thread} is a metric thread.",
    hint: "Nearest to it: {near}.",
    "class-hint":
      "Write it as it stands on the head or in its standard: “8.8”, “grade 5”, “A2-70”; or leave it out.",
    fix: "Write {near}",
  },
  docs: {
    what: "The thread of a fastener is no metric or unified standard thread, or its class is none of ISO 898-1, SAE J429 or ISO 3506-1. Pipe threads and other kinds are passed by. A class that does not read as one, and a grade of inch bolts on a metric thread, are hints.",
    why: "Someone buys the bolt by it, and every figure worked out from it is wrong or missing.",
    ...twins(
      `torquil 1

machine winch "Hand winch" {
  fastener lid-bolts "Lid bolts" {
    thread  M8 x 1.5
    tighten 22 N·m
  }
}
`,
      "M8 x 1.5",
      "M8",
    ),
  },
  check(thing, report) {
    if (thing.kind !== "fastener") return;
    const said = saidIn(thing, "thread");
    const thread = said && threadOf(said.text);
    if (said && thread && !isThread(thread)) reportThread(said, thread, report);
    const other = saidIn(thing, "class");
    const boltClass = other && classOf(other.text, thread && isThread(thread) ? thread : undefined);
    if (other && boltClass && !isClass(boltClass)) reportClass(other, boltClass, report);
    if (!other || !boltClass || !isClass(boltClass) || !thread || !isThread(thread)) return;
    if (boltClass.standard === "SAE J429" && thread.system === "metric")
      reportOdd(other, "class-inch", report, thread.designation);
  },
};

interface Said {
  readonly text: string;
  readonly place: Place;
  readonly title: string;
}

function saidIn(thing: Thing, clause: "thread" | "class"): Said | null {
  const slot = slotIn(clauseOf(thing.entry, clause), clause);
  return slot && slot.text !== ""
    ? { text: slot.text, place: placeAt(thing.file, thing.line, slot.at), title: titleOf(thing) }
    : null;
}

const MESSAGES: Readonly<Partial<Record<ThreadRefusal["problem"], string>>> = {
  "unknown-size": "size",
  "unknown-pitch": "pitch",
  "series-disagrees": "series",
};

function reportThread(
  { text, place }: Said,
  { problem, near }: ThreadRefusal,
  report: (fault: Fault<Place>) => void,
): void {
  const message = MESSAGES[problem];
  if (message === undefined) return;
  const args = { found: text, near: listed(near, "and") };
  report({ place, message, hint: "hint", args, fixes: fixesOf(place, near) });
}

/** A class that is not wrong for certain, but from which nothing is worked out. */
function reportOdd(
  { text, place }: Pick<Said, "text" | "place">,
  message: "class-odd" | "class-inch",
  report: (fault: Fault<Place>) => void,
  thread = "",
): void {
  report({ place, message, severity: "hint", hint: "class-hint", args: { found: text, thread } });
}

function reportClass(
  { text, place }: Said,
  { problem, near }: ClassRefusal,
  report: (fault: Fault<Place>) => void,
): void {
  if (problem === "not-a-class") reportOdd({ text, place }, "class-odd", report);
  if (problem !== "unknown-class") return;
  report({
    place,
    message: "class",
    hint: "hint",
    args: { found: text, near: listed(near, "and") },
    fixes: fixesOf(place, near),
  });
}

const fixesOf = (place: Place, near: readonly string[]): Fix<Place>[] =>
  near.map((one) => ({
    title: { id: "fix", args: { near: one } },
    safe: false,
    changes: [{ place, text: one }],
  }));
