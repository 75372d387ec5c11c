import type { Ejecta } from '../../sim-core/index.ts';

/** Order of the ejecta figures in a frame of the worker. */
export const EJECTA_FIELDS = [
  'underRateMm3PerS',
  'underXMm',
  'underYMm',
  'underDirX',
  'underDirY',
  'underDirZ',
  'topRateMm3PerS',
  'topXMm',
  'topYMm',
  'topZMm',
  'topDirX',
  'topDirY',
  'topDirZ',
] as const satisfies readonly (keyof Ejecta)[];
