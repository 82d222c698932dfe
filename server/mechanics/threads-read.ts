/**
 * From what a writer calls a thread to the thread, and where it is none, to the ones probably meant.
 */
import { allThreads, type Thread } from "./threads";

/**
 * Why a text names no standard thread.
 * - `not-a-thread`: it does not read as one.
 * - `other-thread`: it is of a kind that is not held here (pipe, trapezoidal, Whitworth, a constant-pitch series as 9/16-20, finer
 *   than M1.6 or larger than M64 or 1-1/2): nothing can be said of it.
 * - `unknown-size`: no thread has that diameter.
 * - `unknown-pitch`: the diameter is made, but not with that pitch.
 * - `pitch-unsaid`: the diameter has no pitch that is meant where none is said.
 * - `series-disagrees`: pitch and series name different threads (`1/2-20 UNC`).
 * - `length-said`: a bolt's length follows the thread (`M10 x 1.5 x 40`).
 */
export type ThreadProblem =
  | "not-a-thread"
  | "other-thread"
  | "unknown-size"
  | "unknown-pitch"
  | "pitch-unsaid"
  | "series-disagrees"
  | "length-said";

/** A text that names no standard thread, with the designations of those it may have meant, the likeliest first. */
export interface ThreadRefusal {
  readonly problem: ThreadProblem;
  readonly near: readonly string[];
}

const leftHandMark = /[\s,-]*\b(?:lh|left[\s-]?hand(?:ed)?|left)$/i;
const metricForm =
  /^m\s*(\d{1,3}(?:[.,]\d{1,3})?)(?:\s*[x×*/-]\s*(\d{1,3}(?:[.,]\d{1,3})?)(?![\d.,]*[a-z]))?(?:\s*[x×*]\s*\d{1,4}(?:[.,]\d+)?()(?:\s*mm)?)?(?:\s*-\s*(?:\d[a-z]){1,2})?$/i;
