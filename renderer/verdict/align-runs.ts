import { ARC_STATES, type Drill, pathGeometry, readTrace, type StoredTrace, TICK_HZ } from '../../sim-core/index.ts';

/** What two runs are laid over each other by. */
export type Alignment = 'place' | 'time';

/**
 * One run read along an axis. `at` grows from row to row of the trace: mm along the line, or seconds after the arc reached the
 * metal. Rows before the arc are left out by place, and have negative seconds by time.
 */
export interface AxisRun {
  at: Float64Array;
  /** Row of the trace behind each entry of `at`. */
  rows: Int32Array;
}

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** How far the next place may lie from the last, mm: more is another part of a line that passes close by itself. */
const REACH_MM = 15;

/** Columns of a kept trace and what is needed to place them. */
export interface TracedRun {
  hz: number;
  columns: Record<string, Float32Array>;
}

export function tracedRun(trace: StoredTrace): TracedRun {
  return { hz: trace.hz, columns: readTrace(trace) };
}

/** First row in which the arc is on the metal; -1 where it never was. */
function firstArcRow({ columns }: TracedRun): number {
  return columns.arcState?.indexOf(TRANSFERRED) ?? -1;
}

/** Seconds after the arc, every row. */
export function alongTime(run: TracedRun): AxisRun {
  const length = run.columns.xMm?.length ?? 0;
  const arc = Math.max(0, firstArcRow(run));
  return {
    at: Float64Array.from({ length }, (_, row) => (row - arc) / run.hz),
    rows: Int32Array.from({ length }, (_, row) => row),
  };
}

/**
 * Millimetres along the drill's line: of each row the foot of the torch on the line, kept only where it has come farther than
 * ever before, so that a hand that went back is read where it came on again.
 */
export function alongPlace(run: TracedRun, drill: Drill): AxisRun {
  const path = pathGeometry(drill.path);
  const { xMm, yMm, arcState } = run.columns;
  const at: number[] = [];
  const rows: number[] = [];
  let farthest = Number.NEGATIVE_INFINITY;
  let near = 0;
  for (let row = Math.max(0, firstArcRow(run)); row < (xMm?.length ?? 0); row++) {
    const foot = path.nearest(xMm?.[row] as number, yMm?.[row] as number, near, REACH_MM);
    // The hand is followed while the arc is out, too: it may be struck again farther on.
    near = foot.sMm;
    if (arcState?.[row] !== TRANSFERRED) continue;
    const place = foot.sMm + foot.beyondMm;
    if (!(place > farthest)) continue;
    farthest = place;
    at.push(place);
    rows.push(row);
  }
  return { at: Float64Array.from(at), rows: Int32Array.from(rows) };
}

/** Row of the trace at a point of the axis; null where the run was never there. */
export function rowAt({ at, rows }: AxisRun, wanted: number): number | null {
  const length = at.length;
  if (length === 0 || wanted < (at[0] as number) - 1e-9 || wanted > (at[length - 1] as number) + 1e-9) return null;
  let low = 0;
  let high = length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((at[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  if (low > 0 && wanted - (at[low - 1] as number) < (at[low] as number) - wanted) low -= 1;
  return rows[low] as number;
}

/** Moment of a replay that a row of the trace stands for, in ticks. */
export function tickOfRow(row: number, hz: number): number {
  return Math.round(((row + 1) * TICK_HZ) / hz);
}

/** Points of the axis on which both runs are drawn: from the first to the last that either has, evenly. */
export function commonAxis(runs: readonly AxisRun[], step: number): Float64Array {
  const ends = runs.filter(({ at }) => at.length > 0);
  if (ends.length === 0) return new Float64Array(0);
  const from = Math.floor(Math.min(...ends.map(({ at }) => at[0] as number)) / step);
  const to = Math.ceil(Math.max(...ends.map(({ at }) => at[at.length - 1] as number)) / step);
  return Float64Array.from({ length: to - from + 1 }, (_, n) => (from + n) * step);
}

/** A figure of a run on the common axis; null where the run was never there, or has no figure. */
export function onAxis(axis: Float64Array, along: AxisRun, values: Float32Array, factor: number): (number | null)[] {
  return Array.from(axis, (point) => {
    const row = rowAt(along, point);
    const value = row === null ? Number.NaN : (values[row] as number);
    return Number.isFinite(value) ? value * factor : null;
  });
}
