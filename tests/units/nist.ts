/**
 * Factors as printed in NIST Special Publication 811 (2008), Guide for the Use of the International System of
 * Units, appendix B.8 "Factors for units listed alphabetically" and B.9 (the same by kind), in the seven
 * digits it prints; "Table 6" are the units accepted for use with the SI in the same guide. Checked against
 * a reprint of B.9 and other quotations of the guide; those marked "from memory" were not found in them.
 */

/** Unit id, name in the guide, factor to the coherent SI unit. */
export const nistFactors: readonly (readonly [id: string, name: string, factor: number])[] = [
  // Moment of force or torque
  ["kgf·m", "kilogram-force meter (kgf·m) to N·m", 9.80665],
  ["lb·ft", "pound-force foot (lbf·ft) to N·m", 1.355818],
  ["lb·in", "pound-force inch (lbf·in) to N·m", 1.129848e-1],
  ["oz·in", "ounce-force inch (ozf·in) to N·m", 7.061552e-3],
  // Angle
  ["°", "degree (°) to rad", 1.745329e-2],
  ["′", "minute (′) to rad", 2.908882e-4],
  ["″", "second (″) to rad (from memory)", 4.848137e-6],
  ["turn", "revolution (r) to rad", 6.283185],
  // Length
  ["in", "inch (in) to m", 2.54e-2],
  ["ft", "foot (ft) to m", 3.048e-1],
  ["thou", "mil (0.001 in) to m", 2.54e-5],
  ["µin", "microinch to m", 2.54e-8],
  ["µm", "micron (µ) to m", 1e-6],
  ["yd", "yard (yd) to m", 9.144e-1],
  ["mi", "mile (mi) to m", 1.609344e3],
  // Area (from memory)
  ["in²", "square inch (in²) to m²", 6.4516e-4],
  ["ft²", "square foot (ft²) to m²", 9.290304e-2],
  // Volume
  ["L", "liter (L) to m³", 1e-3],
  ["US gal", "gallon (U.S.) (gal) to m³", 3.785412e-3],
  ["US qt", "quart (U.S. liquid) (liq qt) to m³", 9.463529e-4],
  ["US pt", "pint (U.S. liquid) (liq pt) to m³", 4.731765e-4],
  ["US fl oz", "fluid ounce (U.S.) (fl oz) to m³", 2.957353e-5],
  ["imp gal", "gallon [Canadian and U.K. (Imperial)] (gal) to m³", 4.54609e-3],
  ["imp fl oz", "ounce [Canadian and U.K. fluid (Imperial)] (fl oz) to m³", 2.841306e-5],
  ["in³", "cubic inch (in³) to m³", 1.638706e-5],
  // Mass
  ["t", "tonne (t) to kg", 1e3],
  ["lb", "pound (avoirdupois) (lb) to kg", 4.535924e-1],
  ["oz", "ounce (avoirdupois) (oz) to kg", 2.834952e-2],
  // Force
  ["kgf", "kilogram-force (kgf) to N", 9.80665],
  ["lbf", "pound-force (lbf) to N", 4.448222],
  // Pressure
  ["bar", "bar (bar) to Pa", 1e5],
  ["atm", "atmosphere, standard (atm) to Pa", 1.01325e5],
  ["ksi", "ksi (1000 lbf/in²) to Pa", 6.894757e6],
  ["mbar", "millibar (mbar) to Pa (from memory)", 1e2],
  ["kgf/cm²", "atmosphere, technical (at), 1 kgf/cm², to Pa", 9.80665e4],
  ["mmHg", "millimeter of mercury, conventional (mmHg) to Pa", 1.333224e2],
  ["mmH2O", "millimeter of water, conventional (mmH2O) to Pa", 9.80665],
  ["psi", "psi (pound-force per square inch) to Pa", 6.894757e3],
  ["inHg", "inch of mercury, conventional (inHg) to Pa", 3.386389e3],
  ["inH2O", "inch of water, conventional (inH2O) to Pa", 2.490889e2],
  // Temperature interval (from memory)
  ["°C difference", "degree Celsius (°C) to kelvin, interval", 1],
  ["°F difference", "degree Fahrenheit (°F) to kelvin, interval", 5.555556e-1],
  // Time
  ["min", "minute (min) to s", 60],
  ["h", "hour (h) to s", 3.6e3],
  ["day", "day (d) to s", 8.64e4],
  // Velocity (from memory)
  ["km/h", "kilometer per hour (km/h) to m/s", 2.777778e-1],
  ["mph", "mile per hour (mi/h) to m/s", 4.4704e-1],
  ["ft/s", "foot per second (ft/s) to m/s", 3.048e-1],
  ["ft/min", "foot per minute (ft/min) to m/s", 5.08e-3],
  ["in/s", "inch per second (in/s) to m/s", 2.54e-2],
  ["rpm", "revolution per minute (rpm) (r/min) to rad/s", 1.047198e-1],
  // Volume divided by time (from memory)
  ["US gal/min", "gallon (U.S.) per minute (gpm) to m³/s", 6.30902e-5],
  ["ft³/min", "cubic foot per minute (ft³/min) to m³/s", 4.719474e-4],
  // Electricity (from memory)
  ["Ah", "ampere hour (A·h) to C", 3.6e3],
  // Power
  ["hp", "horsepower (550 ft·lbf/s) to W", 7.456999e2],
  ["PS", "horsepower (metric) to W", 7.354988e2],
  // Energy (from memory)
  ["Wh", "watt hour (W·h) to J", 3.6e3],
  ["kWh", "kilowatt hour (kW·h) to J", 3.6e6],
  // Force divided by length
  ["lbf/in", "pound-force per inch (lbf/in) to N/m", 1.751268e2],
  // Density (from memory)
  ["g/cm³", "gram per cubic centimeter (g/cm³) to kg/m³", 1e3],
];

/** NIST SP 811, B.9, temperature: t/°C = (t/°F − 32)/1.8 and T/K = t/°C + 273.15. */
export const fahrenheitToCelsius = (degrees: number): number => (degrees - 32) / 1.8;
export const celsiusToKelvin = (degrees: number): number => degrees + 273.15;
