/** The plate, and the line across it, of the drill that the page is measured with (scenarios/hanger-tab-straight-6.json). */
export const TAB_PLATE = { lengthMm: 160, widthMm: 90 };
export const TAB_LINE_MM = 60;

/** Over the edge by this much the arc is struck, mm; and the pace of the cut. */
export const START_MM = 1;
export const CUT_MM_PER_S = 12;
