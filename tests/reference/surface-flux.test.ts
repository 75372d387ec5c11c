// S3: constant flux on a half space (Carslaw and Jaeger 1959, sec. 2.9 eq. (7), from memory): what an edge start and a pierce
// do before anything melts.
import { test } from 'vitest';
import { expectPublished } from './expect-published.ts';
import { SURFACE_FLUX_CHECKS } from './surface-flux.ts';

test.each(SURFACE_FLUX_CHECKS)('$about', expectPublished);
