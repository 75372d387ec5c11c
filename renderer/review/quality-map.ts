import type { Drill, KerfQuality } from '../../sim-core/index.ts';
import { paintQualityMap } from '../scene/quality-canvas.ts';
import { MM_PER_INCH, type UnitSystem } from '../ui/units.ts';
import type { QualityFigure } from './quality-figures.ts';

/** The plate's picture of a figure along the cut. */
export function qualityMap(drill: Drill, quality: KerfQuality, figure: QualityFigure, units: UnitSystem): HTMLCanvasElement {
  const { perMm } = quality;
  const lengthMm = perMm[0] ? 2 * perMm[0].sMm : 1;
  const places = perMm.map((place) => ({
    xMm: place.xMm,
    yMm: place.yMm,
    headingRad: place.headingRad,
    sMm: place.sMm,
    lengthMm,
    level: figure.levelOf(place),
  }));
  const steps = units === 'inch' ? { stepMm: MM_PER_INCH, count: 1 } : { stepMm: 10, count: 10 };
  return paintQualityMap(drill.plate.lengthMm, drill.plate.widthMm, places, steps);
}
