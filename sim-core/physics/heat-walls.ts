import type { HeatField } from './heat-field.ts';
import type { Jet } from './jet.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';
import { PLACES_AROUND, RING_RADII, RING_X, RING_Y } from './surroundings.ts';

/** Cells under the ring and what each takes; overwritten by each level. */
const cells = new Int32Array(4 * PLACES_AROUND);
/** Metal under the ring, in cells, below which there is no wall to speak of. */
const LEAST_METAL = 0.25;
const weights = new Float64Array(4 * PLACES_AROUND);

/**
 * Spreads what the jet lost on its way down (`melted.wallJ`) over the metal around it, evenly over the layers above the mean
 * depth and between the middles of the heat cells, so that the ring never jumps from cell to cell; what finds no metal passes
 * through.
 */
export function heatWalls(jet: Jet, metal: MetalField, heat: HeatField): void {
  const { melted, rays, shifts, outcome } = jet;
  const { wallJ } = melted;
  if (wallJ <= 0) return;
  const { nx, ny, cellMm, heatJ, metal: share } = heat;
  const ringMm = rays.radiusTop * RING_RADII + cellMm * 0.5;
  const deepest = (outcome.meanDepthMm / heat.layerMm) | 0;
  const levels = deepest + 1 < heat.layers ? deepest + 1 : heat.layers;
  const perLevel = wallJ / levels;
  let spent = 0;
  for (let level = 0; level < levels; level++) {
    const k = level * MODEL.layersPerHeatLayer + 1;
    const alongX = (rays.footX + shifts.x[k]! * metal.cellMm) / cellMm - 0.5;
    const alongY = (rays.footY + shifts.y[k]! * metal.cellMm) / cellMm - 0.5;
    const ring = ringMm / cellMm;
    let found = 0;
    let total = 0;
    for (let n = 0; n < PLACES_AROUND; n++) {
      const x = alongX + RING_X[n]! * ring;
      const y = alongY + RING_Y[n]! * ring;
      const hx = x | 0;
      const hy = y | 0;
      if (x < 0 || y < 0 || hx + 1 >= nx || hy + 1 >= ny) continue;
      for (let corner = 0; corner < 4; corner++) {
        const right = corner & 1;
        const up = corner >> 1;
        const cell = (level * ny + hy + up) * nx + hx + right;
        const weight = (right === 1 ? x - hx : 1 - x + hx) * (up === 1 ? y - hy : 1 - y + hy) * share[cell]!;
        if (weight <= 0) continue;
        cells[found] = cell;
        weights[found++] = weight;
        total += weight;
      }
    }
    if (total < LEAST_METAL) continue;
    for (let n = 0; n < found; n++) {
      const cell = cells[n]!;
      heatJ[cell] = heatJ[cell]! + (perLevel * weights[n]!) / total;
    }
    spent += perLevel;
  }
  melted.conductedJ += spent;
  // Rounding must not make a negative joule of what all found metal.
  if (wallJ > spent) melted.throughJ += wallJ - spent;
}
