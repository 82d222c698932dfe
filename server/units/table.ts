/**
 * Every unit the language knows, with its factor to SI and where the factor comes from. The first of a kind
 * is the one most used: it wins where a misspelling is as near to two.
 *
 * Factors are worked out from the exact definitions (inch, avoirdupois pound, standard gravity, US and
 * imperial gallon; NIST SP 811, appendix B.8 and footnotes), not copied as rounded decimals.
 */

import type { Kind } from "./dimension";
import { eitherOrder, product } from "./spelling";
import type { System, Unit } from "./unit";

type Row = readonly [
  print: string,
  factor: number,
  source: string,
  spellings?: readonly string[],
  more?: Partial<Pick<Unit, "id" | "plural" | "tight" | "offset">>,
];

const inch = 0.0254;
const foot = 12 * inch;
const pound = 0.45359237;
const gravity = 9.80665;
const poundForce = pound * gravity;
const usGallon = 231 * inch ** 3;
const imperialGallon = 4.54609e-3;
const mmHg = 133.322387415;
const rpm = (2 * Math.PI) / 60;

const si = "exact: SI";
const withSi = "exact: accepted for use with the SI (NIST SP 811, table 6)";
const b8 = (name: string) => `NIST SP 811, B.8: ${name}`;
const exact = (text: string) => `exact by definition: ${text}`;

const lb = ["lbf", "lb", "lbs"];

function units(kind: Kind, system: System, rows: readonly Row[]): Unit[] {
  return rows.map(([print, factor, source, spellings = [], more = {}]) => ({
    id: print,
    print,
    tight: false,
    kind,
    system,
    factor,
    offset: 0,
    source,
    spellings,
    ...more,
  }));
}

