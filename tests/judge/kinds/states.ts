/**
 * Wrong changes to what is taken off, put back, opened and closed. Each counts only where the plain enumeration, with
 * the act table's data and none of the checker's code, finds the fault meant; that also says where it shows.
 */
import {
  blockAt,
  type Change,
  dropped,
  edited,
  headsAround,
  indentOf,
  isProvedWrong,
  type Kind,
  linesOf,
  matches,
  proved,
  type Site,
} from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";

const PROOF = "plain enumeration of every way";

/** A kind that changes an act's line in the procedure, where the enumeration can follow it. */
function onActs(
  name: string,
  pattern: RegExp,
  change: (source: Source, at: number, match: RegExpExecArray, lines: readonly string[]) => Change | null,
): Kind {
  const sites = (source: Source): Site[] => {
    if (!source.reading) return [];
    const lines = linesOf(source, source.main);
    return matches(source, source.main, pattern).map(
      ({ at, match }) =>
        () =>
          change(source, at, match, lines),
    );
  };
  return { name, proof: PROOF, sites };
}

/** A kind that leaves out a line with one thing. */
const drops = (name: string, pattern: RegExp, code: string): Kind =>
  onActs(name, pattern, (source, at, match, lines) =>
    proved(source, edited(source, source.main, dropped(lines, at)), [code], match[1]),
  );

/** The line below in the same block, past prose, that is an act of one line. */
function nextAct(lines: readonly string[], at: number, pattern: RegExp): number | null {
  for (let next = at + 1; next < lines.length; next++) {
    const line = (lines[next] as string).trim();
    if (line === "" || line.startsWith('"')) continue;
    return pattern.test(line) ? next : null;
  }
  return null;
}

/** A kind that swaps two lines that follow each other. */
const swaps = (name: string, first: RegExp, second: RegExp, codes: readonly string[]): Kind =>
  onActs(name, first, (source, at, _match, lines) => {
    const other = nextAct(lines, at, second);
    if (other === null) return null;
    const edits = new Map([
      [at, lines[other] as string],
      [other, lines[at] as string],
    ]);
    return proved(source, edited(source, source.main, edits), codes);
  });

const doubled = (name: string, pattern: RegExp, code: string): Kind =>
  onActs(name, pattern, (source, at, match, lines) => {
    const edits = new Map([[at, `${lines[at]}\n${lines[at]}`]]);
    return proved(source, edited(source, source.main, edits), [code], match[1]);
  });

/** A kind that takes a word out of a line. */
const without = (name: string, pattern: RegExp, word: RegExp, codes: readonly string[]): Kind =>
  onActs(name, pattern, (source, at, match, lines) => {
    const edits = new Map([[at, (lines[at] as string).replace(word, "")]]);
    return proved(source, edited(source, source.main, edits), codes, match[1]);
  });

const BACK = /^(?:repeat from|check again)/;
/** What would show in the outcome itself. */
const SOONER = ["blocked-by", "fastener-still-holds", "not-drained"];
const TWICE = ["part-fitted-twice", "removed-twice", "done-already"];

/** Undoing that an outcome forgets before it goes back. */
const forgottenUndo: Kind = onActs(
  "undo before a return left out",
  /^(?:remove|disconnect|open|pull) /,
  (source, at, _m, lines) => {
    const head = headsAround(lines, at).find((h) => /^\s*if /.test(lines[h] as string));
    if (head === undefined) return null;
    const last = blockAt(lines, head);
    const back = lines.findIndex((line, i) => i > at && i < last && BACK.test(line.trim()));
    const texts = edited(source, source.main, dropped(lines, at));
    const thing = bareLine(lines[at] as string).split(/[ ,]+/)[1] as string;
    const restored = new RegExp(`^(?:fit|connect|close|insert) (?:new )?${thing}(?![\\w-])`);
    // What the outcome itself puts back would be wrong before it goes back.
    if (lines.slice(at, back).some((line) => restored.test(bareLine(line)))) return null;
    if (back < 0 || !isProvedWrong(source, texts, TWICE) || isProvedWrong(source, texts, SOONER)) return null;
    return { texts, codes: ["repeat-skips-undo"], file: source.main, lines: [back] };
  },
);

/** What must not stay so when the job ends early, left out before it does. */
const leavesEarly = (name: string, pattern: RegExp): Kind =>
  onActs(name, pattern, (source, at, match, lines) =>
    headsAround(lines, at).some((h) => /^\s*if /.test(lines[h] as string))
      ? proved(source, edited(source, source.main, dropped(lines, at)), ["end-job-leaves"], match[1])
      : null,
  );

