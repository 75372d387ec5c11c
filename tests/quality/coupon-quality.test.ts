// How the estimates rise and fall on coupons. The directions are common practice (trade facts, no source); the figures are this
// model's own and are only compared with one another. Speeds are taken from each metal's own window.
import { beforeAll, describe, expect, test } from 'vitest';
import { type CouponResult, runCoupon } from '../../sim-core/drill/coupon.ts';
import type { CutCondition } from '../../sim-core/drill/cut-condition.ts';
import { speedWindow } from '../../sim-core/drill/speed-window.ts';
import { dragFromSparkMm } from '../../sim-core/quality/drag-line.ts';

const STEEL_3: CutCondition = { material: 'mild-steel', thicknessMm: 3, currentA: 45, rig: '60' };
const STEEL_6: CutCondition = { ...STEEL_3, thicknessMm: 6 };
const STEEL_10: CutCondition = { ...STEEL_3, thicknessMm: 10 };
const STAINLESS_6: CutCondition = { ...STEEL_6, material: 'stainless-steel' };
const ALUMINIUM_6: CutCondition = { ...STEEL_6, material: 'aluminium' };

interface Cuts {
  slow: CouponResult;
  right: CouponResult;
  fast: CouponResult;
  lost: CouponResult;
}

const cuts = new Map<CutCondition, Cuts>();
const of = (condition: CutCondition): Cuts => cuts.get(condition) as Cuts;

beforeAll(() => {
  for (const condition of [STEEL_3, STEEL_6, STEEL_10, STAINLESS_6, ALUMINIUM_6]) {
    const { windowLowMmPerS: low, windowHighMmPerS: high, losingSpeedMmPerS: losing } = speedWindow(condition);
    if (low === null || high === null || losing === null) throw new Error('A condition of this test has no speed window.');
    const at = (speedMmPerS: number): CouponResult => runCoupon({ ...condition, speedMmPerS });
    // 'Fast' is between the window and the losing speed, where there is such a place.
    cuts.set(condition, {
      slow: at(low / 3),
      right: at((low + high) / 2),
      fast: at((high + losing) / 2),
      lost: at(losing * 1.3),
    });
  }
});

describe.each([
  ['mild steel 3 mm', STEEL_3],
  ['mild steel 6 mm', STEEL_6],
  ['stainless steel 6 mm', STAINLESS_6],
  ['aluminium 6 mm', ALUMINIUM_6],
])('%s', (_, condition) => {
  test('too slow: thick soft dross below, a wider heat-affected zone, a rougher face', () => {
    const { slow, right } = of(condition);
    expect(slow.quality.dross.kind).toBe('low-speed');
    expect(slow.quality.dross.mm).toBeGreaterThan(0.4);
    expect(slow.quality.heatAffectedMm).toBeGreaterThan((right.quality.heatAffectedMm as number) * 1.2);
    expect(slow.quality.rz5_um).toBeGreaterThan(right.quality.rz5_um as number);
    expect(slow.quality.drag_mm).toBeLessThan(right.quality.drag_mm as number);
  });

  test('in the window: no dross, a face within the ranges', () => {
    const { quality } = of(condition).right;
    expect(quality.dross).toEqual({ kind: 'none', mm: 0 });
    expect(quality.uRange).toBeLessThanOrEqual(4);
    expect(quality.rz5Range).toBeLessThanOrEqual(3);
  });

  test('too fast: a thin hard bead below, a longer drag, a rougher face, less heat', () => {
    const { fast, right } = of(condition);
    expect(fast.quality.dross.kind).toBe('high-speed');
    expect(fast.quality.dross.mm).toBeLessThan(of(condition).slow.quality.dross.mm);
    expect(fast.quality.drag_mm).toBeGreaterThan((right.quality.drag_mm as number) * 1.2);
    expect(fast.quality.rz5_um).toBeGreaterThan(right.quality.rz5_um as number);
    expect(fast.quality.heatAffectedMm).toBeLessThan(right.quality.heatAffectedMm as number);
  });

  test('not through: spatter on top and no figure for a face that is not there', () => {
    const { quality, severedFraction } = of(condition).lost;
    expect(severedFraction).toBeLessThan(0.97);
    expect(quality.dross.kind).toBe('top-spatter');
    expect(quality).toMatchObject({ u_mm: null, uRange: null, rz5_um: null, rz5Range: null, drag_mm: null });
  });
});

test('the drag grows with the thickness, at the middle of each window', () => {
  const drags = [STEEL_3, STEEL_6, STEEL_10].map((condition) => of(condition).right.quality.drag_mm as number);
  expect(drags[1]).toBeGreaterThan((drags[0] as number) * 1.2);
  expect(drags[2]).toBeGreaterThan((drags[1] as number) * 1.2);
});

test('aluminium is changed farther in than stainless steel: it leads more of the heat away and softens at less', () => {
  const [aluminium, stainless] = [ALUMINIUM_6, STAINLESS_6].map((condition) => of(condition).right.quality.heatAffectedMm);
  expect(aluminium).toBeGreaterThan((stainless as number) * 1.5);
});

test('the drag that a run tells from its spark angle is that of the standing front within a fifth', () => {
  for (const [condition, { right, fast }] of cuts) {
    for (const coupon of [right, fast]) {
      if (coupon.sparkAngleDeg === null || coupon.quality.drag_mm === null) continue;
      const told = dragFromSparkMm(coupon.sparkAngleDeg, 0, condition.thicknessMm);
      expect(Math.abs(told / coupon.dragMm - 1), `${condition.material} ${condition.thicknessMm} mm`).toBeLessThan(0.2);
    }
  }
  const leaned = runCoupon({ ...STEEL_6, speedMmPerS: 9, travelAngleDeg: 12 });
  const told = dragFromSparkMm(leaned.sparkAngleDeg as number, Math.tan((12 * Math.PI) / 180), 6);
  expect(Math.abs(told / leaned.dragMm - 1)).toBeLessThan(0.2);
});

test('a bevel that was meant is no slant: nearly as square to its own angle as an upright cut is to the plate', () => {
  const upright = of(STEEL_6).right.quality;
  const speedMmPerS = 9;
  const bevel = runCoupon({ ...STEEL_6, speedMmPerS, workAngleDeg: 25 }).quality;
  expect(bevel.u_mm).toBeLessThan((upright.u_mm as number) + 0.35);
});
