import type { SurfaceGrain } from './plate-surface.ts';

/** How richly the scene is drawn. The names are those of the settings in electron/contract.ts. */
export const TIER_NAMES = ['lite', 'middle', 'full'] as const;
export type TierName = (typeof TIER_NAMES)[number];

export interface Tier {
  /** Physical pixels per CSS pixel: of the screen's own ratio, at most this. */
  pixelRatioHigh: number;
  /** Times this: below 1 the picture is drawn smaller and enlarged. */
  resolutionScale: number;
  /** The drawn picture has at most this many pixels, whatever the window's size. */
  pixelsHigh: number;
  shadows: boolean;
  /** Physically based surfaces, matt ones, or matt ones whose light is worked out once a corner instead of once a pixel. */
  surfaces: 'rich' | 'matt' | 'lean';
  /** Sparks in flight at once. */
  sparkCount: number;
  /** Beads of dross on the edges. */
  beadCount: number;
  /** Puffs of smoke in the air at once; 0 = none, for it is broad and dear to draw. */
  puffs: number;
  /** How finely the metal is drawn while it is being cut. A replay, which is looked at closely, is always drawn finely. */
  grain: SurfaceGrain;
  /** Tiles of the plate rebuilt in one frame at most. */
  tilesPerFrame: number;
  /** While it is being cut, metal and heat are drawn anew in every so-manieth frame. */
  metalEvery: number;
  /** Pieces of the yard drawn around the bench. */
  surroundings: boolean;
}

export const FINE_GRAIN: SurfaceGrain = { step: 1, slabTiles: 4 };

export const TIERS: Record<TierName, Tier> = {
  lite: {
    pixelRatioHigh: 1,
    resolutionScale: 0.5,
    pixelsHigh: 330_000,
    shadows: false,
    surfaces: 'lean',
    sparkCount: 240,
    beadCount: 160,
    puffs: 0,
    // At half the resolution a pixel is about as wide as two cells.
    grain: { step: 2, slabTiles: 8 },
    tilesPerFrame: 12,
    metalEvery: 2,
    surroundings: false,
  },
  middle: {
    pixelRatioHigh: 1,
    resolutionScale: 1,
    pixelsHigh: 1_600_000,
    shadows: false,
    surfaces: 'matt',
    sparkCount: 500,
    beadCount: 600,
    puffs: 12,
    grain: FINE_GRAIN,
    tilesPerFrame: 16,
    metalEvery: 1,
    surroundings: true,
  },
  full: {
    pixelRatioHigh: 2,
    resolutionScale: 1,
    pixelsHigh: 9_000_000,
    shadows: true,
    surfaces: 'rich',
    sparkCount: 1000,
    beadCount: 1600,
    puffs: 24,
    grain: FINE_GRAIN,
    tilesPerFrame: 24,
    metalEvery: 1,
    surroundings: true,
  },
};
