import { edgeReliefMm, rz5LimitUm, uLimitMm } from '../../sim-core/quality/iso-9013.ts';
import type { PublishedCheck } from './published-check.ts';

/** Cut thickness, mm; limits of u, mm, ranges 1 to 5; limits of Rz5, micrometres, ranges 1 to 4. */
export const ISO_9013_TABLE: [number, number[], number[]][] = [
  [3, [0.059, 0.171, 0.43, 0.86, 1.305], [11.8, 42.4, 73.6, 115.4]],
  [6, [0.068, 0.192, 0.46, 0.92, 1.41], [13.6, 44.8, 77.2, 120.8]],
  [10, [0.08, 0.22, 0.5, 1.0, 1.55], [16, 48, 82, 128]],
  [12, [0.086, 0.234, 0.52, 1.04, 1.62], [17.2, 49.6, 84.4, 131.6]],
  [20, [0.11, 0.29, 0.6, 1.2, 1.9], [22, 56, 94, 146]],
  [25, [0.125, 0.325, 0.65, 1.3, 2.075], [25, 60, 100, 155]],
];

/** Cut thickness and what is left off at the top and at the bottom of a face, mm (from memory of the standard). */
const RELIEF: [number, number][] = [
  [1, 0.1],
  [3, 0.3],
  [3.01, 0.3],
  [6, 0.3],
  [6.01, 0.6],
  [10, 0.6],
  [10.01, 1],
  [20, 1],
  [20.01, 1.5],
  [40, 1.5],
  [41, 2],
];

const SOURCE = 'ISO 9013:2017, tables 4 and 5 (formulas read in a secondary source, and from memory)';
const ROUNDING = 0.5e-10;

/** S6: ranges of the perpendicularity tolerance u and of the mean profile height Rz5. */
export const ISO_9013_CHECKS: PublishedCheck[] = [
  ...ISO_9013_TABLE.flatMap(([a, u, rz5]) => [
    ...u.map((published, n) => ({
      ...{ about: `S6 limit of u, range ${n + 1}, at ${a} mm`, source: SOURCE, unit: 'mm', published, tolerance: ROUNDING },
      ours: () => uLimitMm(n + 1, a),
    })),
    ...rz5.map((published, n) => ({
      ...{ about: `S6 limit of Rz5, range ${n + 1}, at ${a} mm`, source: SOURCE, unit: 'um', published, tolerance: ROUNDING },
      ours: () => rz5LimitUm(n + 1, a),
    })),
  ]),
  ...RELIEF.map(([a, published]) => ({
    ...{ about: `S6 left off at the edges of a face of ${a} mm`, source: 'ISO 9013:2017 (from memory)', unit: 'mm', published },
    ...{ tolerance: ROUNDING, ours: () => edgeReliefMm(a) },
  })),
];
