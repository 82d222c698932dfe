/**
 * The unit of the other side of the workshop (metric, imperial) that is shown beside a figure. The pairs are
 * those found on torque charts and data plates (common practice, no source).
 */

import { unitById } from "./lookup";
import { fromSi, type Unit } from "./unit";

/** Unit id to the ids of its partners, large to small. A unit that is not here has none. */
const partners: Readonly<Record<string, readonly string[]>> = {
  N·m: ["lb·ft", "lb·in"],
  kN·m: ["lb·ft"],
  daN·m: ["lb·ft", "lb·in"],
  N·cm: ["lb·in", "oz·in"],
  cN·m: ["lb·in", "oz·in"],
  mN·m: ["oz·in"],
  kgf·m: ["lb·ft", "lb·in"],
  kgf·cm: ["lb·in"],
  lb·ft: ["N·m"],
  lb·in: ["N·m"],
  oz·in: ["mN·m"],
  mm: ["in"],
  cm: ["in"],
  µm: ["in"],
  m: ["ft", "in"],
  km: ["mi"],
  dm: ["in"],
  in: ["mm"],
  ft: ["m"],
  thou: ["mm"],
  µin: ["µm"],
  yd: ["m"],
  mi: ["km"],
  "mm²": ["in²"],
  "cm²": ["in²"],
  "m²": ["ft²"],
  "in²": ["cm²"],
  "ft²": ["m²"],
  L: ["US gal", "US qt", "US fl oz"],
  mL: ["US fl oz"],
  cL: ["US fl oz"],
  "cm³": ["US fl oz"],
  "m³": ["US gal"],
  "US gal": ["L"],
  "US qt": ["L"],
  "US pt": ["L"],
  "US fl oz": ["mL"],
  "imp gal": ["L"],
  "imp qt": ["L"],
  "imp pt": ["L"],
  "imp fl oz": ["mL"],
  "in³": ["cm³"],
  kg: ["lb", "oz"],
  g: ["oz"],
  t: ["lb"],
  lb: ["kg"],
  oz: ["g"],
  N: ["lbf"],
  kN: ["lbf"],
  daN: ["lbf"],
  kgf: ["lbf"],
  lbf: ["N"],
  bar: ["psi"],
  kPa: ["psi"],
  MPa: ["psi"],
  Pa: ["inH2O"],
  hPa: ["psi", "inH2O"],
  mbar: ["psi", "inH2O"],
  atm: ["psi"],
  "kgf/cm²": ["psi"],
  mmHg: ["inHg"],
  mmH2O: ["inH2O"],
  psi: ["bar"],
  ksi: ["MPa"],
  inHg: ["mbar"],
  inH2O: ["mbar"],
  "°C": ["°F"],
  "°F": ["°C"],
  "°C difference": ["°F difference"],
  "°F difference": ["°C difference"],
  "km/h": ["mph"],
  "m/s": ["ft/s"],
  "mm/s": ["in/s"],
  "m/min": ["ft/min"],
  mph: ["km/h"],
  "ft/s": ["m/s"],
  "ft/min": ["m/min"],
  "in/s": ["mm/s"],
  "L/min": ["US gal/min"],
  "L/s": ["US gal/min"],
  "m³/h": ["ft³/min"],
  "US gal/min": ["L/min"],
  "ft³/min": ["m³/h"],
  kW: ["hp"],
  PS: ["hp"],
  hp: ["kW"],
  "N/mm": ["lbf/in"],
  "kN/mm": ["lbf/in"],
  "N/m": ["lbf/in"],
  "kgf/mm": ["lbf/in"],
  "lbf/in": ["N/mm"],
};

/** From how many of it a partner is used; under that, the next smaller one. */
const least: Readonly<Record<string, number>> = {
  lb·ft: 15,
  lb·in: 1,
  ft: 10,
  "US gal": 2,
  "US qt": 0.5,
  lb: 1,
  psi: 1,
};

/**
 * The unit shown beside a figure of this size: `lb·ft` for 47 N·m, `lb·in` for 8 N·m (under about 15 lb·ft
 * the trade uses inch-pounds, and small wrenches are marked in them). Null where the figure needs none.
 *
 * @param si the figure in SI units; of a range, its larger end.
 */
export function otherUnit(unit: Unit, si: number): Unit | null {
  const units = (partners[unit.id] ?? []).map((id) => unitById(id) as Unit);
  return units.find((one) => Math.abs(fromSi(si, one)) >= (least[one.id] ?? 0)) ?? units.at(-1) ?? null;
}
