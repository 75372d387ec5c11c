import { z } from 'zod';
import { NOZZLE_IDS, RIG_MODES, SHIELD_IDS, SURFACES } from '../physics/rig-fit.ts';

const clampSpotSchema = z.strictObject({
  id: z
    .string()
    .max(40)
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be small letters, digits and single hyphens'),
  /** Beside the plate it holds the bench, which carries what rests on it. */
  xMm: z.number().min(-2000).max(2000),
  yMm: z.number().min(-2000).max(2000),
  surface: z.enum(SURFACES),
  /** The piece that falls carries this spot away. */
  onDrop: z.boolean(),
});
export type ClampSpot = z.infer<typeof clampSpotSchema>;

/** The bench beside the plate, where a drill that says nothing has its clamp. */
const BENCH: ClampSpot = { id: 'bench', xMm: -50, yMm: -50, surface: 'bare', onDrop: false };

/** The rig as it should be for the job. Of the clamp spots the first that is bare and stays is the right one. */
export const rigSchema = z.strictObject({
  class: z.enum(['40', '60', '100']),
  currentA: z.number().min(1).max(200),
  mode: z.enum(RIG_MODES),
  nozzle: z.enum(NOZZLE_IDS),
  shield: z.enum(SHIELD_IDS),
  hoseM: z.number().min(1).max(50).default(8),
  clampSpots: z
    .array(clampSpotSchema)
    .min(1)
    .max(8)
    .refine((spots) => new Set(spots.map((spot) => spot.id)).size === spots.length, 'a clamp spot stands twice')
    .default([BENCH]),
});
export type DrillRig = z.infer<typeof rigSchema>;

/** What is around the work. */
export const siteSchema = z.strictObject({
  place: z.enum(['hall', 'small-room', 'outdoors']),
  /** Distance of the nearest thing that can burn, m; null = none in sight. */
  combustiblesWithinM: z.number().min(0).max(100).nullable(),
  /** The work is, or is part of, a vessel that is closed or has held something. */
  closedContainer: z.boolean(),
  coating: z.enum(['none', 'paint', 'zinc']),
});
export type DrillSite = z.infer<typeof siteSchema>;

export const PLAIN_SITE: DrillSite = { place: 'hall', combustiblesWithinM: null, closedContainer: false, coating: 'none' };
