/**
 * The tip's path, in steps of a quarter millimetre, that waits to be looked at: whether the line of the axis is open can
 * only be told once the lagging front has gone by.
 */
export interface SeveredPath {
  /** Waiting places: x, y of the axis's foot on the top surface, its lean tangents, and the step's length; a ring of PLACES. */
  places: Float64Array;
  marks: {
    first: number;
    count: number;
    lastXMm: number;
    lastYMm: number;
    begun: number;
    severedMm: number;
  };
}

export const STEP_MM = 0.25;
export const PLACES = 256;
/** Numbers to a waiting place. */
export const PLACE_FIELDS = 5;

/** Tells whether the line of the axis is open; lean as tangents. */
export type OpenTest = (xMm: number, yMm: number, leanTanX: number, leanTanY: number) => boolean;

/** Where the axis meets the top surface, mm, and its lean as tangents. */
export interface AxisFoot {
  xMm: number;
  yMm: number;
  leanTanX: number;
  leanTanY: number;
}

export function createSeveredPath(): SeveredPath {
  return {
    places: new Float64Array(PLACES * PLACE_FIELDS),
    marks: { first: 0, count: 0, lastXMm: 0, lastYMm: 0, begun: 0, severedMm: 0 },
  };
}

/** Adds the place of the axis's foot while the arc is on the metal, and judges those that lie `lagMm` behind. */
export function followSevered(path: SeveredPath, foot: Readonly<AxisFoot>, lagMm: number, open: OpenTest): void {
  const { marks } = path;
  const { xMm, yMm, leanTanX, leanTanY } = foot;
  if (marks.begun === 0) {
    marks.begun = 1;
    marks.lastXMm = xMm;
    marks.lastYMm = yMm;
    return;
  }
  const dx = xMm - marks.lastXMm;
  const dy = yMm - marks.lastYMm;
  const step = Math.sqrt(dx * dx + dy * dy);
  if (step < STEP_MM) return;
  if (marks.count === PLACES) judgeFirst(path, open);
  const at = ((marks.first + marks.count) % PLACES) * PLACE_FIELDS;
  path.places[at] = (xMm + marks.lastXMm) / 2;
  path.places[at + 1] = (yMm + marks.lastYMm) / 2;
  path.places[at + 2] = leanTanX;
  path.places[at + 3] = leanTanY;
  path.places[at + 4] = step;
  marks.count++;
  marks.lastXMm = xMm;
  marks.lastYMm = yMm;
  while (marks.count > 1) {
    const first = marks.first * PLACE_FIELDS;
    const bx = xMm - path.places[first]!;
    const by = yMm - path.places[first + 1]!;
    if (bx * bx + by * by < lagMm * lagMm) return;
    judgeFirst(path, open);
  }
}

/** The arc is gone: nothing more will change, judge all that waits. */
export function closeSevered(path: SeveredPath, open: OpenTest): void {
  while (path.marks.count > 0) judgeFirst(path, open);
  path.marks.begun = 0;
}

function judgeFirst(path: SeveredPath, open: OpenTest): void {
  const { marks, places } = path;
  const at = marks.first * PLACE_FIELDS;
  if (open(places[at]!, places[at + 1]!, places[at + 2]!, places[at + 3]!)) marks.severedMm += places[at + 4]!;
  marks.first = (marks.first + 1) % PLACES;
  marks.count--;
}
