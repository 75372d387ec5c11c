import { z } from 'zod';
import { MEASURE_IDS, OUTCOME_MEASURES } from './measure-ids.ts';

export const rubricSchema = z.strictObject({
  passMark: z.number().min(1).max(100),
  measures: z
    .array(
      z.strictObject({
        id: z.enum(MEASURE_IDS),
        weight: z.number().min(0.1).max(10),
        /** Least mark of this measure with which the run can pass. */
        mustReach: z.number().min(0).max(100).optional(),
      }),
    )
    .min(1)
    .max(MEASURE_IDS.length)
    .refine((measures) => new Set(measures.map((measure) => measure.id)).size === measures.length, 'a measure stands twice')
    .refine(
      (measures) => measures.some((measure) => OUTCOME_MEASURES.includes(measure.id)),
      'severance, groove-depth or fault-finding must be among the measures',
    ),
});
export type DrillRubric = z.infer<typeof rubricSchema>;
