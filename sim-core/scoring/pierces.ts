import type { Drill } from '../drill/schema.ts';

/** A pierce as the trade does it. Design defaults but where the design says so. */
export interface PierceMotion {
  /** Push lean at the start, arc pointing along the line: handle back from the travel, deg. Rolled upright over `rollS`, s, or at break-through. */
  leanDeg: number;
  rollS: number;
  /** Height of the tip while the hole is blind, mm, and the heights between which it is held right. */
  heightMm: number;
  lowMm: number;
  highMm: number;
  /** Least lean, deg, that still counts as leaned at the start. */
  leastLeanDeg: number;
}

export const PIERCES: Readonly<Record<Exclude<Drill['start'], 'edge'>, PierceMotion>> = {
  'contact-pierce': { leanDeg: 0, rollS: 0, heightMm: 0, lowMm: 0, highMm: 1, leastLeanDeg: 0 },
  'stand-off-pierce': { leanDeg: 0, rollS: 0, heightMm: 12, lowMm: 8, highMm: 16, leastLeanDeg: 0 },
  'rolling-pierce': { leanDeg: 45, rollS: 2, heightMm: 3, lowMm: 1, highMm: 6, leastLeanDeg: 30 },
};
