import { depthAt, firstMetal } from './align-layers.ts';
import type { Jet, JetPose } from './jet.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';

/** The rays of the footprint that met something or passed, in the order of the cells, and what they add up to. Reused. */
export interface TracedRays {
  /** Cell of the top layer by which the ray enters, the first layer with metal (`layers` where it passes), its depth in layers. */
  x: Int32Array;
  y: Int32Array;
  layer: Int16Array;
  depth: Float64Array;
  weight: Float64Array;
  count: number;
  /** Weights of all rays, of those that met metal, and these times their depth. */
  sum: number;
  metSum: number;
  depthSum: number;
  /** Greatest depth, in layers. */
  deepest: number;
  /** Where the axis meets the top surface, from the corner of the grid, mm, and the jet's radius there. */
  footX: number;
  footY: number;
  radiusTop: number;
  /** Length along the axis per depth, and its inverse. */
  lengthening: number;
  cosine: number;
}

export function createTracedRays(): TracedRays {
  const rays = {
    ...{ count: 0, sum: 0, metSum: 0, depthSum: 0, deepest: 0 },
    ...{ footX: 0, footY: 0, radiusTop: 0, lengthening: 1, cosine: 1 },
  };
  return { ...rays, ...rayArrays(1024) };
}

function rayArrays(capacity: number): Pick<TracedRays, 'x' | 'y' | 'layer' | 'depth' | 'weight'> {
  return {
    x: new Int32Array(capacity),
    y: new Int32Array(capacity),
    layer: new Int16Array(capacity),
    depth: new Float64Array(capacity),
    weight: new Float64Array(capacity),
  };
}

/**
 * Follows every ray of the jet to the first metal. The jet is a cone with the profile (1 - p)(1 + b p), p = (r/R)^2, R the
 * radius at the depth where the ray ends.
 */
