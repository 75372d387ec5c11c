/** Where a tick stands in the cut; gap: over an opening of the plate, the trigger held and no arc. */
export const PHASE = { away: 0, dwell: 1, cut: 2, past: 3, gap: 4 } as const;
