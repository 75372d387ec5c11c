import { peakDistanceMm } from '../../sim-core/quality/heat-affected.ts';
import type { PublishedCheck } from './published-check.ts';

/** The plate of the worked example. */
export const HANDBOOK = { thicknessMm: 5, heatCapacityJPerMm3K: 0.0044, meltingC: 1510, startC: 25 };
const HEAT_J_PER_MM = 720;
const SOURCE =
  'AWS Welding Handbook vol. 1, 8th ed., ch. 3, after C. M. Adams, Welding Journal 37 (1958) 210s (figures from memory, computed again)';

/** Start and peak, degC, and distance from the edge of melting, mm. */
const EXAMPLE = [
  [25, 1184.16, 1.5],
  [25, 975.58, 3],
  [25, 730, 5.904],
  [25, 430, 14.23],
  [200, 430, 28.404],
] as const;

/** The heat-affected width; the handbook rounds sqrt(2 pi e) to 4.13, which is worth less than a thousandth. */
export const PEAK_TEMPERATURE_CHECKS: PublishedCheck[] = EXAMPLE.map(([startC, peakC, published]) => ({
  ...{ about: `heat-affected width: from ${startC} degC, a peak of ${peakC} degC`, source: SOURCE, unit: 'mm', published },
  ...{ tolerance: 0.001 * published, ours: () => peakDistanceMm({ ...HANDBOOK, startC }, HEAT_J_PER_MM, peakC) },
}));
