/** Identification card of the size of bank cards: ISO/IEC 7810, ID-1. */
export const CARD_LENGTH_MM = 85.6;
export const CARD_WIDTH_MM = 53.98;
/** Radius of its corners: 2.88 to 3.48 mm. */
export const CARD_CORNER_MM = 3.18;
/** Length on a ruler that can be used instead of the card's long edge. */
export const RULER_MM = 100;

/** CSS defines its px so; a screen may differ by half as much or twice as much. */
export const USUAL_SCREEN_PX_PER_MM = 96 / 25.4;
