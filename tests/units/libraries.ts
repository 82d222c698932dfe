/**
 * Two units libraries from the package registry as independent witnesses: mathjs (a general mathematics
 * library) and the UCUM library of the U.S. National Library of Medicine. Each gives the factor of one of our
 * units to coherent SI units as it knows it, or null where it knows no such unit.
 */

import ucum from "@lhncbc/ucum-lhc";
import { all, create, type FactoryFunctionMap } from "mathjs";
import type { Kind } from "../../server/units/dimension";
import type { Unit } from "../../server/units/unit";

const math = create(all as FactoryFunctionMap);
const ucumUtils = ucum.UcumLhcUtils.getInstance();

/** The coherent SI unit of each kind, as each library spells it. */
const coherent: Readonly<Record<Kind, readonly [mathjs: string, ucum: string]>> = {
  torque: ["N m", "N.m"],
  angle: ["rad", "rad"],
  length: ["m", "m"],
  area: ["m^2", "m2"],
  volume: ["m^3", "m3"],
  mass: ["kg", "kg"],
  force: ["N", "N"],
  pressure: ["Pa", "Pa"],
  temperature: ["K", "K"],
  "temperature-difference": ["K", "K"],
  time: ["s", "s"],
  speed: ["m/s", "m/s"],
  "rotation-speed": ["rad/s", "rad/s"],
  frequency: ["Hz", "Hz"],
  flow: ["m^3/s", "m3/s"],
  voltage: ["V", "V"],
  current: ["A", "A"],
  resistance: ["ohm", "Ohm"],
  capacitance: ["F", "F"],
  charge: ["C", "C"],
  power: ["W", "W"],
  energy: ["J", "J"],
  "spring-rate": ["N/m", "N/m"],
  density: ["kg/m^3", "kg/m3"],
  percentage: ["", "1"],
};

