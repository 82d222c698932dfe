/**
 * Heads and holes as the standards list them, by nominal diameter. Metric figures in mm, inch figures in inches.
 */

/**
 * Width across flats s of a hexagon head or nut (ISO 272:1982, ISO 4014, ISO 4017) and the least outer diameter of its bearing
 * face dw (ISO 4014; grade A to M24, grade B over it). Checked against reprints to M24 but for M7, M18 and M22; the rest from
 * memory.
 */
export const hexagonHeads: Readonly<Record<string, readonly [acrossFlats: number, bearing: number]>> = {
  "M1.6": [3.2, 2.27],
  M2: [4, 3.07],
  "M2.5": [5, 4.07],
  M3: [5.5, 4.57],
  "M3.5": [6, 5.07],
  M4: [7, 5.88],
  M5: [8, 6.88],
  M6: [10, 8.88],
  M7: [11, 9.63],
  M8: [13, 11.63],
  M10: [16, 14.63],
  M12: [18, 16.63],
  M14: [21, 19.64],
  M16: [24, 22.49],
  M18: [27, 25.34],
  M20: [30, 28.19],
  M22: [34, 31.71],
  M24: [36, 33.61],
  M27: [41, 38],
  M30: [46, 42.75],
  M33: [50, 46.55],
  M36: [55, 51.11],
  M39: [60, 55.86],
  M42: [65, 59.95],
  M45: [70, 64.7],
  M48: [75, 69.45],
  M52: [80, 74.2],
  M56: [85, 78.66],
  M60: [90, 83.41],
  M64: [95, 88.16],
};

/** Widths across flats that were usual before and are still met, by thread. */
export const olderWidths: readonly {
  readonly source: "DIN 931 and 934 before ISO 272" | "JIS B 1180, small hexagon";
  readonly across: Readonly<Record<string, number>>;
}[] = [
  // ISO 272:1982 changed these four; two encyclopaedic pages and a handbook's note agree.
  { source: "DIN 931 and 934 before ISO 272", across: { M10: 17, M12: 19, M14: 22, M22: 32 } },
  // A vehicle maker's service manual lists them as the standard before ISO.
  { source: "JIS B 1180, small hexagon", across: { M8: 12, M10: 14, M12: 17, M14: 19 } },
];

/** Least outer diameter of the bearing face of a socket head cap screw (ISO 4762), from a reprint; M18 and M22 from memory. */
export const socketHeads: Readonly<Record<string, number>> = {
  "M1.6": 2.72,
  M2: 3.48,
  "M2.5": 4.18,
  M3: 5.07,
  M4: 6.53,
  M5: 8.03,
  M6: 9.38,
  M8: 12.33,
  M10: 15.33,
  M12: 17.23,
  M14: 20.17,
  M16: 23.17,
  M18: 25.87,
  M20: 28.87,
  M22: 31.81,
  M24: 34.81,
  M30: 43.61,
  M36: 52.54,
  M42: 61.34,
  M48: 70.34,
  M56: 82.26,
  M64: 94.26,
};

/** Least outer diameter of the bearing face of a hexagon bolt with flange (DIN 6921, EN 1665), from memory. */
export const flangeHeads: Readonly<Record<string, number>> = {
  M5: 9.8,
  M6: 12.2,
  M8: 15.8,
  M10: 19.6,
  M12: 23.8,
  M14: 27.6,
  M16: 31.9,
  M20: 39.9,
};

/** Clearance holes, medium series (ISO 273), checked against a reprint to M16; the rest from memory. */
export const clearanceHoles: Readonly<Record<string, number>> = {
  "M1.6": 1.8,
  M2: 2.4,
  "M2.5": 2.9,
  M3: 3.4,
  "M3.5": 3.9,
  M4: 4.5,
  M5: 5.5,
  M6: 6.6,
  M7: 7.6,
  M8: 9,
  M10: 11,
  M12: 13.5,
  M14: 15.5,
  M16: 17.5,
  M18: 20,
  M20: 22,
  M22: 24,
  M24: 26,
  M27: 30,
  M30: 33,
  M33: 36,
  M36: 39,
  M39: 42,
  M42: 45,
  M45: 48,
  M48: 52,
  M52: 56,
  M56: 62,
  M60: 66,
  M64: 70,
};

/**
 * Inch: width across flats of hexagon bolts and cap screws (ASME B18.2.1), checked against a chart to 1 in, and clearance holes,
 * normal fit (ASME B18.2.8), from memory.
 */
export const inchHeads: Readonly<Record<string, readonly [acrossFlats: number, hole: number]>> = {
  "1/4": [7 / 16, 9 / 32],
  "5/16": [1 / 2, 11 / 32],
  "3/8": [9 / 16, 13 / 32],
  "7/16": [5 / 8, 15 / 32],
  "1/2": [3 / 4, 9 / 16],
  "9/16": [13 / 16, 5 / 8],
  "5/8": [15 / 16, 11 / 16],
  "3/4": [9 / 8, 13 / 16],
  "7/8": [21 / 16, 15 / 16],
  "1": [3 / 2, 35 / 32],
  "1-1/8": [27 / 16, 39 / 32],
  "1-1/4": [15 / 8, 43 / 32],
  "1-3/8": [33 / 16, 3 / 2],
  "1-1/2": [9 / 4, 13 / 8],
};
