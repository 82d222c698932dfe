/**
 * The drawings of the ways through the work: whether there are any, how much they show, and what they are made from.
 */
import { type Drawing as DrawnWays, waysDrawings } from "../drawings";
import { graphOf } from "../walk";
import type { Drawings } from "./blocks";
import { type Build, itemOf } from "./build-context";
import { plain } from "./fill";
import { flowIn, type Piece, partingsIn } from "./partings";
import { type Detail, TALLEST, WHOLE, waysPicture } from "./ways-picture";

/** A procedure in which the ways part at more places is not drawn: nobody would follow it with the finger. */
const MOST_PLACES = 60;
/** On more drawings than these they are not printed either. */
const MOST_DRAWINGS = 4;
/** Where there would be more drawings than these, small conditions are left to the text of their step. */
const ENOUGH = 2;

/** The drawings of the ways; none where there is one way, or where there are far too many places to draw. */
export function waysOf(build: Build): readonly Drawings[] {
  const { job } = build;
  const { procedure } = job.root;
  const parts = job.spots.filter(({ entry }) => entry.construct === "when" || entry.construct === "if");
  if (procedure.doubtful || parts.length === 0 || parts.length > 3 * MOST_PLACES) return [];
  const pieces = flowIn(job, graphOf(procedure));
  const partings = partingsIn(pieces);
  if (partings.length === 0 || partings.length > MOST_PLACES) return [];
  const all = drawnWays(build, pieces);
  if (all.length === 0 || all.length > MOST_DRAWINGS) return [];
  const madeFrom = linesOf(pieces);
  return [
    {
      kind: "drawings",
      ...itemOf(job.root, "/ways"),
      drawings: all.map((one, index) => ({
        kind: "drawing",
        ...itemOf(job.root, `/ways.${index + 1}`),
        number: "",
        svg: one.svg,
        description: one.description,
        caption: plain(one.title),
        madeFrom,
      })),
    },
  ];
}

/** The lines that say where the ways part, and where they lead. */
function linesOf(pieces: readonly Piece[]): readonly { readonly file: string; readonly line: number }[] {
  return pieces.flatMap((piece) => {
    if (piece.kind === "place") return [];
    const own = { file: piece.spot.file, line: piece.spot.line };
    if (piece.kind === "lead") return [own];
    const answers = piece.answers.flatMap(({ spot, pieces: inside }) => [
      ...(spot ? [{ file: spot.file, line: spot.line }] : []),
      ...linesOf(inside),
    ]);
    return [own, ...answers];
  });
}

/**
 * The drawings of a flow: whole if they are few, else without small conditions; where a question has no room on a page,
 * without what is further in; none where it has none even so.
 */
function drawnWays(build: Build, pieces: readonly Piece[]): readonly DrawnWays[] {
  const draw = (detail: Detail): readonly DrawnWays[] | null => {
    const all = waysDrawings(waysPicture(build, pieces, detail));
    return all.every(({ height }) => height <= TALLEST[build.paper]) ? all : null;
  };
  const whole = draw(WHOLE);
  if (whole && whole.length <= ENOUGH) return whole;
  return draw({ ...WHOLE, briefly: true }) ?? draw({ briefly: true, deepest: 1 }) ?? [];
}
