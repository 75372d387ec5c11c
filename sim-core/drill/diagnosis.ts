import { z } from 'zod';

/** What an instructor can make wrong with a rig before the trainee gets to it. Nothing names it to the trainee. */
export const RIG_FAULT_IDS = [
  'low-gas',
  'wet-gas',
  'worn-electrode',
  'wrong-part',
  'poor-clamp',
  'wrong-mode',
  'damaged-hose',
] as const;
export type RigFaultId = (typeof RIG_FAULT_IDS)[number];

/** What can be done about a fault. The last three cure none of them. */
export const REMEDY_IDS = [
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
] as const;
export type RemedyId = (typeof REMEDY_IDS)[number];

/** The one remedy that cures each fault. */
export const REMEDY_FOR: Readonly<Record<RigFaultId, RemedyId>> = {
  'low-gas': 'raise-pressure',
  'wet-gas': 'drain-water',
  'worn-electrode': 'change-electrode',
  'wrong-part': 'fit-right-part',
  'poor-clamp': 'move-clamp',
  'wrong-mode': 'set-right-mode',
  'damaged-hose': 'replace-hose',
};

/** What the trainee says is wrong with the rig, and what is to be done. */
export const diagnosisSchema = z.strictObject({ cause: z.enum(RIG_FAULT_IDS), remedy: z.enum(REMEDY_IDS) });
export type Diagnosis = z.infer<typeof diagnosisSchema>;
