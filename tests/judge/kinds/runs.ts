/**
 * Wrong changes to how belts, chains and lines run. That a belt then crosses itself, passes a pulley by, or is too long is
 * proved by the judge's own sampling of its path (`belts.ts`); the rest by how it is made.
 */
import { type Belt, type BeltPulley, beltsIn, faultIn, overlap, tooLong } from "../belts";
import { type Change, type Edits, edited, type Kind, linesOf, type Site } from "../change";
import { bareLine } from "../nodes";
import type { Source } from "../sources";
import { onLines } from "./figures";
import { linesThat, word } from "./finding";

interface Made {
  /** Where it is changed, if not where the belt is said. */
  readonly file?: string;
  readonly edits: Edits;
  readonly codes: readonly string[];
  readonly lines: readonly number[];
}

/** A kind that changes a belt, at each of its pulleys. */
function onPulleys(
  name: string,
  proof: string,
  change: (belt: Belt, pulley: number, lines: readonly string[], source: Source) => Made | null,
): Kind {
  const sites = (source: Source): Site[] =>
    Object.keys(source.texts).flatMap((file) => {
      const lines = linesOf(source, file);
      return beltsIn(lines).flatMap((belt) =>
        belt.pulleys.map((_, pulley) => (): Change | null => {
          const made = change(belt, pulley, lines, source);
          if (!made || made.lines.length === 0) return null;
          const where = made.file ?? file;
          const texts = edited(source, where, made.edits);
          return { texts, codes: made.codes, file: where, lines: made.lines };
        }),
      );
    });
  return { name, proof, sites };
}

/** A kind that changes a belt once. */
const onBelts = (
  name: string,
  proof: string,
  change: (belt: Belt, lines: readonly string[], source: Source) => Made | null,
): Kind =>
  onPulleys(name, proof, (belt, pulley, lines, source) =>
    pulley === 0 ? change(belt, lines, source) : null,
  );

/** A belt as its lines say it after edits. */
function after(belt: Belt, lines: readonly string[], edits: Edits): Belt | null {
  const changed = lines.map((line, i) => (edits.has(i) ? (edits.get(i) ?? "") : line));
  return beltsIn(changed).find(({ name }) => name === belt.name) ?? null;
}

const BACK = /\s+back of belt/;

/** The other face of the belt on a pulley. */
const turnedOver = (line: string): string =>
  BACK.test(line) ? line.replace(BACK, "") : `${line}  back of belt`;

const otherWay = (line: string): string =>
  line.replace(/(?:anti)?clockwise/, (way) => (way === "clockwise" ? "anticlockwise" : "clockwise"));

const scaled = (line: string, word: string, by: number): string =>
  line.replace(new RegExp(`(${word} +)([\\d.]+)`), (_, said: string, figure: string) => {
    const now = Number(figure) * by;
    return `${said}${word === "teeth" ? Math.round(now) : Number(now.toFixed(1))}`;
  });

/** A belt's length or number of teeth made greater or less. */
const length = (name: string, by: number, code: string): Kind =>
  onBelts(name, "no tensioner takes up so much, by sampling of the path", (belt, lines) => {
    const now = lines[belt.lengthAt]?.includes("teeth") ? "teeth" : "length";
    const edits = new Map([[belt.lengthAt, scaled(lines[belt.lengthAt] ?? "", now, by)]]);
    const changed = after(belt, lines, edits);
    const isLonger = by > 1;
    return changed && tooLong(changed) === (isLonger ? 1 : -1)
      ? { edits, codes: [code], lines: [belt.lengthAt] }
      : null;
  });

/** The pulleys of a `lay-on`, in the procedure. */
function laying(source: Source, belt: Belt): { at: number; line: string; names: string[] } | null {
  const lines = linesOf(source, source.main);
  const [at = -1] = linesThat(lines, new RegExp(`^lay-on ${word(belt.name)} (?:anti)?clockwise `));
  const names = bareLine(lines[at] ?? "")
    .replace(/ +/g, " ")
    .split(/clockwise /)[1];
  return names ? { at, line: lines[at] as string, names: names.split(/, ?/) } : null;
}

/** Where a shaft says which way it turns. */
const turning = (lines: readonly string[], shaft: string): number =>
  linesThat(lines, new RegExp(`^shaft ${word(shaft)}.* turns (?:anti)?clockwise`))[0] ?? -1;