/** Our unit as mathjs and as UCUM write it; one that is absent or null is looked for under all our own spellings. */
const written: Readonly<Record<string, readonly [mathjs: string | null, ucum: string | null]>> = {
  N·m: ["N m", "N.m"],
  kN·m: ["kN m", "kN.m"],
  daN·m: ["daN m", "daN.m"],
  N·cm: ["N cm", "N.cm"],
  cN·m: ["cN m", "cN.m"],
  mN·m: ["mN m", "mN.m"],
  kgf·m: ["kgf m", "kgf.m"],
  kgf·cm: ["kgf cm", "kgf.cm"],
  lb·ft: ["lbf ft", "[lbf_av].[ft_i]"],
  lb·in: ["lbf in", "[lbf_av].[in_i]"],
  oz·in: [null, "[oz_av].[g].[in_i]"],
  "°": ["deg", "deg"],
  turn: ["cycle", "circ"],
  "′": ["arcmin", "'"],
  "″": ["arcsec", "''"],
  rad: ["rad", "rad"],
  µm: ["um", "um"],
  in: ["in", "[in_i]"],
  ft: ["ft", "[ft_i]"],
  thou: ["mil", "[mil_i]"],
  µin: [null, "u[in_i]"],
  yd: ["yard", "[yd_i]"],
  mi: ["mi", "[mi_i]"],
  "mm²": ["mm^2", "mm2"],
  "cm²": ["cm^2", "cm2"],
  "m²": ["m^2", "m2"],
  "in²": ["in^2", "[sin_i]"],
  "ft²": ["ft^2", "[sft_i]"],
  "cm³": ["cc", "cm3"],
  "mm³": ["mm^3", "mm3"],
  "m³": ["m^3", "m3"],
  "US gal": ["gallon", "[gal_us]"],
  "US qt": ["quart", "[qt_us]"],
  "US pt": ["pint", "[pt_us]"],
  "US fl oz": ["fluidounce", "[foz_us]"],
  "imp gal": [null, "[gal_br]"],
  "imp qt": [null, "[qt_br]"],
  "imp pt": [null, "[pt_br]"],
  "imp fl oz": [null, "[foz_br]"],
  "in³": ["cuin", "[cin_i]"],
  t: ["tonne", "t"],
  lb: ["lb", "[lb_av]"],
  oz: ["oz", "[oz_av]"],
  lbf: ["lbf", "[lbf_av]"],
  "kgf/cm²": ["kgf / cm^2", "kgf/cm2"],
  mmHg: ["mmHg", "mm[Hg]"],
  mmH2O: ["mmH2O", "mm[H2O]"],
  psi: ["psi", "[psi]"],
  ksi: [null, "k[psi]"],
  inHg: [null, "[in_i'Hg]"],
  inH2O: [null, "[in_i'H2O]"],
  "°C": ["degC", "Cel"],
  "°F": ["degF", "[degF]"],
  "°C difference": ["degC", "Cel"],
  "°F difference": ["degF", "[degF]"],
  min: ["minute", "min"],
  h: ["hour", "h"],
  day: ["day", "d"],
  week: ["week", "wk"],
  "m/min": ["m / minute", "m/min"],
  "km/h": ["km / hour", "km/h"],
  mph: ["mi / hour", "[mi_i]/h"],
  "ft/s": ["ft/s", "[ft_i]/s"],
  "ft/min": ["ft / minute", "[ft_i]/min"],
  "in/s": ["in/s", "[in_i]/s"],
  rpm: ["cycle / minute", "circ/min"],
  "1/min": ["cycle / minute", "circ/min"],
  "L/min": ["L / minute", "L/min"],
  "L/h": ["L / hour", "L/h"],
  "L/s": ["L/s", "L/s"],
  "mL/min": ["mL / minute", "mL/min"],
  "m³/h": ["m^3 / hour", "m3/h"],
  "US gal/min": ["gallon / minute", "[gal_us]/min"],
  "ft³/min": ["ft^3 / minute", "[cft_i]/min"],
  µV: ["uV", "uV"],
  µA: ["uA", "uA"],
  Ω: ["ohm", "Ohm"],
  kΩ: ["kohm", "kOhm"],
  MΩ: ["Mohm", "MOhm"],
  mΩ: ["mohm", "mOhm"],
  µF: ["uF", "uF"],
  Ah: ["A hour", "A.h"],
  mAh: ["mA hour", "mA.h"],
  PS: [null, "75.m.kgf/s"],
  hp: ["hp", "[HP]"],
  Wh: ["W hour", "W.h"],
  kWh: ["kW hour", "kW.h"],
  "kN/mm": ["kN / mm", "kN/mm"],
  "N/m": ["N/m", "N/m"],
  "kgf/mm": ["kgf / mm", "kgf/mm"],
  "lbf/in": ["lbf / in", "[lbf_av]/[in_i]"],
  "g/cm³": ["g / cm^3", "g/cm3"],
  "kg/m³": ["kg / m^3", "kg/m3"],
  ppm: [null, "[ppm]"],
};

/** The SI value of a figure in one of our units as mathjs has it; null where it knows no such unit. */
export function mathjsSi(unit: Unit, value: number): number | null {
  return firstKnown(unit, 0, (spelling, target) => {
    const found = math.unit(value, spelling).toNumber(target);
    return typeof found === "number" ? found : null;
  });
}

/** The SI value of a figure in one of our units as the UCUM library has it; null where it knows no such unit. */
export function ucumSi(unit: Unit, value: number): number | null {
  return firstKnown(unit, 1, (spelling, target) => {
    const found = ucumUtils.convertUnitTo(spelling, value, target);
    return found.status === "succeeded" ? found.toVal : null;
  });
}

function firstKnown(
  unit: Unit,
  library: 0 | 1,
  read: (spelling: string, target: string) => number | null,
): number | null {
  const chosen = written[unit.id]?.[library] ?? null;
  for (const spelling of chosen === null ? [unit.print, ...unit.spellings] : [chosen]) {
    try {
      const found = read(spelling, coherent[unit.kind][library]);
      if (found !== null) return found;
    } catch {
      // mathjs throws for what it does not know: the next spelling.
    }
  }
  return null;
}
