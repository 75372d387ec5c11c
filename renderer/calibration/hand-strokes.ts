/** A stroke of the hand along the ruler, from button down to button up. */
export interface Stroke {
  /** Straight from its beginning to its end, and all the way it went, CSS px. */
  netPx: number;
  pathPx: number;
  seconds: number;
}

/** In this order: the pace of a cut, then slowly, then fast. A system that speeds the pointer up gives itself away between the last two. */
export const STROKES = ['usual', 'slow', 'fast'] as const;
export type StrokeName = (typeof STROKES)[number];

/** Why a stroke does not count. */
export type StrokeFault = 'short' | 'back-and-forth' | 'not-slow' | 'not-fast';

/** Shorter than any hand moves 85 mm by, CSS px. */
const LEAST_PX = 30;
/** A stroke along a ruler is hardly longer than the straight way. */
const MOST_DETOUR = 1.25;
const SLOW_S = 2;
/** The fast stroke takes at most this share of the slow one's time: otherwise there is nothing to compare. */
const FAST_SHARE = 0.4;

/** What is wrong with a stroke; null where it counts. `before` holds the strokes that counted, in their order. */
export function strokeFault(name: StrokeName, stroke: Stroke, before: readonly Stroke[]): StrokeFault | null {
  if (stroke.netPx < LEAST_PX) return 'short';
  if (stroke.pathPx > stroke.netPx * MOST_DETOUR) return 'back-and-forth';
  if (name === 'slow' && stroke.seconds < SLOW_S) return 'not-slow';
  const slow = before[STROKES.indexOf('slow')];
  if (name === 'fast' && slow && stroke.seconds > slow.seconds * FAST_SHARE) return 'not-fast';
  return null;
}

export interface MeasuredHand {
  pxPerMm: number;
  /** Shares of the mean. */
  spread: number;
  acceleration: number;
}

/**
 * What three strokes along a length come to. Throws RangeError where there are not three, or the length is not above zero.
 */
export function measureHand(strokes: readonly Stroke[], lengthMm: number): MeasuredHand {
  const [usual, slow, fast] = strokes.map((stroke) => stroke.netPx);
  if (usual === undefined || slow === undefined || fast === undefined || strokes.length !== STROKES.length)
    throw new RangeError(`A hand is measured by ${STROKES.length} strokes, not by ${strokes.length}.`);
  if (!(lengthMm > 0)) throw new RangeError(`A stroke has a length above 0 mm, not ${lengthMm}.`);
  const mean = (usual + slow + fast) / 3;
  return {
    pxPerMm: mean / lengthMm,
    spread: (Math.max(usual, slow, fast) - Math.min(usual, slow, fast)) / mean,
    acceleration: Math.abs(fast - slow) / ((fast + slow) / 2),
  };
}

/** How a system that speeds the pointer up would show: agreement of the strokes, told in one of three words. */
export function agreement({ spread }: MeasuredHand): 'close' | 'fair' | 'poor' {
  if (spread <= 0.03) return 'close';
  return spread <= 0.1 ? 'fair' : 'poor';
}