/** All units, in the order of their kinds. */
export const allUnits: readonly Unit[] = [
  ...units("torque", "metric", [
    ["N·m", 1, si, product(["N"], ["m"])],
    ["kN·m", 1e3, si, product(["kN"], ["m"])],
    ["daN·m", 10, si, product(["daN"], ["m"])],
    ["N·cm", 1e-2, si, product(["N"], ["cm"])],
    ["cN·m", 1e-2, si, product(["cN"], ["m"])],
    ["mN·m", 1e-3, si, product(["mN"], ["m"])],
    [
      "kgf·m",
      gravity,
      b8("kilogram-force meter"),
      [...product(["kgf", "kp", "kg"], ["m"]), "m·kg", "mkg", "mkp"],
    ],
    ["kgf·cm", gravity / 100, b8("kilogram-force meter, a hundredth"), product(["kgf", "kp", "kg"], ["cm"])],
  ]),
  ...units("torque", "imperial", [
    ["lb·ft", poundForce * foot, b8("pound-force foot"), eitherOrder(lb, ["ft"])],
    ["lb·in", poundForce * inch, b8("pound-force inch"), eitherOrder(lb, ["in"])],
    ["oz·in", (poundForce / 16) * inch, b8("ounce-force inch"), eitherOrder(["ozf", "oz"], ["in"])],
  ]),
  ...units("angle", "neutral", [
    ["°", Math.PI / 180, withSi, ["deg", "degree", "degrees"], { tight: true }],
    ["turn", 2 * Math.PI, b8("revolution"), ["rev", "revs"], { plural: "turns" }],
    ["′", Math.PI / 10800, withSi, ["arcmin"], { tight: true }],
    ["″", Math.PI / 648000, withSi, ["arcsec"], { tight: true }],
    ["rad", 1, si],
  ]),
  ...units("length", "metric", [
    ["mm", 1e-3, si],
    ["m", 1, si],
    ["cm", 1e-2, si],
    ["µm", 1e-6, si, ["um", "micron", "microns"]],
    ["km", 1e3, si],
    ["dm", 1e-1, si],
  ]),
  ...units("length", "imperial", [
    ["in", inch, exact("25.4 mm"), ["inch", "inches", "″"]],
    ["ft", foot, exact("12 in"), ["foot", "feet", "′"]],
    ["thou", inch / 1000, b8("mil"), ["mil", "mils"]],
    ["µin", inch * 1e-6, b8("microinch"), ["uin"]],
    ["yd", 3 * foot, exact("3 ft"), ["yard", "yards"]],
    ["mi", 5280 * foot, exact("5280 ft"), ["mile", "miles"]],
  ]),
  ...units("area", "metric", [
    ["mm²", 1e-6, si],
    ["cm²", 1e-4, si],
    ["m²", 1, si],
  ]),
  ...units("area", "imperial", [
    ["in²", inch ** 2, b8("square inch"), ["sq in"]],
    ["ft²", foot ** 2, b8("square foot"), ["sq ft"]],
  ]),
  ...units("volume", "metric", [
    ["L", 1e-3, withSi, ["l", "ℓ", "litre", "litres", "dm³"]],
    ["mL", 1e-6, withSi, ["ml"]],
    ["cL", 1e-5, withSi, ["cl"]],
    ["cm³", 1e-6, si, ["cc", "ccm"]],
    ["mm³", 1e-9, si],
    ["m³", 1, si],
  ]),
  ...units("volume", "imperial", [
    ["US gal", usGallon, b8("gallon (U.S.)"), ["gal", "gallon", "gallons", "US gallon", "US gallons"]],
    ["US qt", usGallon / 4, b8("quart (U.S. liquid)"), ["qt", "quart", "quarts"]],
    ["US pt", usGallon / 8, b8("pint (U.S. liquid)"), ["pt", "pint", "pints"]],
    ["US fl oz", usGallon / 128, b8("fluid ounce (U.S.)"), ["fl oz", "fl·oz", "floz"]],
    ["imp gal", imperialGallon, b8("gallon [Canadian and U.K. (Imperial)]"), ["UK gal"]],
    ["imp qt", imperialGallon / 4, exact("a quarter of an imperial gallon"), ["UK qt"]],
    ["imp pt", imperialGallon / 8, exact("an eighth of an imperial gallon"), ["UK pt"]],
    ["imp fl oz", imperialGallon / 160, b8("ounce [Canadian and U.K. fluid (Imperial)]"), ["UK fl oz"]],
    ["in³", inch ** 3, b8("cubic inch"), ["cu in"]],
  ]),
  ...units("mass", "metric", [
    ["kg", 1, si, ["kgs"]],
    ["g", 1e-3, si],
    ["mg", 1e-6, si],
    ["t", 1e3, withSi, ["tonne", "tonnes"]],
  ]),
  ...units("mass", "imperial", [
    ["lb", pound, exact("0.453 592 37 kg"), ["lbs"]],
    ["oz", pound / 16, exact("a sixteenth of a pound")],
  ]),
  ...units("force", "metric", [
    ["N", 1, si],
    ["kN", 1e3, si],
    ["daN", 10, si],
    ["kgf", gravity, b8("kilogram-force"), ["kp"]],
  ]),
  ...units("force", "imperial", [["lbf", poundForce, b8("pound-force")]]),
  ...units("pressure", "metric", [
    ["bar", 1e5, b8("bar")],
    ["kPa", 1e3, si],
    ["MPa", 1e6, si, ["N/mm²"]],
    ["Pa", 1, si],
    ["hPa", 100, si],
    ["mbar", 100, b8("millibar")],
    ["atm", 101325, b8("atmosphere, standard")],
    ["kgf/cm²", gravity * 1e4, b8("kilogram-force per square centimeter"), ["kg/cm²", "kp/cm²"]],
    ["mmHg", mmHg, b8("millimeter of mercury, conventional"), ["mm Hg"]],
    ["mmH2O", gravity, b8("millimeter of water, conventional"), ["mm H2O"]],
  ]),
  ...units("pressure", "imperial", [
    ["psi", poundForce / inch ** 2, b8("psi"), ["PSI", "lbf/in²", "lb/in²"]],
    ["ksi", (1000 * poundForce) / inch ** 2, b8("ksi")],
    ["inHg", mmHg * 25.4, b8("inch of mercury, conventional"), ["in Hg"]],
    ["inH2O", gravity * 25.4, b8("inch of water, conventional"), ["in H2O"]],
  ]),
  ...units("temperature", "metric", [
    ["°C", 1, "exact: T/K = t/°C + 273.15 (NIST SP 811, B.9)", ["degC", "deg C"], { offset: 273.15 }],
  ]),
  ...units("temperature", "imperial", [
    ["°F", 5 / 9, b8("degree Fahrenheit"), ["degF", "deg F"], { offset: 273.15 - (32 * 5) / 9 }],
  ]),
  ...units("temperature", "neutral", [["K", 1, si, ["kelvin"]]]),
  ...units("temperature-difference", "metric", [
    ["°C", 1, b8("temperature interval, degree Celsius"), ["degC", "deg C"], { id: "°C difference" }],
  ]),
  ...units("temperature-difference", "imperial", [
    ["°F", 5 / 9, b8("temperature interval, degree Fahrenheit"), ["degF", "deg F"], { id: "°F difference" }],
  ]),
  ...units("temperature-difference", "neutral", [["K", 1, si, ["kelvin"], { id: "K difference" }]]),
  ...units("time", "neutral", [
    ["min", 60, withSi, ["mins", "minute", "minutes"]],
    ["h", 3600, withSi, ["hr", "hrs", "hour", "hours"]],
    ["s", 1, si, ["sec", "secs", "second", "seconds"]],
    ["ms", 1e-3, si],
    ["day", 86400, withSi, ["d"], { plural: "days" }],
    ["week", 7 * 86400, exact("7 days"), ["wk"], { plural: "weeks" }],
  ]),
  ...units("speed", "metric", [
    ["km/h", 1 / 3.6, b8("kilometer per hour"), ["kmh", "kph"]],
    ["m/s", 1, si],
    ["mm/s", 1e-3, si],
    ["m/min", 1 / 60, withSi],
  ]),
  ...units("speed", "imperial", [
    ["mph", (5280 * foot) / 3600, b8("mile per hour"), ["mi/h"]],
    ["ft/s", foot, b8("foot per second")],
    ["ft/min", foot / 60, b8("foot per minute")],
    ["in/s", inch, b8("inch per second")],
  ]),
  ...units("rotation-speed", "neutral", [
    ["rpm", rpm, b8("revolution per minute"), ["RPM", "r/min", "rev/min"]],
    ["1/min", rpm, b8("revolution per minute"), ["min⁻¹", "/min"]],
  ]),
  ...units("frequency", "neutral", [
    ["Hz", 1, si],
    ["kHz", 1e3, si],
    ["MHz", 1e6, si],
  ]),
  ...units("flow", "metric", [
    ["L/min", 1e-3 / 60, withSi, ["l/min"]],
    ["L/h", 1e-3 / 3600, withSi, ["l/h"]],
    ["L/s", 1e-3, withSi, ["l/s"]],
    ["mL/min", 1e-6 / 60, withSi, ["ml/min", "cm³/min", "cc/min"]],
    ["m³/h", 1 / 3600, withSi],
  ]),
  ...units("flow", "imperial", [
    ["US gal/min", usGallon / 60, b8("gallon (U.S.) per minute"), ["gal/min", "gpm"]],
    ["ft³/min", foot ** 3 / 60, b8("cubic foot per minute"), ["cfm"]],
  ]),
  ...units("voltage", "neutral", [
    ["V", 1, si, ["volt", "volts"]],
    ["mV", 1e-3, si],
    ["kV", 1e3, si],
    ["µV", 1e-6, si, ["uV"]],
  ]),
  ...units("current", "neutral", [
    ["A", 1, si, ["amp", "amps"]],
    ["mA", 1e-3, si],
    ["µA", 1e-6, si, ["uA"]],
  ]),
  ...units("resistance", "neutral", [
    ["Ω", 1, si, ["ohm", "ohms"]],
    ["kΩ", 1e3, si, ["kohm", "kOhm"]],
    ["MΩ", 1e6, si, ["Mohm", "MOhm"]],
    ["mΩ", 1e-3, si, ["mohm", "mOhm"]],
  ]),
  ...units("capacitance", "neutral", [
    ["µF", 1e-6, si, ["uF"]],
    ["nF", 1e-9, si],
    ["pF", 1e-12, si],
  ]),
  ...units("charge", "neutral", [
    ["Ah", 3600, b8("ampere hour"), ["A·h"]],
    ["mAh", 3.6, b8("ampere hour, a thousandth"), ["mA·h"]],
  ]),
  ...units("power", "metric", [
    ["kW", 1e3, si],
    ["W", 1, si, ["watt", "watts"]],
    ["PS", 75 * gravity, b8("horsepower (metric)"), ["CV"]],
  ]),
  ...units("power", "imperial", [
    ["hp", 550 * foot * poundForce, b8("horsepower (550 ft·lbf/s)"), ["HP", "bhp"]],
  ]),
  ...units("energy", "neutral", [
    ["J", 1, si],
    ["kJ", 1e3, si],
    ["MJ", 1e6, si],
    ["Wh", 3600, b8("watt hour"), ["W·h"]],
    ["kWh", 3.6e6, b8("kilowatt hour"), ["kW·h"]],
  ]),
  ...units("spring-rate", "metric", [
    ["N/mm", 1e3, si],
    ["kN/mm", 1e6, si],
    ["N/m", 1, si],
    ["kgf/mm", gravity * 1e3, exact("9806.65 N/m"), ["kg/mm"]],
  ]),
  ...units("spring-rate", "imperial", [
    ["lbf/in", poundForce / inch, b8("pound-force per inch"), ["lb/in", "lbs/in"]],
  ]),
  ...units("density", "neutral", [
    ["kg/L", 1e3, withSi, ["kg/l", "kg/dm³"]],
    ["g/cm³", 1e3, b8("gram per cubic centimeter"), ["g/mL", "g/ml"]],
    ["kg/m³", 1, si],
  ]),
  ...units("percentage", "neutral", [
    ["%", 1e-2, exact("a hundredth"), ["percent"]],
    ["ppm", 1e-6, exact("a millionth")],
  ]),
];
