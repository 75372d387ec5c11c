import { SAMPLE_FIELDS, type Samples, TICK_HZ } from '../../sim-core/index.ts';
import type { TraceColumns } from './worker-messages.ts';

/** Samples kept a second with a stored run: enough to draw, and to show a run that this core can no longer rebuild. */
export const TRACE_HZ = 30;

/** Every eighth sample of each figure. */
export function traceOf(samples: Samples): TraceColumns {
  const step = TICK_HZ / TRACE_HZ;
  const rows = Math.floor(samples.length / step);
  const columns = new Float32Array(rows * SAMPLE_FIELDS.length);
  SAMPLE_FIELDS.forEach((field, n) => {
    const column = samples.columns[field];
    for (let row = 0; row < rows; row += 1) columns[n * rows + row] = column[(row + 1) * step - 1] as number;
  });
  return { hz: TRACE_HZ, fields: [...SAMPLE_FIELDS], columns };
}

/** One figure of a trace; null where the trace does not hold it. */
export function traceColumn(trace: TraceColumns, field: string): Float32Array | null {
  const at = trace.fields.indexOf(field);
  if (at < 0) return null;
  const rows = trace.columns.length / trace.fields.length;
  return trace.columns.subarray(at * rows, (at + 1) * rows);
}