/** The start moved up to before the last thing that is fitted or tightened. */
const startedEarly: Kind = onActs(
  "machine started before it is whole",
  /^start ([\w-]+)$/,
  (source, at, _m, lines) => {
    const before = lines.findLastIndex((line, i) => i < at && /^\s*(?:fit|tighten|fill) [^{]*$/.test(line));
    if (before < 0) return null;
    const start = lines[at] as string;
    const edits = new Map([
      [before, `${indentOf(lines[before] as string)}${start.trim()}\n${lines[before]}`],
      [at, null],
    ]);
    return proved(source, edited(source, source.main, edits), ["started-too-soon"]);
  },
);

const byDoubleAngle: Kind = onActs(
  "angle stage done twice",
  /^tighten ([\w-]+) \{$/,
  (source, at, match, lines) => {
    const last = blockAt(lines, at);
    const block = lines.slice(at, last + 1).join("\n");
    const texts = edited(source, source.main, new Map([[last, `${lines[last]}\n${block}`]]));
    return proved(source, texts, ["angle-twice"], match[1]);
  },
);

/** A part moved to behind the line that tightens what secures it. */
const boltedOnNothing: Kind = onActs(
  "part put on after its bolts are tight",
  /^fit (?:new |old )?([\w-]+)$/,
  (source, at, match, lines) => {
    const last = lines.findIndex((line, i) => i > at && /^tighten [^{]*$/.test(bareLine(line)));
    const between = lines.slice(at + 1, Math.max(at + 1, last)).map((line) => bareLine(line));
    if (last < 0 || !between.every((line) => /^(?:fit|lubricate|seal) [^{]*$/.test(line))) return null;
    const edits = new Map([
      [at, null],
      [last, `${lines[last]}\n${lines[at]}`],
    ]);
    return proved(source, edited(source, source.main, edits), ["tightened-before-fitted"], match[1]);
  },
);

export const STATE_KINDS: readonly Kind[] = [
  drops(
    "refitting a part left out",
    /^fit (?:new |old )?([\w-]+)(?! by hand)(?: way-round [\w-]+| in own place)?$/,
    "part-left-off",
  ),
  onActs("final tightening left out", /^tighten ([\w-]+)/, (source, at, match, lines) => {
    // Of stages between the first and the last the enumeration knows nothing.
    const stages = lines.filter((line) => new RegExp(`^tighten ${match[1]} +to `).test(bareLine(line)));
    const texts = edited(source, source.main, dropped(lines, at));
    return stages.length > 2 ? null : proved(source, texts, ["finger-tight-left"], match[1]);
  }),
  drops("connecting left out", /^connect ([\w-]+)$/, "connection-left-open"),
  drops("closing left out", /^close ([\w-]+)$/, "connection-left-open"),
  drops("restoring left out", /^restore ([\w-]+)$/, "connection-left-open"),
  drops("filling left out", /^fill ([\w-]+)/, "not-refilled"),
  drops("stopping left out", /^stop ([\w-]+)$/, "left-running"),
  drops("pin not pulled", /^pull ([\w-]+)/, "temporary-left-in"),
  drops("support not released", /^release ([\w-]+)/, "support-left"),
  drops("weight not lowered", /^lower ([\w-]+)/, "support-left"),
  drops("draining left out", /^drain ([\w-]+)/, "not-drained"),
  onActs("supporting left out", /^(?:support|raise) ([\w-]+)/, (source, at, _m, lines) =>
    proved(source, edited(source, source.main, dropped(lines, at)), ["support-missing"]),
  ),
  onActs("what stands in front left on", /^remove ([\w-]+)(?: keep| discard)?$/, (source, at, match, lines) =>
    proved(source, edited(source, source.main, dropped(lines, at)), ["blocked-by"], match[1]),
  ),
  onActs("bolts left in", /^remove ([\w-]+)(, .+| discard.*| holding.*)?$/, (source, at, match, lines) => {
    const rest = match[2]?.startsWith(",")
      ? (lines[at] as string).replace(/remove [\w-]+, /, "remove ")
      : null;
    const texts = edited(source, source.main, new Map([[at, rest]]));
    return proved(source, texts, ["fastener-still-holds"], match[1]);
  }),
  doubled("removal said twice", /^remove ([\w-]+)$/, "removed-twice"),
  doubled("fitting said twice", /^fit (?:new )?([\w-]+)/, "part-fitted-twice"),
  doubled(
    "act said twice",
    /^(?:disconnect|connect|open|close|isolate|restore|insert|pull|support|release|raise|lower|start|stop) ([\w-]+)/,
    "done-already",
  ),
  swaps("two removals in the wrong order", /^remove /, /^remove /, ["blocked-by", "fastener-still-holds"]),
  swaps("two fittings in the wrong order", /^fit /, /^fit (?!.*by hand)/, ["blocked-by"]),
  boltedOnNothing,
  swaps("tightened before it is in", /^fit .* by hand$/, /^tighten [^{]*$/, ["tightened-before-fitted"]),
  without("“new” left out at a renewed part", /^fit new ([\w-]+)(?! by hand)/, /new /, ["old-part-refitted"]),
  without("“new” left out at a renewed bolt", /^fit new ([\w-]+) by hand/, /new /, ["used-bolt-refitted"]),
  byDoubleAngle,
  forgottenUndo,
  leavesEarly("pin left in where the job ends early", /^pull ([\w-]+)/),
  leavesEarly("left running where the job ends early", /^stop ([\w-]+)/),
  startedEarly,
];
