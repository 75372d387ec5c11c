import { fromBase64, toBase64 } from '../math/base-64.ts';
import { SAMPLE_FIELDS, type Samples, TICK_HZ } from './types.ts';

/** Samples kept per second with a stored run: enough to draw, and to show a run that this core can no longer rebuild. */
export const TRACE_HZ = 30;

const STRIDE = TICK_HZ / TRACE_HZ;

/** A stored trace: little-endian Float32 columns as base64, one after the other in the order of `fields`. */
export interface StoredTrace {
  hz: number;
  fields: string[];
  columns: string;
}

/** Every eighth sample of each figure. */
export function storeTrace(samples: Samples): StoredTrace {
  const rows = (samples.length - (samples.length % STRIDE)) / STRIDE;
  const bytes = new Uint8Array(rows * SAMPLE_FIELDS.length * 4);
  const view = new DataView(bytes.buffer);
  let at = 0;
  for (const field of SAMPLE_FIELDS) {
    const column = samples.columns[field];
    for (let row = 1; row <= rows; row++) {
      view.setFloat32(at, column[row * STRIDE - 1], true);
      at += 4;
    }
  }
  return { hz: TRACE_HZ, fields: [...SAMPLE_FIELDS], columns: toBase64(bytes) };
}

/** The columns of a stored trace by name. Throws RangeError where the bytes do not fill them evenly. */
export function readTrace(trace: StoredTrace): Record<string, Float32Array> {
  const bytes = fromBase64(trace.columns);
  const rows = bytes.length / 4 / trace.fields.length;
  if (rows % 1 !== 0) throw new RangeError('The trace does not fill its columns evenly.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const columns: Record<string, Float32Array> = {};
  for (const [n, field] of trace.fields.entries()) {
    const column = new Float32Array(rows);
    for (let row = 0; row < rows; row++) column[row] = view.getFloat32((n * rows + row) * 4, true);
    columns[field] = column;
  }
  return columns;
}