export function traceRays(jet: Jet, metal: MetalField, pose: JetPose, anyFallen: boolean): void {
  const { nx, ny, layers, layerMm, cellMm, gone, pieceOf, openedTo } = metal;
  const { rays, shifts } = jet;
  const tanX = pose.leanTanX;
  const tanY = pose.leanTanY;
  const lengthening = Math.sqrt(1 + tanX * tanX + tanY * tanY);
  const cosine = 1 / lengthening;
  const footX = pose.xMm - tanX * pose.heightMm - metal.x0Mm;
  const footY = pose.yMm - tanY * pose.heightMm - metal.y0Mm;
  const path0 = pose.heightMm * lengthening;
  const spread = MODEL.jetSpread;
  const shape = MODEL.jetShape;
  // A jet that finds its way open spreads to the walls: the kerf of a slow hand is wide.
  // One that glances along the floor of a groove is spread out sideways.
  const spreading = MODEL.jetFlare * jet.burst.openShare + MODEL.glanceSpread * jet.burst.blindShare * (1 - cosine * cosine);
  const nozzleRadius = jet.jetRadiusMm * (1 + spreading);
  const radiusTop = nozzleRadius + jet.openSpread * path0;
  const pathPerLayer = layerMm * lengthening;
  // Widest the footprint can be: the radius at the underside, plus the growth across a leaning footprint.
  const radiusBottom = radiusTop + spread * layers * pathPerLayer;
  const reach = (radiusBottom * lengthening) / (1 - spread * (lengthening - cosine)) + cellMm;
  // In the plane across a leaning axis the footprint is an ellipse, (1 - xx) x^2 - 2 xy x y + (1 - yy) y^2 < widest^2.
  const widest = radiusBottom + spread * reach * Math.sqrt(tanX * tanX + tanY * tanY) * cosine;
  const alongX = 1 - tanX * tanX * cosine * cosine;
  const alongXY = tanX * tanY * cosine * cosine;
  const halfY = widest * Math.sqrt(1 + tanY * tanY) + cellMm;
  const iyFrom = ((footY - halfY) / cellMm) | 0;
  const iyTo = ((footY + halfY) / cellMm + 1) | 0;
  makeRoom(rays, (iyTo - iyFrom + 1) * ((2 * widest * lengthening) / cellMm + 8));
  const { x: rayX, y: rayY, layer: rayLayer, depth: rayDepth, weight: rayWeight } = rays;
  const { bandEnd, bandColumn } = shifts;
  const bands = shifts.bands.count;
  const topColumn = bandColumn[0]!;
  // Rays that enter here have every layer on the grid.
  const lastX = shifts.x[layers - 1]!;
  const lastY = shifts.y[layers - 1]!;
  const gridX0 = lastX < 0 ? -lastX : 0;
  const gridX1 = lastX > 0 ? nx - lastX : nx;
  const gridY0 = lastY < 0 ? -lastY : 0;
  const gridY1 = lastY > 0 ? ny - lastY : ny;

  let count = 0;
  let sum = 0;
  let metSum = 0;
  let depthSum = 0;
  let deepest = 0;
  for (let iy = iyFrom; iy < iyTo; iy++) {
    const oy = (iy + 0.5) * cellMm - footY;
    const oyTan = oy * tanY;
    const oySquare = oy * oy;
    // The row's chord of the ellipse, with a cell to spare; which of its cells count is told exactly below.
    const inside = alongX * widest * widest - cosine * cosine * oySquare;
    const half = (inside > 0 ? Math.sqrt(inside) / alongX : 0) + cellMm;
    const middle = footX + (alongXY * oy) / alongX;
    const ixFrom = ((middle - half) / cellMm) | 0;
    const ixTo = ((middle + half) / cellMm + 1) | 0;
    const rowInGrid = iy >= gridY0 && iy < gridY1;
    for (let ix = ixFrom; ix < ixTo; ix++) {
      const ox = (ix + 0.5) * cellMm - footX;
      // Along the jet (downward), the ray's foot lies this much further than the axis's.
      const along = -(ox * tanX + oyTan) * cosine;
      const r2 = ox * ox + oySquare - along * along;
      const near = radiusBottom + spread * along;
      if (r2 >= near * near) continue;
      let k = 0;
      let depth = layers;
      if (rowInGrid && ix >= gridX0 && ix < gridX1) {
        // The same as `firstMetal`, without its look at the grid's rim.
        const top = iy * nx + ix;
        // Around the jet most rays lie outside what it reaches on metal that is still there at the top.
        const first = radiusTop + spread * (along + pathPerLayer);
        if (r2 >= first * first && !anyFallen && gone[(top + topColumn) * layers]! < 1) continue;
        for (let band = 0; band < bands; band++) {
          const end = bandEnd[band]!;
          const column = top + bandColumn[band]!;
          if (!(anyFallen && pieceOf[column]! > 0)) {
            const opened = openedTo[column]!;
            const from = k;
            if (k < opened) k = opened;
            const base = column * layers;
            let there = 1;
            while (k < end) {
              there = gone[base + k]!;
              if (there < 1) break;
              k++;
            }
            if (from <= opened && k > opened) openedTo[column] = k;
            if (k < end) {
              depth = k + there;
              break;
            }
          }
          k = end;
        }
      } else {
        k = firstMetal(jet, metal, ix, iy, anyFallen);
        depth = depthAt(jet, metal, ix, iy, k);
      }
      const radius = radiusTop + spread * (along + depth * pathPerLayer);
      const radius2 = radius * radius;
      if (r2 >= radius2) continue;
      const ratio = r2 / radius2;
      const weight = ((1 - ratio) * (1 + shape * ratio)) / radius2;
      rayX[count] = ix;
      rayY[count] = iy;
      rayLayer[count] = k;
      rayDepth[count] = depth;
      rayWeight[count] = weight;
      count++;
      sum += weight;
      if (k < layers) {
        metSum += weight;
        depthSum += weight * depth;
      }
      if (depth > deepest) deepest = depth;
    }
  }
  rays.count = count;
  rays.sum = sum;
  rays.metSum = metSum;
  rays.depthSum = depthSum;
  rays.deepest = deepest;
  rays.footX = footX;
  rays.footY = footY;
  rays.radiusTop = radiusTop;
  rays.lengthening = lengthening;
  rays.cosine = cosine;
}

/** A tall or steep jet may need more rays than there ever were. */
function makeRoom(rays: TracedRays, atMost: number): void {
  if (atMost > rays.x.length) Object.assign(rays, rayArrays(2 * (atMost | 0)));
}
