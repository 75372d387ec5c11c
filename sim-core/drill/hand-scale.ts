import { z } from 'zod';

/**
 * How far a pointing device reports for a millimetre of the hand, as it was measured along a ruler or a bank card before the run.
 * It is told beside a run and is no part of its physics: what the torch did stands in the inputs.
 */
export const handScaleSchema = z.strictObject({
  device: z.enum(['mouse', 'pen']),
  /** ISO 8601, UTC. */
  measuredAt: z.iso.datetime(),
  /** Movement that the page is told, CSS px, for 1 mm of hand travel. */
  pxPerMm: z.number().min(0.05).max(1000),
  /** Largest less smallest of the strokes measured, as a share of their mean. */
  spread: z.number().min(0).max(10),
  /** How far a fast stroke and a slow one of the same length disagree, as a share of their mean: the system's acceleration. */
  acceleration: z.number().min(0).max(10),
  /** The browser gave movement without the system's acceleration. */
  raw: z.boolean(),
  /** The torch went one to one with the hand when its trigger was pulled; false: measured, but not used. */
  applied: z.boolean(),
});
export type HandScale = z.infer<typeof handScaleSchema>;

/** Above this disagreement of slow and fast the hand is not one to one, whatever was measured. */
export const ACCELERATION_LIMIT = 0.1;
