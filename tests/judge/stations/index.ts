/**
 * The stations of generated jobs: each with its own parts, opened in some steps and closed again in others, so that any
 * number of them can stand in each other or one after the other.
 */
import type { Random } from "../../support/random";
import { heavy, measured } from "./bearings";
import { covers, sealed } from "./covers";
import { condensers, inverter } from "./live";
import { lines, runs } from "./runs";
import type { Station } from "./station";
import { belts, stretched } from "./turning";

export { CAUTION, type Station, TOOLS } from "./station";

/** Every kind of station. */
export const STATIONS: readonly ((n: number, random: Random) => Station)[] = [
  covers,
  condensers,
  condensers,
  sealed,
  inverter,
  belts,
  stretched,
  heavy,
  measured,
  runs,
  runs,
  lines,
  lines,
];