const unifiedForm =
  /^(#|no\.?\s*)?(\d{1,2}[\s-]\d{1,2}\/\d{1,2}|\d{1,2}\/\d{1,2}|\d?\.\d{1,4}|\d{1,2})\s*(?:"|″|in)?(?:\s*[-x×\s]\s*(\d{1,2})(?![\d/.]))?(?:\s*-?\s*(unr?[cf]|n[cf]|une[fs]|uns|un))?(?:\s*-?\s*[123][ab])?$/i;
const otherForm =
  /^(?:(?:rc|rp|[gr]|tr|pg|bsp[pt]?|npt?f?|bsw|bsf|ba|w)\s*\d|.*\d\s*(?:"|in)?\s*(?:-\s*\d+\s*)?(?:npt?f?|bsp[pt]?|bsw|bsf|ba)\s*$)/i;

/**
 * The thread a text names: `M10`, `M10x1.25`, `M10 × 1,25`, `M8-6g`, `1/2-13`, `5/16-18 UNC`, `#10-24`, `1 1/8-7 UNC-2A`,
 * `1/2 UNF`, each also with `LH` or `left-hand` behind it.
 */
export function threadOf(text: string): Thread | ThreadRefusal {
  const whole = text.normalize("NFC").trim().replace(/\s+/g, " ");
  const bare = whole.replace(leftHandMark, "");
  const found = bareThread(bare);
  return "designation" in found && bare !== whole ? { ...found, leftHand: true } : found;
}

/** Whether a reading gave a thread. */
export function isThread(read: Thread | ThreadRefusal): read is Thread {
  return "designation" in read;
}

function bareThread(text: string): Thread | ThreadRefusal {
  if (text.length > 40) return refuse("not-a-thread");
  const metric = metricForm.exec(text);
  if (metric) return metricThread(numberOf(metric[1]), metric[2], metric[3] !== undefined);
  if (otherForm.test(text)) return refuse("other-thread");
  const unified = unifiedForm.exec(text);
  if (unified) return unifiedThread(unified[2] ?? "", unified[1] !== undefined, unified[3], unified[4]);
  return refuse("not-a-thread");
}

const numberOf = (text = ""): number => Number(text.replace(",", "."));

function metricThread(diameter: number, pitchText: string | undefined, withLength: boolean) {
  const all = allThreads.filter((t) => t.system === "metric");
  const ofSize = all.filter((t) => t.size === `M${diameter}`);
  if (ofSize.length === 0) return unknownSize(all, diameter / 1e3);
  const pitch = pitchText === undefined ? null : numberOf(pitchText);
  const found = ofSize.find((t) => (pitch === null ? t.series === "coarse" : isSame(t.pitch * 1e3, pitch)));
  if (found === undefined) return refuse(pitch === null ? "pitch-unsaid" : "unknown-pitch", ofSize);
  return withLength ? refuse("length-said", [found]) : found;
}

function unifiedThread(sizeText: string, numbered: boolean, pitchText?: string, seriesText?: string) {
  const all = allThreads.filter((t) => t.system === "unified");
  const ofSize = sizesOf(all, sizeText, numbered, pitchText);
  const coarse = seriesText === undefined ? null : seriesOf(seriesText);
  if (coarse === undefined) return refuse("other-thread", ofSize);
  if (pitchText === undefined && coarse === null) {
    const whole = allThreads.filter((t) => t.size === `M${sizeText}` && t.series === "coarse");
    if (!numbered && /^\d+$/.test(sizeText)) return refuse("not-a-thread", [...whole, ...ofSize]);
    return ofSize.length > 0 ? refuse("pitch-unsaid", ofSize) : unknownSize(all, inchesOf(sizeText) * 0.0254);
  }
  if (ofSize.length === 0) return unknownSize(all, inchesOf(sizeText) * 0.0254);
  const pitched = ofSize.filter((t) => pitchText === undefined || perInch(t) === Number(pitchText));
  if (pitched.length === 0)
    return refuse(constantPitches.has(Number(pitchText)) ? "other-thread" : "unknown-pitch", ofSize);
  return pitched.find((t) => coarse === null || t.series === coarse) ?? refuse("series-disagrees", ofSize);
}

/** Threads an inch of the constant-pitch series 4-UN to 32-UN, made in many sizes beside UNC and UNF (ASME B1.1, from memory). */
const constantPitches: ReadonlySet<number> = new Set([4, 6, 8, 12, 16, 20, 28, 32]);

/** Undefined for a series that is not held here. */
function seriesOf(text: string): Thread["series"] | undefined {
  if (/^(?:unr?c|nc)$/i.test(text)) return "coarse";
  return /^(?:unr?f|nf)$/i.test(text) ? "fine" : undefined;
}

const perInch = (thread: Thread): number => Math.round(0.0254 / thread.pitch);

/**
 * The threads of a size. `10` may be number 10 or ten inches, `1` number 1 or one inch: number sizes have 24 threads an inch and
 * more, so fewer tell an inch size, and where none are said one inch is meant.
 */
function sizesOf(all: readonly Thread[], text: string, numbered: boolean, pitchText?: string): Thread[] {
  const inches = inchesOf(text);
  const byInches = numbered ? [] : all.filter((t) => isSame(t.diameter / 0.0254, inches));
  if (!/^\d+$/.test(text)) return byInches;
  const byNumber = all.filter((t) => t.size === `#${Number(text)}`);
  if (pitchText === undefined) return byInches.length > 0 ? byInches : byNumber;
  return !numbered && Number(pitchText) < fewestOfNumberSizes ? byInches : [...byNumber, ...byInches];
}

const fewestOfNumberSizes = 24;

/** `1 1/8`, `1-1/8`, `5/16`, `.250`, `1` in inches. */
function inchesOf(text: string): number {
  const [, whole = "0", over, under] = /^(?:(\d+)[\s-])?(\d+)\/(\d+)$/.exec(text) ?? [];
  return over === undefined ? Number(text) : Number(whole) + Number(over) / Number(under);
}

const isSame = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/** Sizes beyond those held here are made too, so nothing is said against them. */
function unknownSize(all: readonly Thread[], diameter: number): ThreadRefusal {
  if (!(diameter > 0 && Number.isFinite(diameter))) return refuse("not-a-thread");
  const [least, most] = [all[0], all.at(-1)];
  const beyond = diameter < (least?.diameter ?? 0) || diameter > (most?.diameter ?? 0);
  return beyond ? refuse("other-thread") : refuse("unknown-size", neighbours(all, diameter));
}

/** The coarse threads of the next smaller and the next larger diameter, the nearer one first. */
function neighbours(all: readonly Thread[], diameter: number): Thread[] {
  const coarse = all.filter((t) => t.series === "coarse");
  const below = coarse.filter((t) => t.diameter < diameter).at(-1);
  const above = coarse.find((t) => t.diameter > diameter);
  const found = [below, above].filter((t) => t !== undefined);
  return found.sort((a, b) => Math.abs(a.diameter - diameter) - Math.abs(b.diameter - diameter));
}

function refuse(problem: ThreadProblem, near: readonly Thread[] = []): ThreadRefusal {
  return { problem, near: near.map((t) => t.designation) };
}
