// What must come out of the one model: P5, P6, P10 and P11 of the design. All are common practice, no source; the numbers in
// them are the design's. Nothing here knows a constant of the model: it moves a torch, as the command line does.
import { describe, expect, test } from 'vitest';
import {
  createSimulation,
  fitFor,
  type GougeOptions,
  gougeCoupon,
  PIERCE_METHODS,
  type PierceMethod,
  type PierceResult,
  pierceCoupon,
  piercingThicknessMm,
  quantiseHand,
  RATED_SHARE,
  type RigId,
  severingThicknessMm,
  topDepthMm,
} from '../../sim-core/index.ts';
import type { MaterialId } from '../../sim-core/materials/material-id.ts';

const CONDITIONS: [MaterialId, number, RigId][] = [
  ['mild-steel', 45, '60'],
  ['mild-steel', 100, '100'],
  ['stainless-steel', 60, '60'],
  ['aluminium', 100, '100'],
];

describe.each(CONDITIONS)('P5 and P6: piercing %s at %i A', (material, currentA, rig) => {
  const pierce = (thicknessMm: number): Record<PierceMethod, PierceResult> => {
    const condition = { material, thicknessMm, currentA, rig };
    const results = PIERCE_METHODS.map((method) => [method, pierceCoupon(condition, method)] as const);
    return Object.fromEntries(results) as Record<PierceMethod, PierceResult>;
  };

  test('thin metal: a contact pierce works, at once', () => {
    const { contact } = pierce(1.5);
    expect(contact.brokeThrough).toBe(true);
    expect(contact.timeS).toBeLessThan(0.3);
  });

  test('at half the rated thickness the torch gets most upright on the plate, least rolling, at least three to one', () => {
    const results = pierce((severingThicknessMm(material, currentA, rig) * RATED_SHARE) / 2);
    const { contact, rolling, 'stand-off': standOff } = results;
    expect(rolling.brokeThrough).toBe(true);
    expect(standOff.brokeThrough).toBe(true);
    expect(contact.blowbackDose).toBeGreaterThan(1.1 * standOff.blowbackDose);
    expect(standOff.blowbackDose).toBeGreaterThan(1.1 * rolling.blowbackDose);
    expect(contact.blowbackDose).toBeGreaterThanOrEqual(3 * rolling.blowbackDose);
    expect(contact.spentLifeFraction).toBeGreaterThan(2 * rolling.spentLifeFraction);
  });

  test('it pierces 0.4 to 0.6 of what it severs', () => {
    const share = piercingThicknessMm(material, currentA, rig) / severingThicknessMm(material, currentA, rig);
    expect(share).toBeGreaterThanOrEqual(0.4);
    expect(share).toBeLessThanOrEqual(0.6);
  });
});

test('P5: a stand-off pierce leaves a round hole, a rolling one is drawn out where it rolled', () => {
  const condition = { material: 'mild-steel', thicknessMm: 6, currentA: 45, rig: '60' } as const;
  expect(pierceCoupon(condition, 'rolling').craterTopMm).toBeGreaterThan(pierceCoupon(condition, 'stand-off').craterTopMm);
});

