import type { Station } from '../scene/cameras.ts';

/** Where somebody at the bench can look from without leaving it. */
export const BENCH_STATIONS = ['operator', 'shoulder', 'beside'] as const satisfies readonly Station[];
export type BenchStation = (typeof BENCH_STATIONS)[number];

/** What keys and buttons can do with the head: go to the next place to look from, or shift it where it is. */
export const HEAD_MOVES = ['head-left', 'head-right', 'head-up', 'head-down'] as const;
export const EYE_MOVES = ['view', ...HEAD_MOVES] as const;
export type EyeMove = (typeof EYE_MOVES)[number];

/** A place to look from, and how far the head is shifted from it: to its right and up, mm. */
export interface EyePlace {
  station: BenchStation;
  rightMm: number;
  upMm: number;
}

export const FIRST_EYE: EyePlace = { station: 'operator', rightMm: 0, upMm: 0 };

/** So far goes a head while the feet stay: an estimate, no source. */
const REACH_MM = { right: 150, up: 90 };

const within = (value: number, most: number) => Math.min(most, Math.max(-most, value));

export function isEyeMove(action: string): action is EyeMove {
  return (EYE_MOVES as readonly string[]).includes(action);
}

/** The place after a move; another place to look from begins with the head straight. */
export function movedEye({ station, rightMm, upMm }: EyePlace, move: EyeMove, byMm: number): EyePlace {
  if (move === 'view') {
    const next = BENCH_STATIONS[(BENCH_STATIONS.indexOf(station) + 1) % BENCH_STATIONS.length] as BenchStation;
    return { ...FIRST_EYE, station: next };
  }
  const right = move === 'head-right' ? byMm : move === 'head-left' ? -byMm : 0;
  const up = move === 'head-up' ? byMm : move === 'head-down' ? -byMm : 0;
  return { station, rightMm: within(rightMm + right, REACH_MM.right), upMm: within(upMm + up, REACH_MM.up) };
}
