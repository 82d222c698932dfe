/**
 * Which spanner fits: the width across flats of the hexagon that belongs to a thread.
 */
import { hexagonHeads, inchHeads, olderWidths } from "./heads-table";
import type { Thread } from "./threads";

/** One usual width. */
export interface Width {
  /** Metres. */
  readonly across: number;
  /** The figure as the spanner is marked, in the thread's own unit: `16`, `9/16`, `1-1/8`. */
  readonly marked: string;
  readonly unit: "mm" | "in";
  readonly source: string;
}

/**
 * The widths across flats usual for a thread: the present standard's first, then older ones still met. Empty where no standard
 * gives the thread a hexagon (number sizes, M9, M11, spark plugs). A bolt with a flange, a nut that locks or a reduced
 * head may differ, so a writer's own figure always goes before these.
 */
export function widthsAcrossFlats(thread: Thread): readonly Width[] {
  if (thread.system === "unified") {
    const found = inchHeads[thread.size];
    return found === undefined ? [] : [inches(found[0])];
  }
  const standard = hexagonHeads[thread.size]?.[0];
  const older = olderWidths.flatMap(({ source, across }) => {
    const width = across[thread.size];
    return width === undefined ? [] : [millimetres(width, source)];
  });
  return standard === undefined ? older : [millimetres(standard, "ISO 272"), ...older];
}

/** The width across flats of the present standard; undefined where there is none. */
export function widthAcrossFlats(thread: Thread): Width | undefined {
  return widthsAcrossFlats(thread)[0];
}

function millimetres(width: number, source: string): Width {
  return { across: width * 1e-3, marked: String(width), unit: "mm", source };
}

/** Inch widths go in sixteenths. */
function inches(width: number): Width {
  const whole = Math.floor(width);
  let [over, under] = [Math.round((width - whole) * 16), 16];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const fraction = over === 0 ? "" : `${over}/${under}`;
  const marked = [whole === 0 ? "" : String(whole), fraction].filter((part) => part !== "").join("-");
  return { across: width * 0.0254, marked, unit: "in", source: "ASME B18.2.1" };
}
