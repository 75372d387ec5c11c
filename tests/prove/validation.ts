// npm run prove:validation: every published figure beside the core's, and what becomes of a cut's steady figures on finer cells.
import type { CouponOptions } from '../../sim-core/index.ts';
import { PUBLISHED_CHECKS } from '../reference/published-checks.ts';
import { type CellFigures, figuresAt } from './cell-convergence.ts';
import { campaignOptions, keepEvidence } from './evidence.ts';

/** How much finer than the shipped cells of 0.25 mm: 0.5, 0.25 and 0.125 mm. */
const FINER = [0.5, 1, 2];
const QUICK_FINER = [0.5, 1];
/** What a figure may change, as a share, from the shipped cells to those of half the size. */
const LARGEST_CHANGE = 0.1;

/** Speeds in the window of the shipped cells. */
const COUPONS: CouponOptions[] = [
  { material: 'mild-steel', thicknessMm: 6, currentA: 45, rig: '60', speedMmPerS: 9 },
  { material: 'mild-steel', thicknessMm: 12, currentA: 45, rig: '60', speedMmPerS: 4.5 },
];

const options = campaignOptions(20);
const until = Date.now() + options.minutes * 60_000;
const checks = PUBLISHED_CHECKS.map(({ ours, ...check }) => {
  const value = ours();
  const error = Math.abs(value - check.published);
  return { ...check, ours: value, error, holds: error <= check.tolerance };
});

/** Changes of all figures from one size of the cells to the next, as shares; NaN where one of them has no such figure. */
function changes(from: CellFigures, to: CellFigures): Record<string, number> {
  const share = (a: number | null, b: number | null): number => (a === null || b === null ? Number.NaN : (b - a) / a);
  return {
    topKerf: share(from.topKerfMm, to.topKerfMm),
    bottomKerf: share(from.bottomKerfMm, to.bottomKerfMm),
    sparkAngle: share(from.sparkAngleDeg, to.sparkAngleDeg),
    losingSpeed: share(from.losingSpeedMmPerS, to.losingSpeedMmPerS),
  };
}

const sizes = options.quick ? QUICK_FINER : FINER;
const convergence = COUPONS.map((coupon) => {
  const figures: CellFigures[] = [];
  for (const finer of sizes) if (Date.now() < until) figures.push(figuresAt(coupon, finer));
  return { coupon, figures, changes: figures.slice(1).map((to, n) => changes(figures[n]!, to)) };
});

const failed = checks.filter(({ holds }) => !holds);
const isWhole = convergence.every(({ figures }) => figures.length === sizes.length);
// The last step of all: to half the shipped cells, or in a quick campaign to the shipped ones.
const lastChanges = convergence.flatMap((one) => one.changes.slice(-1));
const greatest = (figure: 'topKerf' | 'bottomKerf' | 'sparkAngle' | 'losingSpeed'): number =>
  Math.max(...lastChanges.map((change) => Math.abs(change[figure] ?? Number.NaN)));
const halving = {
  topKerfChange: greatest('topKerf'),
  bottomKerfChange: greatest('bottomKerf'),
  sparkAngleChange: greatest('sparkAngle'),
  losingSpeedChange: greatest('losingSpeed'),
};
const largestChange = Math.max(...Object.values(halving));
const closed = checks.filter(({ unit }) => unit === 'greatest relative error');
keepEvidence(
  {
    campaign: 'validation',
    seed: 0,
    asked: { outsideTolerance: 0, changeOnHalvingTheCells: LARGEST_CHANGE },
    got: {
      published: checks.length,
      outsideTolerance: failed.length,
      largestErrorAgainstClosedForms: Math.max(...closed.map(({ error }) => error)),
      changeOnHalvingTheCells: largestChange,
      ...halving,
      checks,
      convergence,
    },
    holds: failed.length === 0 && isWhole && (options.quick || largestChange <= LARGEST_CHANGE),
    notes: [
      'Each check names its source and whether it was read or is from memory; tests/reference holds the core to the same list.',
      'Convergence: two coupons of mild steel, 6 and 12 mm at 45 A. Layers and cells of heat shrink with the cells of metal, so the stretch of plate around the jet that is stepped exactly shrinks too; the losing speed is known to 2 %.',
      'The comparison with finite elements is in npm run bench, where both run side by side.',
    ],
  },
  `${checks.length} published figures, ${failed.length} outside their tolerance; on halving the cells figures change by at most ${(100 * largestChange).toFixed(1)} %`,
  options,
);
