/**
 * The sizes of screw threads as the standards list them: which diameter is made with which pitch.
 */

/**
 * Metric: diameter in mm, coarse pitch in mm (null where there is none), fine pitches. ISO 261, table 2, M1.6 to M64;
 * ISO 262 selects the ones for bolts out of these. The coarse pitches and those of ISO 262 were checked against
 * two reprints; the other fine pitches are from memory.
 */
export const metricSizes: readonly (readonly [number, number | null, readonly number[]])[] = [
  [1.6, 0.35, [0.2]],
  [2, 0.4, [0.25]],
  [2.5, 0.45, [0.35]],
  [3, 0.5, [0.35]],
  [3.5, 0.6, [0.35]],
  [4, 0.7, [0.5]],
  [4.5, 0.75, [0.5]],
  [5, 0.8, [0.5]],
  [5.5, null, [0.5]],
  [6, 1, [0.75]],
  [7, 1, [0.75]],
  [8, 1.25, [1, 0.75]],
  [9, 1.25, [1, 0.75]],
  [10, 1.5, [1.25, 1, 0.75]],
  [11, 1.5, [1, 0.75]],
  [12, 1.75, [1.5, 1.25, 1]],
  [14, 2, [1.5, 1.25, 1]],
  [15, null, [1.5, 1]],
  [16, 2, [1.5, 1]],
  [17, null, [1.5, 1]],
  [18, 2.5, [2, 1.5, 1]],
  [20, 2.5, [2, 1.5, 1]],
  [22, 2.5, [2, 1.5, 1]],
  [24, 3, [2, 1.5, 1]],
  [25, null, [2, 1.5, 1]],
  [26, null, [1.5]],
  [27, 3, [2, 1.5, 1]],
  [28, null, [2, 1.5, 1]],
  [30, 3.5, [3, 2, 1.5, 1]],
  [32, null, [2, 1.5]],
  [33, 3.5, [3, 2, 1.5]],
  [35, null, [1.5]],
  [36, 4, [3, 2, 1.5]],
  [38, null, [1.5]],
  [39, 4, [3, 2, 1.5]],
  [40, null, [3, 2, 1.5]],
  [42, 4.5, [4, 3, 2, 1.5]],
  [45, 4.5, [4, 3, 2, 1.5]],
  [48, 5, [4, 3, 2, 1.5]],
  [50, null, [3, 2, 1.5]],
  [52, 5, [4, 3, 2, 1.5]],
  [55, null, [4, 3, 2, 1.5]],
  [56, 5.5, [4, 3, 2, 1.5]],
  [58, null, [4, 3, 2, 1.5]],
  [60, 5.5, [4, 3, 2, 1.5]],
  [62, null, [4, 3, 2, 1.5]],
  [64, 6, [4, 3, 2, 1.5]],
];

/**
 * Unified: size as written, diameter in inches, threads an inch of the coarse series UNC (null where there is none)
 * and the fine series UNF.
 * ASME B1.1, checked against a textbook's table compiled from it (ANSI B1.1-1974).
 */
export const unifiedSizes: readonly (readonly [string, number, number | null, number])[] = [
  ["#0", 0.06, null, 80],
  ["#1", 0.073, 64, 72],
  ["#2", 0.086, 56, 64],
  ["#3", 0.099, 48, 56],
  ["#4", 0.112, 40, 48],
  ["#5", 0.125, 40, 44],
  ["#6", 0.138, 32, 40],
  ["#8", 0.164, 32, 36],
  ["#10", 0.19, 24, 32],
  ["#12", 0.216, 24, 28],
  ["1/4", 1 / 4, 20, 28],
  ["5/16", 5 / 16, 18, 24],
  ["3/8", 3 / 8, 16, 24],
  ["7/16", 7 / 16, 14, 20],
  ["1/2", 1 / 2, 13, 20],
  ["9/16", 9 / 16, 12, 18],
  ["5/8", 5 / 8, 11, 18],
  ["3/4", 3 / 4, 10, 16],
  ["7/8", 7 / 8, 9, 14],
  ["1", 1, 8, 12],
  ["1-1/8", 9 / 8, 7, 12],
  ["1-1/4", 5 / 4, 7, 12],
  ["1-3/8", 11 / 8, 6, 12],
  ["1-1/2", 3 / 2, 6, 12],
];
