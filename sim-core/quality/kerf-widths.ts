import type { Simulation } from '../run/types.ts';

/** Mean widths of a kerf, mm. */
export interface KerfWidths {
  topMm: number;
  bottomMm: number;
}

/** Half the breadth looked at, mm. */
const REACH_MM = 15;

/**
 * Width of the open band around (xMm, yMm), measured along x at a depth, mm: gone metal summed outward from the middle to
 * the first whole cell on either side. 0 where the middle is not open.
 */
export function openWidthMm(simulation: Simulation, xMm: number, yMm: number, depthMm: number): number {
  const { cellMm } = simulation.grid;
  if (simulation.goneAt(xMm, yMm, depthMm) < 0.5) return 0;
  let width = 0;
  for (const way of [1, -1]) {
    for (let out = way > 0 ? 0 : cellMm; out < REACH_MM; out += cellMm) {
      const gone = simulation.goneAt(xMm + way * out, yMm, depthMm);
      if (gone <= 0) break;
      width += gone * cellMm;
    }
  }
  return width;
}

/** Mean top and bottom width of a kerf that runs along y from one y to another, its middle at lineX(y) on top and leaning by a tangent. */
export function measureKerf(
  simulation: Simulation,
  lineX: (yMm: number) => number,
  fromYMm: number,
  toYMm: number,
  leanTanX: number,
): KerfWidths {
  const { grid, setup } = simulation;
  const topDepth = 0.5 * grid.layerMm;
  const bottomDepth = setup.thicknessMm - 0.5 * grid.layerMm;
  let top = 0;
  let bottom = 0;
  let places = 0;
  for (let y = fromYMm; y < toYMm; y += grid.cellMm) {
    top += openWidthMm(simulation, lineX(y) - leanTanX * topDepth, y, topDepth);
    bottom += openWidthMm(simulation, lineX(y) - leanTanX * bottomDepth, y, bottomDepth);
    places++;
  }
  return { topMm: top / places, bottomMm: bottom / places };
}
