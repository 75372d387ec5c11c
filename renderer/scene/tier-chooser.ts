import { TIER_NAMES, type TierName } from './quality-tiers.ts';

export interface TierChooser {
  readonly tier: TierName;
  /** Median of the last full window of frame times, ms; NaN before the first one. */
  readonly medianMs: number;
  /** Takes one frame time; true when the tier has just changed. */
  frame(frameMs: number): boolean;
}

/** Frames in one judgement. */
const WINDOW_FRAMES = 30;
/** Slower than this: one tier down (22 frames a second). */
const TOO_SLOW_MS = 45;
/** Faster than this, several windows running: one tier up. A 60 Hz display never shows less than 16.7. */
const FAST_MS = 18;
const FAST_WINDOWS = 4;
/** A gap this long is a hidden page or a stall, not a frame time. */
const NOT_A_FRAME_MS = 1000;

/**
 * Chooses a tier from measured frame times. It goes down at once and up slowly; a tier that was found too slow is not tried
 * again in this sitting, so the picture does not swing to and fro.
 */
export function createTierChooser(start: TierName): TierChooser {
  let level = TIER_NAMES.indexOf(start);
  let highest = TIER_NAMES.length - 1;
  let fastWindows = 0;
  let medianMs = Number.NaN;
  let window: number[] = [];

  return {
    get tier() {
      return TIER_NAMES[level] as TierName;
    },
    get medianMs() {
      return medianMs;
    },
    frame(frameMs) {
      if (!(frameMs > 0) || frameMs > NOT_A_FRAME_MS) return false;
      window.push(frameMs);
      if (window.length < WINDOW_FRAMES) return false;
      window.sort((a, b) => a - b);
      medianMs = window[WINDOW_FRAMES / 2] as number;
      window = [];
      if (medianMs > TOO_SLOW_MS) {
        fastWindows = 0;
        if (level === 0) return false;
        level -= 1;
        highest = level;
        return true;
      }
      fastWindows = medianMs < FAST_MS ? fastWindows + 1 : 0;
      if (fastWindows < FAST_WINDOWS || level >= highest) return false;
      fastWindows = 0;
      level += 1;
      return true;
    },
  };
}

/** Where to begin: a renderer that names itself a software one starts on the lightest tier. */
export function firstTier(rendererName: string): TierName {
  return /swiftshader|llvmpipe|softpipe|software|basic render/i.test(rendererName) ? 'lite' : 'middle';
}
