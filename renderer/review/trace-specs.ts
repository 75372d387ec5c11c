import type { Drill, SampleField, Score } from '../../sim-core/index.ts';
import type { QuantityUnit } from '../ui/units.ts';

export type TraceName = 'speed' | 'spark' | 'stand-off' | 'travel' | 'work' | 'voltage';

/** One drawn trace: which figure, its unit, its band, and the range its axis shows at least. */
export interface TraceSpec {
  name: TraceName;
  field: SampleField;
  unit: QuantityUnit;
  band: { low: number | null; high: number | null } | null;
  span: [number, number];
}

/** An axis that shows a band, upright, and some room beside both. */
function around(band: { low: number; high: number }, roomDeg: number): [number, number] {
  return [Math.min(-roomDeg, band.low - roomDeg), Math.max(roomDeg, band.high + roomDeg)];
}

/** The six traces of a run, with the bands of its drill and, for the speed, of its score. */
export function traceSpecs(drill: Drill, score: Score | null): TraceSpec[] {
  const { sparkAngleDeg, standOffMm, leanDeg } = drill.tolerances;
  const speed = score?.measures.find((measure) => measure.id === 'travel-speed')?.band ?? null;
  const { bevelDeg, travelAngleDeg } = drill.intended;
  const travel = travelAngleDeg ?? { low: -leanDeg, high: leanDeg };
  const work = { low: bevelDeg - leanDeg, high: bevelDeg + leanDeg };
  return [
    { name: 'speed', field: 'speedMmPerS', unit: 'mm/s', band: speed, span: [0, (speed?.high ?? 20) * 1.5] },
    { name: 'spark', field: 'sparkAngleDeg', unit: 'deg', band: sparkAngleDeg, span: [0, sparkAngleDeg.high * 1.6] },
    { name: 'stand-off', field: 'standOffMm', unit: 'mm', band: standOffMm, span: [0, standOffMm.high * 2] },
    { name: 'travel', field: 'travelAngleDeg', unit: 'deg', band: travel, span: around(travel, leanDeg) },
    { name: 'work', field: 'workAngleDeg', unit: 'deg', band: work, span: around(work, leanDeg) },
    { name: 'voltage', field: 'arcVoltageV', unit: 'V', band: null, span: [80, 180] },
  ];
}
