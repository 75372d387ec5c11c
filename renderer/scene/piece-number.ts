/** Number of the piece that still hangs by little; the core's own numbers of fallen pieces end below it. */
export const HANGING_PIECE = 255;
