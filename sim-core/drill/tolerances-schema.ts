import { z } from 'zod';

export const bandSchema = (min: number, max: number) =>
  z
    .strictObject({ low: z.number().min(min).max(max), high: z.number().min(min).max(max) })
    .refine((band) => band.low < band.high, 'low must be below high');

export const tolerancesSchema = z.strictObject({
  /** Lean of the spark stream under the plate that counts as right, degrees trailing. */
  sparkAngleDeg: bandSchema(0, 60),
  /** Height of the tip above the plate that counts as right, mm. */
  standOffMm: bandSchema(0, 20),
  /** Lean of the handle from what is intended that still counts as right, degrees. */
  leanDeg: z.number().min(0.5).max(30),
  /** Distance from the line that still counts as on it, mm. */
  offLineMm: z.number().min(0.1).max(10),
  /** Standard deviation of the speed over its mean that still counts as steady. */
  speedVariation: z.number().min(0.01).max(1),
  /** Wait at the start after break-through that still counts as prompt, s. */
  lateStartS: z.number().min(0.05).max(5),
  /** How far past the end of the line the arc may still burn, mm. */
  overrunMm: z.number().min(0.5).max(50),
  /** Distance of the part's edge from where the drawing has it that still counts as to size, mm. */
  sizeMm: z.number().min(0.1).max(10).default(0.8),
  /** Evenness of a groove's depth that still counts as even: 1 - standard deviation / mean. */
  evenness: z.number().min(0.1).max(0.99).default(0.8),
  /** Share of the life of a torch part that the drill may cost. */
  spentLifeShare: z.number().min(0.001).max(1).default(0.02),
  /** Time without an arc at an opening of the plate that still counts as crossed in one go, s. */
  gapDelayS: z.number().min(0.05).max(5).default(0.5),
});
export type DrillTolerances = z.infer<typeof tolerancesSchema>;
