import { z } from 'zod';
import { id, shortText, timeIso } from './values.ts';

export const PERSON_ROLES = ['apprentice', 'instructor', 'assessor'] as const;
/** `name` is made by the host from role and number: 'Apprentice 01'. No other name is ever asked for. */
export const personSchema = z.strictObject({
  id,
  role: z.enum(PERSON_ROLES),
  number: z.int().min(1),
  name: shortText,
  createdAt: timeIso,
});
export type Person = z.infer<typeof personSchema>;
export type PersonRole = Person['role'];
