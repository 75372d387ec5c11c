import type { HeatField } from './heat-field.ts';
import type { Jet } from './jet.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';
import { RING_RADII, RING_X, RING_Y } from './surroundings.ts';

/** Cells of a ring that hold metal; overwritten by each level. */
const cells = new Int32Array(12);

/**
 * Spreads what the jet lost on its way down (`melted.wallJ`) over the metal around it, evenly over the layers above the mean
 * depth; what finds no metal passes through.
 */
export function heatWalls(jet: Jet, metal: MetalField, heat: HeatField): void {
  const { melted, rays, shifts, outcome } = jet;
  const { wallJ } = melted;
  if (wallJ <= 0) return;
  const { nx, ny, cellMm, heatJ, metal: share } = heat;
  const ringMm = rays.radiusTop * RING_RADII + cellMm * 0.5;
  const deepest = (outcome.meanDepthMm / heat.layerMm) | 0;
  const levels = deepest + 1 < heat.layers ? deepest + 1 : heat.layers;
  const perPlace = wallJ / (levels * 12);
  let spent = 0;
  for (let level = 0; level < levels; level++) {
    const k = level * MODEL.layersPerHeatLayer + 1;
    const alongX = rays.footX + shifts.x[k]! * metal.cellMm;
    const alongY = rays.footY + shifts.y[k]! * metal.cellMm;
    let found = 0;
    for (let n = 0; n < 12; n++) {
      const hx = ((alongX + RING_X[n]! * ringMm) / cellMm) | 0;
      const hy = ((alongY + RING_Y[n]! * ringMm) / cellMm) | 0;
      if (hx < 0 || hy < 0 || hx >= nx || hy >= ny) continue;
      const cell = (level * ny + hy) * nx + hx;
      if (share[cell]! >= 0.25) cells[found++] = cell;
    }
    for (let n = 0; n < found; n++) {
      const cell = cells[n]!;
      heatJ[cell] = heatJ[cell]! + (perPlace * 12) / found;
      spent += (perPlace * 12) / found;
    }
  }
  melted.conductedJ += spent;
  melted.throughJ += wallJ - spent;
}
