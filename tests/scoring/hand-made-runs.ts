import {
  createSamples,
  type Drill,
  pathGeometry,
  SAMPLE_FIELDS,
  type Samples,
  type ScoreContext,
  scoreRun,
  TICK_HZ,
} from '../../sim-core/index.ts';

/** A run told without physics, to look at one measure at a time. Times in s, places along the line in mm. */
export interface Told {
  seconds: number;
  /** Where the torch is along the line. */
  alongMm(t: number): number;
  offsetMm?(t: number): number;
  standOffMm?(t: number): number;
  workAngleDeg?(t: number): number;
  travelAngleDeg?(t: number): number;
  sparkAngleDeg?(t: number): number;
  arcOn?(t: number): boolean;
  /** Index into ARC_STATES, where it does not follow from arcOn and the place. */
  arcState?(t: number): number;
  throughFraction?(t: number): number;
  blowbackMj?(t: number): number;
  spentLife?(t: number): number;
  penetration?(t: number): number;
  /** Which places of the plate are open when it is over. */
  isOpen?(xMm: number, yMm: number): boolean;
  /** Share of the metal gone at a place when it is over; the plate where it is whole. */
  goneAt?(xMm: number, yMm: number, depthMm: number): number;
  choices?: ScoreContext['choices'];
  diagnosis?: ScoreContext['diagnosis'];
}

export const WINDOW = { windowLowMmPerS: 10, windowHighMmPerS: 20, losingSpeedMmPerS: 24, edgeDwellS: 0.5 };

/** Waits half a second at the edge, then 15 mm/s along the whole line and 6 mm past its end: nothing to find fault with. */
export function goodRun(lengthMm: number): Told {
  const end = 0.5 + (lengthMm + 6) / 15;
  return { seconds: end + 0.5, alongMm: (t) => Math.max(0, Math.min((t - 0.5) * 15, lengthMm + 6)), arcOn: (t) => t < end };
}

export function samplesOf(drill: Drill, told: Told): Samples {
  const path = pathGeometry(drill.path);
  const samples = createSamples();
  const ticks = Math.round(told.seconds * TICK_HZ);
  for (const field of SAMPLE_FIELDS) samples.columns[field] = new Float64Array(ticks);
  samples.length = ticks;
  for (let i = 0; i < ticks; i++) {
    const t = (i + 1) / TICK_HZ;
    const place = path.pointAt(told.alongMm(t));
    const offset = told.offsetMm?.(t) ?? 0;
    // An arc needs metal: past the end it is only the pilot that burns.
    const on = told.arcOn?.(t) ?? true;
    const over = told.alongMm(t) <= path.lengthMm + 1;
    const set = (field: (typeof SAMPLE_FIELDS)[number], value: number): void => {
      samples.columns[field][i] = value;
    };
    set('xMm', place.xMm - offset * Math.sin(place.headingRad));
    set('yMm', place.yMm + offset * Math.cos(place.headingRad));
    set('standOffMm', told.standOffMm?.(t) ?? 1.5);
    set('headingRad', place.headingRad);
    set('workAngleDeg', told.workAngleDeg?.(t) ?? 0);
    set('arcState', told.arcState?.(t) ?? (on ? (over ? 3 : 2) : 0));
    set('travelAngleDeg', told.travelAngleDeg?.(t) ?? 0);
    set('throughFraction', told.throughFraction?.(t) ?? 0.3);
    set('blowbackMj', told.blowbackMj?.(t) ?? 0);
    set('spentLife', told.spentLife?.(t) ?? 0);
    set('sparkAngleDeg', told.sparkAngleDeg?.(t) ?? 20);
    set('penetration', told.penetration?.(t) ?? 1);
    set('arcVoltageV', on && over ? 110 : Number.NaN);
  }
  return samples;
}

export function scoreTold(drill: Drill, told: Told, window: ScoreContext['window'] = WINDOW) {
  return scoreRun(drill, samplesOf(drill, told), contextOf(drill, told, window));
}

export function contextOf(drill: Drill, told: Told, window: ScoreContext['window'] = WINDOW): ScoreContext {
  const layers = 16;
  return {
    window,
    metal: {
      grid: { cellMm: 0.25, layers, layerMm: drill.plate.thicknessMm / layers, x0Mm: -20, y0Mm: -20 },
      cutAt: (x, y, depth) => told.goneAt?.(x, y, depth) ?? 0,
    },
    isOpenAlongAxis: (x, y) => told.isOpen?.(x, y) ?? true,
    choices: told.choices ?? null,
    diagnosis: told.diagnosis ?? null,
  };
}