describe('P10: a groove', () => {
  const groove = (more: Partial<GougeOptions>) =>
    gougeCoupon({
      ...{ material: 'mild-steel', thicknessMm: 12, currentA: 60, rig: '60' },
      ...{ pushAngleDeg: 40, speedMmPerS: 10, standOffMm: 3 },
      ...more,
    });
  const usual = groove({});

  test('at 40 deg, with a small gap and a steady hand, there is an even groove that is wider than deep', () => {
    expect(usual.evenness).toBeGreaterThan(0.9);
    expect(usual.grooveDepthMm).toBeGreaterThan(1);
    expect(usual.grooveDepthMm).toBeLessThan(8);
    expect(usual.grooveWidthMm).toBeGreaterThan(usual.grooveDepthMm);
  });

  test('a steeper torch digs deeper and narrower, a flatter one shallower', () => {
    const steep = groove({ pushAngleDeg: 20 });
    const flat = groove({ pushAngleDeg: 55 });
    expect(steep.grooveDepthMm).toBeGreaterThan(1.15 * usual.grooveDepthMm);
    expect(steep.grooveWidthMm).toBeLessThan(usual.grooveWidthMm);
    expect(flat.grooveDepthMm).toBeLessThan(0.85 * usual.grooveDepthMm);
  });

  test('faster is shallower', () => {
    const depths = [5, 8, 12, 18, 26].map((speedMmPerS) => groove({ speedMmPerS }).grooveDepthMm);
    for (const [i, depth] of depths.slice(1).entries()) expect(depth).toBeLessThan(depths[i]!);
  });

  test('a longer stand-off is wider and shallower', () => {
    const far = groove({ standOffMm: 8 });
    expect(far.grooveWidthMm).toBeGreaterThan(usual.grooveWidthMm + 0.5);
    expect(far.grooveDepthMm).toBeLessThan(usual.grooveDepthMm);
  });

  test('weaving widens, a second pass deepens', () => {
    expect(groove({ weaveMm: 2 }).grooveWidthMm).toBeGreaterThan(usual.grooveWidthMm + 1);
    expect(groove({ passes: 2 }).grooveDepthMm).toBeGreaterThan(1.2 * usual.grooveDepthMm);
  });

  test('parts matter: a cutting nozzle on the same pose digs a slit', () => {
    const cutting = slit();
    expect(cutting.width).toBeLessThan(0.8 * usual.grooveWidthMm);
  });

  /** The same pose and speed with the parts for cutting. */
  function slit(): { width: number } {
    const simulation = createSimulation({
      ...{ material: 'mild-steel', thicknessMm: 12, lengthMm: 60, widthMm: 40 },
      ...{ rig: '60', currentA: 60, seed: 0, fit: fitFor('cut', 60) },
    });
    for (let tick = 0; tick < 240 * 4; tick++) {
      const alongMm = 10 + (tick * 10) / 240;
      const beside = Math.tan((40 * Math.PI) / 180) * 3;
      simulation.step(quantiseHand({ xMm: alongMm - beside, yMm: 20, heightMm: 3, leanXDeg: -40, leanYDeg: 0, trigger: true }));
    }
    let width = 0;
    for (let y = 10; y < 30; y += 0.25) width += topDepthMm(simulation, 30, y + 0.01) > 0.3 ? 0.25 : 0;
    return { width };
  }
});

describe('P11: marks', () => {
  const line = (currentA: number, speedMmPerS: number) =>
    gougeCoupon({
      ...{ material: 'mild-steel', thicknessMm: 3, rig: '40', currentA, speedMmPerS },
      ...{ pushAngleDeg: 0, standOffMm: 2, mode: 'mark' },
    });

  test.each([
    [10, 40],
    [12, 40],
    [15, 45],
    [20, 80],
  ])('%i A at %i mm/s draws a line of 0.1 to 0.5 mm', (currentA, speedMmPerS) => {
    const { grooveDepthMm } = line(currentA, speedMmPerS);
    expect(grooveDepthMm).toBeGreaterThan(0.1);
    expect(grooveDepthMm).toBeLessThan(0.5);
  });

  const touch = (currentA: number, seconds: number): { depthMm: number; through: boolean } => {
    const simulation = createSimulation({
      ...{ material: 'mild-steel', thicknessMm: 3, lengthMm: 40, widthMm: 40 },
      ...{ rig: '40', currentA, seed: 0, fit: fitFor('mark', currentA) },
    });
    let through = false;
    for (let lit = 0, tick = 0; lit < seconds * 240 && tick < 1000; tick++) {
      simulation.step(quantiseHand({ xMm: 20, yMm: 20, heightMm: 2, leanXDeg: 0, leanYDeg: 0, trigger: true }));
      if (simulation.sample.arcState === 3) lit++;
      through ||= simulation.sample.throughFraction > 0.001;
    }
    let depthMm = 0;
    for (let x = 18; x < 22; x += 0.25) {
      for (let y = 18; y < 22; y += 0.25) depthMm = Math.max(depthMm, topDepthMm(simulation, x + 0.01, y + 0.01));
    }
    return { depthMm, through };
  };

  test('a short touch makes a dimple of 0.1 to 0.5 mm', () => {
    for (const [currentA, seconds] of [
      [10, 0.06],
      [12, 0.05],
    ] as const) {
      const { depthMm } = touch(currentA, seconds);
      expect(depthMm).toBeGreaterThan(0.1);
      expect(depthMm).toBeLessThan(0.5);
    }
  });

  test('a touch of up to a third of a second never goes through 3 mm', () => {
    for (const currentA of [8, 12, 15]) expect(touch(currentA, 0.33).through).toBe(false);
  });
});
