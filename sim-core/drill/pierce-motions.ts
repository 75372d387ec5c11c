import { PIERCE_POSE, type PierceMethod, ROLL_S } from './pierce-coupon.ts';
import type { Drill } from './schema.ts';

/** A pierce as a hand does it, and what is let pass as such. The poses are those of the core's own pierce coupon. */
export interface PierceMotion {
  method: PierceMethod;
  /** Push lean at the start, arc pointing along the line: handle back from the travel, deg. Rolled upright over `rollS`, s, or at break-through. */
  leanDeg: number;
  rollS: number;
  /** Height of the tip while the hole is blind, mm, and the heights between which it is held right. Design defaults. */
  heightMm: number;
  lowMm: number;
  highMm: number;
  /** Least lean, deg, that still counts as leaned at the start. Design default. */
  leastLeanDeg: number;
}

export const PIERCES: Readonly<Record<Exclude<Drill['start'], 'edge'>, PierceMotion>> = {
  'contact-pierce': { method: 'contact', ...PIERCE_POSE.contact, rollS: 0, lowMm: 0, highMm: 1, leastLeanDeg: 0 },
  'stand-off-pierce': { method: 'stand-off', ...PIERCE_POSE['stand-off'], rollS: 0, lowMm: 8, highMm: 16, leastLeanDeg: 0 },
  'rolling-pierce': { method: 'rolling', ...PIERCE_POSE.rolling, rollS: ROLL_S, lowMm: 1, highMm: 6, leastLeanDeg: 30 },
};
