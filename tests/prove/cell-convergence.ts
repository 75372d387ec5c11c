import { createCouponProbe } from '../../sim-core/drill/coupon-probe.ts';
import { type CouponOptions, runCoupon } from '../../sim-core/index.ts';
import { MODEL } from '../../sim-core/physics/model-constants.ts';

/** Steady figures of one coupon at a size of the cells; cells of heat and layers of metal grow and shrink with it. */
export interface CellFigures {
  cellMm: number;
  topKerfMm: number;
  bottomKerfMm: number;
  sparkAngleDeg: number | null;
  losingSpeedMmPerS: number;
}

/** A bracket of the losing speed is halved until it is this share of the speed. */
const PRECISION = 0.02;
const BRACKET_MM_PER_S = [4, 40] as const;

function losingSpeed(options: CouponOptions): number {
  const probe = createCouponProbe(options);
  let [keeps, loses]: [number, number] = [...BRACKET_MM_PER_S];
  while (loses - keeps > PRECISION * loses) {
    const middle = (keeps + loses) / 2;
    if (probe.cut(middle, false).complete) keeps = middle;
    else loses = middle;
  }
  return (keeps + loses) / 2;
}

/** Cuts the coupon on a grid that is so much finer (above 1) or coarser than the one that is shipped. */
export function figuresAt(options: CouponOptions, finer: number): CellFigures {
  const { cellMm, layerMm, heatCellMm } = MODEL;
  // Only here is the grid another: nothing that the core remembers between simulations depends on it.
  const put = (sizes: { cellMm: number; layerMm: number; heatCellMm: number }): unknown => Object.assign(MODEL, sizes);
  put({ cellMm: cellMm / finer, layerMm: layerMm / finer, heatCellMm: heatCellMm / finer });
  try {
    const { topKerfMm, bottomKerfMm, sparkAngleDeg } = runCoupon(options);
    return { cellMm: MODEL.cellMm, topKerfMm, bottomKerfMm, sparkAngleDeg, losingSpeedMmPerS: losingSpeed(options) };
  } finally {
    put({ cellMm, layerMm, heatCellMm });
  }
}
