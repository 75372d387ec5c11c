import { z } from 'zod';
import type { HandScale } from '../../sim-core/index.ts';
import { finite, id, timeIso } from './values.ts';

const share = finite.min(0).max(10);
const measured = {
  device: z.enum(['mouse', 'pen']),
  measuredAt: timeIso,
  /** CSS px that the page is told for 1 mm of the hand. */
  pxPerMm: finite.min(0.05).max(1000),
  spread: share,
  acceleration: share,
  raw: z.boolean(),
};

/** How the hand was measured, as it is kept with a run; the core's HandScale. */
export const handScaleSchema: z.ZodType<HandScale, HandScale> = z.strictObject({ ...measured, applied: z.boolean() });

/** The same as it is kept between runs: for one person, at one screen. */
export const keptHandScaleSchema = z.strictObject({
  ...measured,
  /** Whose hand; null = nobody was chosen. */
  personId: id.nullable(),
  /** The screen it was measured at: its size in px and its magnification. Elsewhere it does not hold. */
  place: z.string().regex(/^[0-9x@.]{1,40}$/),
  /** px of the screen for a mm on it, matched to a card held against it. */
  screenPxPerMm: finite.min(0.5).max(100),
  /** How the pen leans while it is held at ease, deg; 0 for a mouse. */
  restTiltXDeg: finite.min(-90).max(90),
  restTiltYDeg: finite.min(-90).max(90),
});
export type KeptHandScale = z.infer<typeof keptHandScaleSchema>;

const name = z.string().regex(/^[a-z][a-z-]{0,39}$/);
export const HAND_DEVICES = ['mouse', 'keyboard', 'gamepad', 'pen'] as const;

/** How the devices move the torch. What is not named by its action holds what the page has for it. */
export const handSettingsSchema = z.strictObject({
  scales: z.array(keptHandScaleSchema).max(500),
  /** Whether a measured hand is used. */
  oneToOne: z.boolean(),
  /** Who does not want to be asked about measuring again: ids of people, 'nobody' where nobody is chosen. */
  notAsked: z.array(z.string().regex(/^[0-9a-z-]{1,40}$/)).max(500),
  /** By action, the keys that do it, by their `KeyboardEvent.code`. */
  keys: z.record(name, z.array(z.string().regex(/^[A-Za-z0-9]{1,30}$/)).max(3)),
  /** By action, the number of the pad's button in the standard mapping. */
  padButtons: z.record(name, z.int().min(0).max(31)),
  /** How far a stick is at rest although it is not at zero, as a share of its way. */
  padDeadZone: finite.min(0.02).max(0.6),
  /** Which stick moves the torch; the other leans it. */
  padMoves: z.enum(['left', 'right']),
  padRumble: z.boolean(),
  /** The pen's tip pressed down, or the button on its barrel. */
  penTrigger: z.enum(['tip', 'barrel']),
  /** How hard the tip has to be pressed to pull the trigger, as a share of all the pen can tell. */
  penPressure: finite.min(0.02).max(0.95),
  /** The torch leans as the pen does, or as the pen does from how it is held at ease, or not with the pen. */
  penTilt: z.enum(['true', 'from-rest', 'off']),
  /** Two-handed: this device leans with all it does, the others move. 'none': each does both. */
  leansWith: z.enum(['none', ...HAND_DEVICES]),
});
export type HandSettings = z.infer<typeof handSettingsSchema>;
export const DEFAULT_HAND_SETTINGS: HandSettings = {
  scales: [],
  oneToOne: true,
  notAsked: [],
  keys: {},
  padButtons: {},
  padDeadZone: 0.16,
  padMoves: 'left',
  padRumble: true,
  penTrigger: 'tip',
  penPressure: 0.25,
  penTilt: 'true',
  leansWith: 'none',
};
