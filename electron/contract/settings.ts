import { z } from 'zod';
import { DEFAULT_HAND_SETTINGS, handSettingsSchema } from './hand-settings.ts';
import { DEFAULT_PRICES, priceSettingsSchema } from './price-settings.ts';
import { finite } from './values.ts';

export const settingsSchema = z.strictObject({
  units: z.enum(['metric', 'inch']),
  theme: z.enum(['system', 'light', 'dark']),
  /** 'auto' lets measured frame time choose. */
  qualityTier: z.enum(['auto', 'lite', 'middle', 'full']),
  /** BCP 47 tag of the text table. */
  language: z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/),
  /** Extra views kept on the bench, in order, by the page's own names. */
  pinnedViews: z.array(z.string().regex(/^[a-z][a-z0-9-]{0,39}$/)).max(8),
  /** Light that changes slowly and rarely, and little that moves; 'system' = as the system asks for less motion. */
  calmLight: z.enum(['system', 'on', 'off']),
  soundOn: z.boolean(),
  /** How loud the bench is where it sounds, 0 (silent) to 1 (its ceiling). */
  soundLevel: finite.min(0).max(1),
  /** Cues are drawn beside the torch as well as in their panel. */
  cuesAtTorch: z.boolean(),
  prices: priceSettingsSchema,
  /** Name of the yard, as it stands on papers. */
  yardName: z.string().trim().min(1).max(80),
  /** Instructors and assessors are signed out after so long without anything being done. */
  idleSignOutMinutes: z.int().min(1).max(480),
  hand: handSettingsSchema,
});
export type Settings = z.infer<typeof settingsSchema>;
export const DEFAULT_SETTINGS: Settings = {
  units: 'metric',
  theme: 'system',
  qualityTier: 'auto',
  language: 'en',
  pinnedViews: ['under-plate'],
  calmLight: 'system',
  soundOn: true,
  soundLevel: 0.35,
  cuesAtTorch: true,
  prices: DEFAULT_PRICES,
  yardName: 'Training yard',
  idleSignOutMinutes: 15,
  hand: DEFAULT_HAND_SETTINGS,
};
