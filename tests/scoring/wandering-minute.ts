import { shippedDrill } from '../scenarios/drill-files.ts';
import { goodRun, type Told } from './hand-made-runs.ts';

export const CURVED_DRILL = shippedDrill('keel-saddle-curve-6');

const LENGTH_MM = (75 * Math.PI) / 2;

/** A minute along a curve, arc on, never quite on the line nor upright: every measure has work to do. */
export const WANDERING_MINUTE: Told = {
  ...goodRun(LENGTH_MM),
  seconds: 60,
  alongMm: (t) => Math.max(0, (t - 1) * 2.1),
  offsetMm: (t) => 2 * Math.sin(t),
  workAngleDeg: (t) => 10 * Math.sin(2 * t),
  arcOn: () => true,
};
