/** Where a tick stands in the cut; gap: over an opening of the plate, the trigger held and no arc. */
export const PHASE = { away: 0, dwell: 1, cut: 2, past: 3, gap: 4 } as const;

/** The tip is held to be on the line for good or ill within this distance; farther off it is doing something else, mm. */
export const CORRIDOR_MM = 6;
