import { clamp } from '../math/elementary.ts';
import { uLimitMm } from '../quality/iso-9013.ts';
import { kerfQuality, type QualityPlace } from '../quality/kerf-quality.ts';
import { mostCostly } from './judge-ticks.ts';
import type { Evidence, FaultId, FigureUnit, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Squareness up to this range of ISO 9013 keeps full marks; beyond it they fall to 0 at so many times its limit. */
const RIGHT_U_RANGE = 4;
const ZERO_AT_TIMES = 2.5;

/** Height of dross on the bottom edge, mm: what a scraper takes off at a stroke, and what has to be ground. */
const RIGHT_DROSS_MM = 0.6;
const ZERO_DROSS_MM = 2;
/** Share of a place's marks that dross can cost. */
const DROSS_SHARE = 0.6;

/** Share of a place's marks that a profile beyond the roughest range of ISO 9013 costs. */
const ROUGH_SHARE = 0.4;

/** The ends of the line are rounded by the start and the finish, mm. */
const END_MM = 4;

/** Places nearer together than this are one stretch. */
const BRIDGE_PLACES = 3;

interface Flaw {
  loss: number;
  fault: FaultId;
  value: number;
  unit: FigureUnit;
}

/** The cut part as the core's quality estimates see it, per mm of line: squareness of the faces, dross, profile. */
export function markCutQuality(input: MeasureInput): MeasureResult {
  const { drill, geometry, samples, context } = input;
  const { plate, intended } = drill;
  const quality = kerfQuality(context.metal, geometry, samples, {
    material: plate.material,
    thicknessMm: plate.thicknessMm,
    bevelDeg: intended.bevelDeg,
  });
  const limitMm = uLimitMm(RIGHT_U_RANGE, plate.thicknessMm);
  const band = { low: null, high: limitMm, unit: 'mm' } as const;
  const from = drill.leadInMm + END_MM;
  const to = geometry.lengthMm - END_MM;
  const places = quality.perMm.filter(({ sMm, state }) => sMm >= from && sMm <= to && state !== 'no-metal');
  if (places.length === 0) return { mark: 0, band, evidence: [] };
  const found: Evidence[] = [];
  let lost = 0;
  let lastPlace = 0;
  for (const [index, place] of places.entries()) {
    // Metal that is not cut has no faces: it is worth nothing here, and severance tells it.
    if (place.state !== 'cut' || place.uMm === null) {
      lost += 100 / places.length;
      continue;
    }
    const { loss, fault, value, unit } = worstOf(place, place.uMm, limitMm);
    if (!(loss > 0)) continue;
    const marks = (100 * loss) / places.length;
    lost += marks;
    const tick = place.tick < 1 ? 1 : place.tick;
    const at = { xMm: place.xMm, yMm: place.yMm, value };
    const open = found.at(-1);
    if (open && open.fault === fault && index - lastPlace <= BRIDGE_PLACES) {
      if (tick < open.fromTick) open.fromTick = tick;
      if (tick > open.toTick) open.toTick = tick;
      open.lostMarks += marks;
      if (value > open.value) Object.assign(open, at);
    } else found.push({ fromTick: tick, toTick: tick, ...at, unit, fault, lostMarks: marks });
    lastPlace = index;
  }
  return { mark: lost >= 100 ? 0 : 100 - lost, band, evidence: mostCostly(found) };
}

/** What costs most at a place. */
function worstOf(place: QualityPlace, uMm: number, limitMm: number): Flaw {
  const uLoss = clamp((uMm / limitMm - 1) / (ZERO_AT_TIMES - 1), 0, 1);
  const drossLoss = DROSS_SHARE * clamp((place.dross.mm - RIGHT_DROSS_MM) / (ZERO_DROSS_MM - RIGHT_DROSS_MM), 0, 1);
  const roughLoss = place.rz5Um !== null && place.rz5Range === null ? ROUGH_SHARE : 0;
  if (uLoss >= drossLoss && uLoss >= roughLoss) return { fault: 'cut-quality.slanted', loss: uLoss, value: uMm, unit: 'mm' };
  if (drossLoss >= roughLoss) return { fault: 'cut-quality.dross', loss: drossLoss, value: place.dross.mm, unit: 'mm' };
  return { fault: 'cut-quality.rough', loss: roughLoss, value: (place.rz5Um ?? 0) / 1000, unit: 'mm' };
}
