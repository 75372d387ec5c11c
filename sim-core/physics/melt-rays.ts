import type { EnthalpyTable } from '../materials/enthalpy-table.ts';
import type { HeatField } from './heat-field.ts';
import type { Jet } from './jet.ts';
import { METAL_CELLS_SHIFT, type MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';

/** What the rays did to metal and heat: energies J, volume mm3. `wallJ` is what they lost on their way down. Reused. */
export interface MeltedRays {
  wallJ: number;
  glancedJ: number;
  throughJ: number;
  conductedJ: number;
  removedJ: number;
  removedMm3: number;
}

/**
 * Spends the energy of every traced ray: the walls above take their part, conduction into the heat field is paid next, what
 * is left melts, and what can escape (`outcome.escape`) is removed; melt that stays keeps its heat in the cell.
 */
export function meltRays(jet: Jet, metal: MetalField, heat: HeatField, table: EnthalpyTable, anyFallen: boolean): void {
  const { nx, ny, layers, layerMm, cellMm, gone, pieceOf } = metal;
  const { heatJ, metal: metalShare, nx: heatNx } = heat;
  const { rays, melted, heatPlane, outcome, burst } = jet;
  const { count, x: rayX, y: rayY, layer: rayLayer, depth: rayDepth, weight: rayWeight } = rays;
  const { x: shiftX, y: shiftY } = jet.shifts;
  const { perJ, temperatureK, conductivity, meltingK, thrownJPerMm3 } = table;
  const lastEntry = temperatureK.length - 2;
  const perWeight = rays.sum > 0 ? (burst.powerW * burst.stepS) / rays.sum : 0;
  const cellVolume = cellMm * cellMm * layerMm;
  const heatVolume = heat.cellMm * heat.cellMm * heat.layerMm;
  const contact = (cellMm * cellMm * burst.stepS) / MODEL.contactDepthMm;
  const keeping = 1 - outcome.escape;
  const wallLossMm = MODEL.wallLossMm * Math.sqrt(jet.jetRadiusMm);
  const perLength = (rays.lengthening * layerMm) / wallLossMm;
  const leastNeed = thrownJPerMm3 * 0.02;
  // Gas that strikes at a slant and has no way down takes part of its heat away with it, as the square of the sine of the lean.
  const slant = 1 - rays.cosine * rays.cosine;
  const blind = 1 - outcome.underShare;
  const planeCells = heat.nx * heat.ny;
  const cellCount = heatJ.length;
  const landing = 1 - MODEL.glanceShare * blind * slant;
  let glancedJ = 0;
  let wallJ = 0;
  let throughJ = 0;
  let conductedJ = 0;
  let removedJ = 0;
  let removedMm3 = 0;
  for (let ray = 0; ray < count; ray++) {
    let left = rayWeight[ray]! * perWeight;
    let k = rayLayer[ray]!;
    if (k >= layers) {
      throughJ += left;
      continue;
    }
    const down = rayDepth[ray]! * perLength;
    const arrived = left / (1 + down * (1 + down * (0.5 + down * (1 / 6))));
    wallJ += left - arrived;
    left = arrived * landing;
    glancedJ += arrived - left;
    const ix = rayX[ray]!;
    const iy = rayY[ray]!;
    let first = true;
    while (left > 0 && k < layers) {
      const cx = ix + shiftX[k]!;
      const cy = iy + shiftY[k]!;
      // A steep ray can leave the grid below the metal that it melts.
      if (cx < 0 || cx >= nx || cy < 0 || cy >= ny) break;
      const column = cy * nx + cx;
      const cell = column * layers + k;
      const before = gone[cell]!;
      if (before >= 1 || (anyFallen && pieceOf[column]! > 0)) {
        k++;
        continue;
      }
      const warm = heatPlane[k]! + (cy >> METAL_CELLS_SHIFT) * heatNx + (cx >> METAL_CELLS_SHIFT);
      const share = metalShare[warm]!;
      let held = heatJ[warm]!;
      const density = share > 1e-9 ? held / (share * heatVolume) : 0;
      if (first) {
        first = false;
        // What the ray meets is read between the heat cells' middles: a front must not feel their edges.
        const stepX = (cx & 3) < 2 ? -1 : 1;
        const stepY = (cy & 3) < 2 ? -heatNx : heatNx;
        const partX = (cx & 3) === 0 || (cx & 3) === 3 ? 0.375 : 0.125;
        const partY = (cy & 3) === 0 || (cy & 3) === 3 ? 0.375 : 0.125;
        const w00 = (1 - partX) * (1 - partY);
        const w10 = partX * (1 - partY);
        const w01 = (1 - partX) * partY;
        const w11 = partX * partY;
        let metalNear =
          w00 * share +
          w10 * metalShare[warm + stepX]! +
          w01 * metalShare[warm + stepY]! +
          w11 * metalShare[warm + stepX + stepY]!;
        let heatNear = w00 * held + w10 * heatJ[warm + stepX]! + w01 * heatJ[warm + stepY]! + w11 * heatJ[warm + stepX + stepY]!;
        // The floor of a blind hole must not feel the edges between heat layers either: it would come to rest on them.
        let stepZ = 0;
        let partZ = 0;
        if (blind > 0) {
          const fromMiddle = ((k & 3) + before) / 4 - 0.5;
          stepZ = fromMiddle < 0 ? -planeCells : planeCells;
          if (warm + stepZ >= 0 && warm + stepZ < cellCount) partZ = blind * (fromMiddle < 0 ? -fromMiddle : fromMiddle);
        }
        if (partZ > 0) {
          const next = warm + stepZ;
          const metalNext =
            w00 * metalShare[next]! +
            w10 * metalShare[next + stepX]! +
            w01 * metalShare[next + stepY]! +
            w11 * metalShare[next + stepX + stepY]!;
          const heatNext =
            w00 * heatJ[next]! + w10 * heatJ[next + stepX]! + w01 * heatJ[next + stepY]! + w11 * heatJ[next + stepX + stepY]!;
          metalNear += partZ * (metalNext - metalNear);
          heatNear += partZ * (heatNext - heatNear);
        }
        const near = metalNear > 1e-9 ? heatNear / (metalNear * heatVolume) : 0;
        const place = near * perJ;
        const entry = place < lastEntry ? (place > 0 ? place | 0 : 0) : lastEntry;
        const base = temperatureK[entry]!;
        const rise = base + (place - entry) * (temperatureK[entry + 1]! - base);
        let given = 0;
        if (rise < meltingK) {
          // At a front half of the four cells around is gone: the wetted share is that of a whole face.
          given = contact * conductivity[entry]! * (meltingK - rise) * (metalNear < 0.5 ? 2 * metalNear : 1);
          if (given > left) given = left;
          left -= given;
        }
        // Melt that cannot climb out of a blind hole freezes on its walls.
        const kept = left * keeping;
        wallJ += kept;
        left -= kept;
        conductedJ += given;
        if (metalNear <= 1e-9) held += given;
        else if (given > 0) {
          let perMetal = given / metalNear;
          if (partZ > 0) {
            const next = warm + stepZ;
            const perNext = perMetal * partZ;
            heatJ[next] = heatJ[next]! + perNext * w00 * metalShare[next]!;
            heatJ[next + stepX] = heatJ[next + stepX]! + perNext * w10 * metalShare[next + stepX]!;
            heatJ[next + stepY] = heatJ[next + stepY]! + perNext * w01 * metalShare[next + stepY]!;
            const far = next + stepX + stepY;
            heatJ[far] = heatJ[far]! + perNext * w11 * metalShare[far]!;
            perMetal -= perNext;
          }
          held += perMetal * w00 * share;
          heatJ[warm + stepX] = heatJ[warm + stepX]! + perMetal * w10 * metalShare[warm + stepX]!;
          heatJ[warm + stepY] = heatJ[warm + stepY]! + perMetal * w01 * metalShare[warm + stepY]!;
          const corner = warm + stepX + stepY;
          heatJ[corner] = heatJ[corner]! + perMetal * w11 * metalShare[corner]!;
        }
        if (left <= 0) {
          heatJ[warm] = held;
          break;
        }
      }
      const need = thrownJPerMm3 > density * 1.02 ? thrownJPerMm3 - density : leastNeed;
      let volume = left / need;
      const there = (1 - before) * cellVolume;
      if (volume >= there) {
        volume = there;
        gone[cell] = 1;
      } else {
        const after = before + volume / cellVolume;
        gone[cell] = after > 0.999999 ? 1 : after;
      }
      const used = volume * need;
      const carried = volume * density;
      left -= used;
      const shareAfter = share - volume / heatVolume;
      metalShare[warm] = shareAfter > 1e-9 ? shareAfter : 0;
      heatJ[warm] = held - carried;
      conductedJ -= carried;
      removedJ += used + carried;
      removedMm3 += volume;
      k++;
    }
    throughJ += left;
  }
  melted.wallJ = wallJ;
  melted.glancedJ = glancedJ;
  melted.throughJ = throughJ;
  melted.conductedJ = conductedJ;
  melted.removedJ = removedJ;
  melted.removedMm3 = removedMm3;
}
