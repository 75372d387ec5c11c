import { clamp, PI } from '../math/elementary.ts';
import { QUALITY } from './quality-constants.ts';

/** low-speed: thick and soft under the plate; high-speed: a thin hard bead there; top-spatter: on the upper face. */
export const DROSS_KINDS = ['none', 'low-speed', 'high-speed', 'top-spatter'] as const;
export type DrossKind = (typeof DROSS_KINDS)[number];

export interface Dross {
  kind: DrossKind;
  /** Height of the bead, mm; 0 where there is none. */
  mm: number;
}

/** What the arc did at a place: means over the metal it removed there. */
export interface DrossCause {
  /** NaN where no metal left the underside. */
  sparkAngleDeg: number;
  throughFraction: number;
  /** Metal thrown per mm of cut from the underside and from the top, mm3/mm. */
  underMm2: number;
  topMm2: number;
}

export const NO_DROSS: Dross = { kind: 'none', mm: 0 };

/**
 * Estimate of what sticks to the edges. Metal that leaves at the top spatters there. Sparks that fall straight, with most of the
 * arc's power lost below, tell of a kerf that is wider than the stream that should sweep it: melt runs back along the bottom
 * edge (common practice: slow cutting leaves thick soft dross). Sparks that trail far tell of a bottom that lags: the last melt
 * freezes on it as a bead (common practice: fast cutting leaves thin hard dross). Shares and onsets are design defaults.
 */
export function estimateDross(cause: DrossCause): Dross {
  const thrown = cause.underMm2 + cause.topMm2;
  if (thrown <= 0) return NO_DROSS;
  if (cause.topMm2 / thrown > QUALITY.topSpatterFrom) {
    return bead('top-spatter', roundBeadMm((QUALITY.topSpatterStays * cause.topMm2) / 2));
  }
  const angle = cause.sparkAngleDeg;
  if (Number.isNaN(angle)) return NO_DROSS;
  const slow = rise(angle, QUALITY.slowDrossFromDeg, QUALITY.slowDrossFullDeg) * clamp(2 * cause.throughFraction, 0, 1);
  if (slow > 0) return bead('low-speed', roundBeadMm((slow * QUALITY.slowDrossShare * cause.underMm2) / 2));
  const fast = rise(angle, QUALITY.fastDrossFromDeg, QUALITY.fastDrossFullDeg);
  // A hard bead is no taller than it is wide: a square corner's worth.
  if (fast > 0) return bead('high-speed', Math.sqrt((fast * QUALITY.fastDrossShare * cause.underMm2) / 2));
  return NO_DROSS;
}

/** 0 at `from`, 1 at `full`, which may lie on either side. */
function rise(value: number, from: number, full: number): number {
  return clamp((value - from) / (full - from), 0, 1);
}

/** Height of a half-round bead of a cross-section, mm2. */
function roundBeadMm(areaMm2: number): number {
  return Math.sqrt((2 * areaMm2) / PI);
}

function bead(kind: DrossKind, mm: number): Dross {
  return mm < QUALITY.leastDrossMm ? NO_DROSS : { kind, mm };
}
