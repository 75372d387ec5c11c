import { ARC_STATES, type DROSS_KINDS, dragFromSparkMm, estimateDross, TICK_HZ } from '../../sim-core/index.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** One place of the trail in each stretch of this length, mm. */
export const TRAIL_STEP_MM = 0.5;
/** A jump longer than this is a new cut, not a stretch of one, mm. */
const BREAK_MM = 4;
/** Slower than this metal is thrown at a place, not along a way, mm/s. */
const LEAST_SPEED = 0.5;

/** What of a sample the trail is made of; see the core's `Sample`. */
export interface TrailSample {
  xMm: number;
  yMm: number;
  headingRad: number;
  speedMmPerS: number;
  arcState: number;
  travelAngleDeg: number;
  sparkAngleDeg: number;
  throughFraction: number;
  underMm3PerS: number;
  topMm3PerS: number;
}

/** A place where metal was cut. */
export interface TrailPlace {
  tick: number;
  xMm: number;
  yMm: number;
  headingRad: number;
  /** Way along the cut, mm. */
  sMm: number;
  /** How far the bottom of the front lagged its top, mm. */
  dragMm: number;
  drossKind: (typeof DROSS_KINDS)[number];
  drossMm: number;
}

/** Where the arc has been and how the front stood there, by the core's own estimates of drag and dross from what it measured. */
export interface CutTrail {
  readonly places: readonly TrailPlace[];
  take(tick: number, sample: Readonly<TrailSample>): void;
}

export function createCutTrail(thicknessMm: number): CutTrail {
  const places: TrailPlace[] = [];
  return {
    places,
    take(tick, sample) {
      const { xMm, yMm, headingRad, speedMmPerS } = sample;
      if (sample.arcState !== TRANSFERRED || !(speedMmPerS > LEAST_SPEED) || !Number.isFinite(headingRad)) return;
      const last = places.at(-1);
      const gone = last ? Math.hypot(xMm - last.xMm, yMm - last.yMm) : BREAK_MM;
      if (gone < TRAIL_STEP_MM) return;
      const dross = estimateDross({
        sparkAngleDeg: sample.sparkAngleDeg,
        throughFraction: sample.throughFraction,
        underMm2: sample.underMm3PerS / speedMmPerS,
        topMm2: sample.topMm3PerS / speedMmPerS,
      });
      const leanTan = Math.tan((sample.travelAngleDeg * Math.PI) / 180);
      const drag = dragFromSparkMm(sample.sparkAngleDeg, Number.isFinite(leanTan) ? leanTan : 0, thicknessMm);
      places.push({
        tick,
        xMm,
        yMm,
        headingRad,
        sMm: (last?.sMm ?? 0) + gone,
        dragMm: Number.isFinite(drag) ? drag : (last?.dragMm ?? 0),
        drossKind: dross.kind,
        drossMm: dross.mm,
      });
    },
  };
}

/** The whole trail of a run that is recorded: its trace holds a sample every so many ticks. */
export function trailOfTrace(columns: Record<string, Float32Array>, hz: number, thicknessMm: number): CutTrail {
  const trail = createCutTrail(thicknessMm);
  const at = (name: keyof TrailSample, row: number) => columns[name]?.[row] ?? Number.NaN;
  const rows = columns.xMm?.length ?? 0;
  for (let row = 0; row < rows; row += 1) {
    trail.take(((row + 1) * TICK_HZ) / hz, {
      xMm: at('xMm', row),
      yMm: at('yMm', row),
      headingRad: at('headingRad', row),
      speedMmPerS: at('speedMmPerS', row),
      arcState: at('arcState', row),
      travelAngleDeg: at('travelAngleDeg', row),
      sparkAngleDeg: at('sparkAngleDeg', row),
      throughFraction: at('throughFraction', row),
      underMm3PerS: at('underMm3PerS', row),
      topMm3PerS: at('topMm3PerS', row),
    });
  }
  return trail;
}
