import { z } from 'zod';
import type { Diagnosis, NozzleId, PartId, RemedyId, RigChoices, RigFaultId, RigMode, ShieldId } from '../../sim-core/index.ts';

/** What the trainee chose in the rig check before the arc; the core's RigChoices. */
export const rigChoicesSchema: z.ZodType<RigChoices, RigChoices> = z.strictObject({
  stack: z.array(z.enum(['electrode', 'swirl-ring', 'nozzle', 'cap', 'shield'] satisfies PartId[])).max(10),
  nozzle: z.enum(['fine', 'small', 'middle', 'large', 'gouging'] satisfies NozzleId[]),
  shield: z.enum(['contact', 'open', 'wide'] satisfies ShieldId[]),
  mode: z.enum(['cut', 'gaps', 'gouge', 'mark'] satisfies RigMode[]),
  currentA: z.number().min(0).max(200),
  supplyBar: z.number().min(0).max(12),
  waterTrapDrained: z.boolean(),
  clampSpot: z.string().max(40).nullable(),
  guideOffsetMm: z.number().min(0).max(40).nullable(),
  protection: z.strictObject({
    shade: z.number().min(1).max(14).nullable(),
    gloves: z.boolean(),
    jacket: z.boolean(),
    hearing: z.boolean(),
    respirator: z.boolean(),
  }),
  ventilation: z.enum(['none', 'doors', 'extraction']),
  combustibles: z.enum(['left', 'cleared', 'covered']),
  fireWatchMin: z.union([z.literal(0), z.literal(30), z.literal(60)]),
  triggerGuardClosed: z.boolean(),
  coatingRemoved: z.boolean(),
  containerMadeSafe: z.boolean(),
});

/** What the trainee said was wrong with the rig, and what is to be done; the core's Diagnosis. */
export const diagnosisSchema: z.ZodType<Diagnosis, Diagnosis> = z.strictObject({
  cause: z.enum([
    'low-gas',
    'wet-gas',
    'worn-electrode',
    'wrong-part',
    'poor-clamp',
    'wrong-mode',
    'damaged-hose',
  ] satisfies RigFaultId[]),
  remedy: z.enum([
    'raise-pressure',
    'drain-water',
    'change-electrode',
    'fit-right-part',
    'move-clamp',
    'set-right-mode',
    'replace-hose',
    'raise-current',
    'hold-closer',
    'travel-slower',
  ] satisfies RemedyId[]),
});
