import { ISO_9013_CHECKS } from './iso-9013-checks.ts';
import { MATERIAL_CHECKS } from './material-checks.ts';
import { MELTING_FRONT_CHECKS } from './melting-front.ts';
import { MOVING_SOURCE_CHECKS } from './moving-source-checks.ts';
import { PEAK_TEMPERATURE_CHECKS } from './peak-temperature-checks.ts';
import type { PublishedCheck } from './published-check.ts';
import { SURFACE_FLUX_CHECKS } from './surface-flux.ts';

/** Every published figure of physics and cut quality that a test of this folder holds the core to. */
export const PUBLISHED_CHECKS: PublishedCheck[] = [
  ...MOVING_SOURCE_CHECKS,
  ...MELTING_FRONT_CHECKS,
  ...SURFACE_FLUX_CHECKS,
  ...MATERIAL_CHECKS,
  ...ISO_9013_CHECKS,
  ...PEAK_TEMPERATURE_CHECKS,
];