/** Whether everything that pulls lies on one side of the driver, with the one that moves on the other. */
function movesInSlack({ pulleys }: Belt): number {
  const [driver, ...rest] = pulleys;
  const moving = rest.findIndex((p) => p.travel > 0);
  const others = rest.flatMap((p, i) => (p.shaft ? [i] : []));
  return driver?.shaft && others.length > 0 && moving >= 0 && moving < Math.min(...others) ? moving + 1 : -1;
}

export const RUN_KINDS: readonly Kind[] = [
  onPulleys(
    "two pulleys in each other’s place in the path",
    "the belt cuts itself or a pulley, whichever way round it is walked, by sampling",
    (belt, first, lines) => {
      const [a, b] = [belt.pulleys[first], belt.pulleys[(first + 1) % belt.pulleys.length]];
      if (!a || !b || belt.pulleys.length < 4) return null;
      const edits = new Map([
        [a.line, lines[b.line] as string],
        [b.line, lines[a.line] as string],
      ]);
      const changed = after(belt, lines, edits);
      if (!changed || faultIn(changed)?.kind !== "crosses" || faultIn(changed, true)?.kind !== "crosses")
        return null;
      // Neither of the two alone is wrong.
      return { edits, codes: ["belt-crosses-itself"], lines: [a.line, b.line] };
    },
  ),
  onPulleys(
    "wrong face of the belt on a pulley",
    "by sampling: the belt cuts itself, or is too long or too short for the path",
    (belt, which, lines) => {
      const line = belt.pulleys[which]?.line ?? -1;
      const edits = new Map([[line, turnedOver(lines[line] as string)]]);
      const changed = after(belt, lines, edits);
      if (!changed || changed.pulleys.filter((p) => p.side === "inside").length < 2) return null;
      const isWrong = faultIn(changed)?.kind === "crosses" || (!faultIn(changed) && tooLong(changed) !== 0);
      return isWrong ? { edits, codes: ["wrong-side"], lines: [line] } : null;
    },
  ),
  onPulleys(
    "roller beside the belt",
    "by sampling: pulled tight, the belt passes it by",
    (belt, which, lines) => {
      const roller = belt.pulleys[which];
      if (roller?.side !== "back") return null;
      for (const by of [1.15, 1.3, 1.5, 1.8, 2.2]) {
        const { x, y } = roller.centre;
        const centre = `centre ${Math.round(by * x)} mm, ${Math.round(by * y)} mm`;
        const now = (lines[roller.line] as string).replace(/centre +-?[\d.]+ mm, *-?[\d.]+ mm/, centre);
        const edits = new Map([[roller.line, now]]);
        const changed = after(belt, lines, edits);
        const fault = changed && faultIn(changed);
        if (!changed || fault?.kind !== "passed by" || fault.pulleys.join() !== `${which}`) continue;
        if (changed.pulleys.some((p, i) => i !== which && overlap(p, changed.pulleys[which] as BeltPulley)))
          continue;
        // Where the belt's length is as it would be with its other face there, that may as well be what is wrong.
        const turned = new Map([[roller.line, turnedOver(now)]]);
        const other = after(belt, lines, turned);
        const mayBeFace = other !== null && other.length !== null && !faultIn(other) && tooLong(other) === 0;
        const codes = mayBeFace ? ["pulley-not-touched", "wrong-side"] : ["pulley-not-touched"];
        return { edits, codes, lines: [roller.line] };
      }
      return null;
    },
  ),
  onPulleys("pulley where another stands", "their circles then run into each other", (belt, which, lines) => {
    const [before, here] = [belt.pulleys[which - 1], belt.pulleys[which]];
    if (!before || !here) return null;
    const centre = / centre +-?[\d.]+ mm, *-?[\d.]+ mm/.exec(lines[before.line] as string)?.[0] as string;
    const now = (lines[here.line] as string).replace(/ centre +-?[\d.]+ mm, *-?[\d.]+ mm/, centre);
    const edits = new Map([[here.line, now]]);
    const changed = after(belt, lines, edits);
    const [a, b] = [changed?.pulleys[which - 1], changed?.pulleys[which]];
    return a && b && overlap(a, b) ? { edits, codes: ["pulleys-overlap"], lines: [here.line] } : null;
  }),
  onPulleys("pulley of no size", "no pulley has a diameter of nought", (belt, which, lines) => {
    const { line = -1 } = belt.pulleys[which] ?? {};
    const now = (lines[line] as string).replace(/diameter +[\d.]+ mm/, "diameter 0 mm");
    return now === lines[line]
      ? null
      : { edits: new Map([[line, now]]), codes: ["nought-or-less"], lines: [line] };
  }),
  length("belt too long", 1.12, "belt-too-long"),
  length("belt too short", 0.88, "belt-too-short"),
  onPulleys(
    "teeth of a pulley that the belt’s length does not fit",
    "by sampling: the path is then longer or shorter than the belt by more than is taken up",
    (belt, which, lines) => {
      const { line = -1, teeth = null } = belt.pulleys[which] ?? {};
      if (teeth === null || belt.pulleys.some((p, i) => i !== which && p.side === "back")) return null;
      const edits = new Map([[line, scaled(lines[line] as string, "teeth", which % 2 === 0 ? 2 : 0.5)]]);
      const changed = after(belt, lines, edits);
      const long = changed ? tooLong(changed) : 0;
      if (!changed || long === 0 || faultIn(changed)) return null;
      if (changed.pulleys.some((p, i) => changed.pulleys.slice(i + 1).some((o) => overlap(p, o))))
        return null;
      // Length and path do not fit each other; the length is what is held against the path.
      return { edits, codes: [long > 0 ? "belt-too-long" : "belt-too-short"], lines: [belt.lengthAt] };
    },
  ),
  onPulleys(
    "teeth of a pulley against the ratio of its shaft",
    "one tooth more, and the ratio is another",
    (belt, which, lines) => {
      const pulley = belt.pulleys[which];
      if (!pulley?.teeth || !pulley.shaft) return null;
      const ratio = (p: BeltPulley): number =>
        linesThat(lines, new RegExp(`^shaft ${word(p.shaft ?? "")} .*ratio`))[0] ?? -1;
      const said = Math.max(...belt.pulleys.filter((p) => p.shaft).map(ratio));
      const edits = new Map([
        [pulley.line, (lines[pulley.line] as string).replace(/teeth +\d+/, `teeth ${pulley.teeth + 1}`)],
      ]);
      return said < 0 ? null : { edits, codes: ["ratio-differs-from-teeth"], lines: [said] };
    },
  ),
  onLines(
    "ratio that the teeth do not have",
    "a tenth more than the teeth make",
    /^shaft .* ratio (\d+)\/(\d+) of/,
    ["ratio-differs-from-teeth"],
    (line, match) => line.replace(/\d+\/\d+/, `${11 * Number(match[1])}/${10 * Number(match[2])}`),
  ),
  onBelts(
    "path said the other way round",
    "by sampling: the belt runs in the order of the lines as before, and cannot the other way",
    (belt, lines) => {
      if (belt.round === null || belt.pulleys.length < 3 || faultIn(belt) || !faultIn(belt, true))
        return null;
      const edits = new Map([[belt.path, otherWay(lines[belt.path] as string)]]);
      return { edits, codes: ["wrong-way"], lines: [belt.path] };
    },
  ),
  onBelts(
    "mark of the belt said the other way round",
    "its shaft says which way it turns, and the belt’s inside is on it",
    (belt, lines) => {
      const [driver] = belt.pulleys;
      const at = linesThat(lines, /^way-round (?:anti)?clockwise/, belt.head, belt.lengthAt)[0] ?? -1;
      if (at < 0 || driver?.side !== "inside" || !driver.shaft || turning(lines, driver.shaft) < 0)
        return null;
      const turns = /turns ((?:anti)?clockwise)/.exec(lines[turning(lines, driver.shaft)] as string)?.[1];
      const said = /way-round +((?:anti)?clockwise)/.exec(lines[at] as string)?.[1];
      if (turns !== said) return null;
      return { edits: new Map([[at, otherWay(lines[at] as string)]]), codes: ["wrong-way"], lines: [at] };
    },
  ),
  onBelts(
    "two shafts of a belt that cannot both turn so",
    "both are driven by the belt’s inside, so they turn the same way",
    (belt, lines) => {
      const [driver, ...others] = belt.pulleys.filter((p) => p.shaft && p.side === "inside");
      const driven = others.find((p) => turning(lines, p.shaft as string) < 0);
      if (!driver || !driven || turning(lines, driver.shaft as string) < 0) return null;
      const turns = /turns ((?:anti)?clockwise)/.exec(
        lines[turning(lines, driver.shaft as string)] as string,
      );
      const [at = -1] = linesThat(lines, new RegExp(`^shaft ${word(driven.shaft as string)} `));
      if (at < 0 || !turns || /\/\//.test(lines[at] as string)) return null;
      const edits = new Map([[at, `${lines[at]}  turns ${otherWay(turns[1] as string)}`]]);
      // The belt is between them, and is where both are seen.
      return { edits, codes: ["wrong-way"], lines: [belt.head] };
    },
  ),
  onBelts(
    "driving shaft turned round under its tensioner",
    "the strand with the tensioner then runs onto the driving pulley, with no other shaft between",
    (belt, lines) => {
      const moving = movesInSlack(belt);
      const [driver] = belt.pulleys;
      const at = driver?.shaft ? turning(lines, driver.shaft) : -1;
      if (moving < 0 || at < 0 || driver?.side !== "inside") return null;
      const turns = /turns ((?:anti)?clockwise)/.exec(lines[at] as string)?.[1];
      if (
        turns !== belt.round ||
        belt.pulleys.some((p, i) => i > 0 && p.shaft && turning(lines, p.shaft) >= 0)
      )
        return null;
      return {
        edits: new Map([[at, otherWay(lines[at] as string)]]),
        codes: ["tensioner-on-tight-strand"],
        lines: [belt.pulleys[moving]?.line ?? -1],
      };
    },
  ),
  onBelts("view left out", "nothing then says from where clockwise is seen", (belt, lines) => {
    const views = linesThat(lines, /^view /);
    const edits = new Map(views.map((at) => [at, null] as const));
    const first = belt.path >= 0 ? belt.path : (belt.pulleys[0]?.line ?? -1);
    return views.length === 0 ? null : { edits, codes: ["direction-unsaid"], lines: [first] };
  }),
  onPulleys(
    "two pulleys swapped where the belt is laid on",
    "the order is then another than the path’s, either way round",
    (belt, which, _lines, source) => {
      const laid = laying(source, belt);
      if (!laid || belt.pulleys.length < 4) return null;
      const names = [...laid.names];
      const other = (which + 1) % names.length;
      [names[which], names[other]] = [names[other] as string, names[which] as string];
      if (names.length !== belt.pulleys.length) return null;
      const now = laid.line.replace(/(clockwise +).*/, `$1${names.join(", ")}`);
      return {
        file: source.main,
        edits: new Map([[laid.at, now]]),
        codes: ["lay-on-differs"],
        lines: [laid.at],
      };
    },
  ),
  onBelts(
    "belt laid on the other way round",
    "its pulleys lie the way round that was said",
    (belt, _lines, source) => {
      const laid = laying(source, belt);
      if (!laid || belt.pulleys.length < 3) return null;
      const edits = new Map([[laid.at, otherWay(laid.line)]]);
      return { file: source.main, edits, codes: ["wrong-way"], lines: [laid.at] };
    },
  ),
  onLines(
    "clip skipped",
    "the machine leads the line through it",
    /^run [\w-]+ through ([\w-]+), ([\w-]+), /,
    ["clip-skipped"],
    (line, match) => line.replace(`${match[2]}, `, ""),
  ),
  onLines(
    "two clips in the wrong order",
    "the machine leads the line through them the other way round",
    /^run [\w-]+ through ([\w-]+), ([\w-]+), /,
    ["clip-skipped"],
    (line, match) => line.replace(`${match[1]}, ${match[2]}`, `${match[2]}, ${match[1]}`),
  ),
  onLines(
    "clip named twice",
    "a line does not come back to where it has been",
    /^(?:run [\w-]+ )?through ([\w-]+), [\w-]+(?:, [\w-]+)*$/,
    ["run-loops-back"],
    (line, match) => `${line}, ${match[1]}`,
  ),
  lineKind(
    "line too short",
    "shorter than straight from place to place",
    "line-too-short",
    (length) => `length ${Math.floor(0.9 * length)} mm`,
  ),
  bendKind(),
];

/** A line's places, where all are said, with the lines of its facts. */
function placesOf(source: Source, file: string, head: number): { x: number; y: number }[] | null {
  const lines = linesOf(source, file);
  const end = lines.findIndex((line, i) => i > head && line.trim() === "}");
  const inside = lines.slice(head, end).map((line) => bareLine(line).replace(/ +/g, " "));
  const through = inside.flatMap((line) => /^through (.+)$/.exec(line)?.[1]?.split(/, ?/) ?? []);
  const ends = inside.flatMap((line) => /^from ([\w-]+) to ([\w-]+)/.exec(line)?.slice(1) ?? []);
  if (through.length === 0 || ends.length !== 2) return null;
  const found = [ends[0] as string, ...through, ends[1] as string].map((name) => {
    const [at = -1] = linesThat(lines, new RegExp(`^(?:part|clip) ${word(name)}.* centre `));
    const centre = / centre +(-?[\d.]+) mm, *(-?[\d.]+) mm/.exec(lines[at] ?? "");
    return centre ? { x: Number(centre[1]), y: Number(centre[2]) } : null;
  });
  return found.includes(null) ? null : (found as { x: number; y: number }[]);
}

const LINE_HEAD = /^(?:hose|cable|wire|pipe) ([\w-]+) "" \{$/;

function onRuns(
  name: string,
  proof: string,
  code: string,
  change: (
    lines: readonly string[],
    block: readonly [number, number],
    places: readonly { x: number; y: number }[],
  ) => { edits: Edits; lines: readonly number[] } | null,
): Kind {
  const sites = (source: Source): Site[] =>
    Object.keys(source.texts).flatMap((file) => {
      const lines = linesOf(source, file);
      return linesThat(lines, LINE_HEAD).map((head) => (): Change | null => {
        const places = placesOf(source, file, head);
        const end = lines.findIndex((line, i) => i > head && line.trim() === "}");
        const made = places && change(lines, [head, end], places);
        return made
          ? { texts: edited(source, file, made.edits), codes: [code], file, lines: made.lines }
          : null;
      });
    });
  return { name, proof, sites };
}

const straight = (places: readonly { x: number; y: number }[]): number =>
  places
    .slice(1)
    .reduce((sum, p, i) => sum + Math.hypot(p.x - (places[i]?.x ?? 0), p.y - (places[i]?.y ?? 0)), 0);

function lineKind(name: string, proof: string, code: string, now: (length: number) => string): Kind {
  return onRuns(name, proof, code, (lines, [head, end], places) => {
    const at = linesThat(lines, /^length /, head, end)[0] ?? -1;
    if (at < 0) return null;
    const text = (lines[at] as string).replace(/length +[\d.]+ mm/, now(straight(places)));
    return { edits: new Map([[at, text]]), lines: [at] };
  });
}

/** Degrees of a bend, and how many of the longest piece beside it an arc of the radius would then need on either side. */
function bendKind(): Kind {
  return onRuns(
    "line that bends too tightly at a clip",
    "an arc of that radius would need more room on either side of the clip than the whole line has",
    "bend-too-tight",
    (lines, [head, end], places) => {
      const [at = -1] = linesThat(lines, /^bend-radius /, head, end);
      const [through = -1] = linesThat(lines, /^through /, head, end);
      const turn = (i: number): number => {
        const [a, b, c] = [places[i - 1], places[i], places[i + 1]] as { x: number; y: number }[];
        if (!a || !b || !c) return 0;
        const [into, out] = [Math.atan2(b.y - a.y, b.x - a.x), Math.atan2(c.y - b.y, c.x - b.x)];
        return Math.abs(Math.atan2(Math.sin(out - into), Math.cos(out - into)));
      };
      const most = Math.max(...places.map((_, i) => turn(i)));
      if (at < 0 || through < 0 || most < Math.PI / 8) return null;
      const radius = Math.ceil(straight(places) / Math.tan(most / 2));
      const text = (lines[at] as string).replace(/[\d.]+ mm/, `${radius} mm`);
      return { edits: new Map([[at, text]]), lines: [through] };
    },
  );
}
