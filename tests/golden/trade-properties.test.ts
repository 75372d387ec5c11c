// What must come out of the one model: P1 to P4, P8 and P14 of the design. All are common practice, no source; the numbers in
// them are the design's. Nothing here knows a constant of the model: it asks the coupon and the window, as a user would.
import { describe, expect, test } from 'vitest';
import {
  type CouponOptions,
  createSimulation,
  quantiseHand,
  RATED_SHARE,
  runCoupon,
  severingThicknessMm,
  smallestRigFor,
  speedWindow,
} from '../../sim-core/index.ts';
import type { MaterialId } from '../../sim-core/materials/material-id.ts';
import { openWidthMm } from '../../sim-core/quality/kerf-widths.ts';
import type { RigId } from '../../sim-core/run/types.ts';

const rigFor = (currentA: number): RigId => smallestRigFor(currentA).id;
const cut = (
  material: MaterialId,
  thicknessMm: number,
  currentA: number,
  speedMmPerS: number,
  more: Partial<CouponOptions> = {},
) => runCoupon({ material, thicknessMm, currentA, rig: rigFor(currentA), speedMmPerS, ...more });

describe('P1 and P2: a window of speeds, and what lies beside it', () => {
  const rated = (material: MaterialId, currentA: number): number =>
    RATED_SHARE * severingThicknessMm(material, currentA, rigFor(currentA));
  const conditions: [MaterialId, number | 'rated', number][] = [
    ['mild-steel', 1.5, 100],
    ['mild-steel', 3, 40],
    ['mild-steel', 6, 60],
    ['mild-steel', 'rated', 40],
    ['mild-steel', 'rated', 100],
    ['stainless-steel', 3, 60],
    ['stainless-steel', 'rated', 60],
    ['aluminium', 3, 40],
    ['aluminium', 10, 100],
    ['aluminium', 'rated', 60],
  ];
  test.each(conditions)(
    '%s, %s mm, %i A',
    (material, thickness, currentA) => {
      const thicknessMm = thickness === 'rated' ? rated(material, currentA) : thickness;
      const window = speedWindow({ material, thicknessMm, currentA, rig: rigFor(currentA) });
      expect(window.reason).toBeUndefined();
      const low = window.windowLowMmPerS!;
      const high = window.windowHighMmPerS!;
      const losing = window.losingSpeedMmPerS!;
      expect(high - low).toBeGreaterThanOrEqual(0.15 * losing);

      const middle = cut(material, thicknessMm, currentA, (low + high) / 2);
      expect(middle.severedFraction).toBeGreaterThanOrEqual(0.97);
      expect(middle.sparkSide).toBe('under');
      expect(middle.sparkAngleDeg).toBeGreaterThan(15);
      expect(middle.sparkAngleDeg).toBeLessThan(30);

      const slow = cut(material, thicknessMm, currentA, (low + high) / 6);
      if (thicknessMm >= 3) expect(slow.sparkAngleDeg).toBeLessThan(10);
      else expect(slow.sparkAngleDeg).toBeLessThanOrEqual(0.6 * middle.sparkAngleDeg!);
      expect(slow.topKerfMm).toBeGreaterThan(middle.topKerfMm);
      expect(slow.bottomKerfMm).toBeGreaterThan(middle.bottomKerfMm);

      const lost = cut(material, thicknessMm, currentA, losing * 1.5);
      expect(lost.sparkSide).toBe('top');
      expect(lost.severedFraction).toBeLessThan(0.1);
      expect(lost.sparkAngleDeg).toBeNull();
    },
    120_000,
  );
});

describe('P3: spark angle rises with speed, falls with current, rises with thickness (0.5 deg)', () => {
  const thicknesses = [1.5, 3, 6, 10];
  const currents = [40, 60, 100];
  const speeds = [4, 8, 14, 22];
  test.each<MaterialId>(['mild-steel', 'stainless-steel', 'aluminium'])(
    '%s',
    (material) => {
      const grid = thicknesses.map((t) =>
        currents.map((a) =>
          speeds.map((v) => {
            const result = cut(material, t, a, material === 'aluminium' ? v * 2 : v);
            return result.severedFraction >= 0.97 ? result.sparkAngleDeg : null;
          }),
        ),
      );
      let compared = 0;
      const notBelow = (larger: number | null | undefined, smaller: number | null | undefined, where: string): void => {
        if (larger == null || smaller == null) return;
        compared++;
        expect(larger, where).toBeGreaterThan(smaller - 0.5);
      };
      for (const [t, byCurrent] of grid.entries()) {
        for (const [a, bySpeed] of byCurrent.entries()) {
          for (const [v, angle] of bySpeed.entries()) {
            const where = `${thicknesses[t]} mm, ${currents[a]} A, speed ${speeds[v]}`;
            notBelow(angle, bySpeed[v - 1], `${where}: rises with speed`);
            notBelow(byCurrent[a - 1]?.[v], angle, `${where}: falls with current`);
            notBelow(angle, grid[t - 1]?.[a]?.[v], `${where}: rises with thickness`);
          }
        }
      }
      expect(compared).toBeGreaterThan(60);
    },
    180_000,
  );
});

describe('P4: the edge start', () => {
  /** Starts over the middle of an edge, waits, then moves at a speed; returns the plate. */
  function start(thicknessMm: number, waitS: number, speedMmPerS: number) {
    const simulation = createSimulation({
      material: 'mild-steel',
      thicknessMm,
      lengthMm: 60,
      widthMm: 40,
      rig: '60',
      currentA: 60,
      seed: 0,
    });
    let lit = 0;
    let y = 0;
    while (y < 25) {
      // Counted from the first light on: over a hole of its own making a waiting arc goes out.
      if (simulation.sample.arcState === 3 || lit > 0) lit++;
      if (lit / 240 > waitS) y += speedMmPerS / 240;
      simulation.step(quantiseHand({ xMm: 30.06, yMm: y, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: true }));
    }
    return simulation;
  }
  const openShare = (simulation: ReturnType<typeof start>, toMm: number): number => {
    let open = 0;
    let places = 0;
    for (let y = 0.1; y < toMm; y += 0.1) {
      places++;
      if (simulation.isOpenAlongAxis(30.06, y, 0, 0)) open++;
    }
    return open / places;
  };

  test('the pause grows with thickness', () => {
    const pauses = [3, 6, 10, 15].map((t) => cut('mild-steel', t, 60, 20).edgeDwellS!);
    for (let i = 1; i < pauses.length; i++) expect(pauses[i]).toBeGreaterThan(pauses[i - 1]!);
  });

  test('leaving early leaves a wedge, waiting until through leaves none', () => {
    const pauseS = cut('mild-steel', 10, 60, 5).edgeDwellS!;
    const window = speedWindow({ material: 'mild-steel', thicknessMm: 10, currentA: 60, rig: '60' });
    const speed = (window.windowLowMmPerS! + window.windowHighMmPerS!) / 2;
    expect(openShare(start(10, pauseS, speed), 4)).toBe(1);
    expect(openShare(start(10, 0, speed), 4)).toBeLessThan(0.8);
  });

  test('leaving late widens the start', () => {
    const pauseS = cut('mild-steel', 10, 60, 5).edgeDwellS!;
    const window = speedWindow({ material: 'mild-steel', thicknessMm: 10, currentA: 60, rig: '60' });
    const speed = (window.windowLowMmPerS! + window.windowHighMmPerS!) / 2;
    // Mean width near the underside over the first millimetre.
    const width = (waitS: number): number => {
      const simulation = start(10, waitS, speed);
      const places = [0.1, 0.3, 0.5, 0.7, 0.9];
      return places.reduce((sum, y) => sum + openWidthMm(simulation, 30.06, y, 9.8), 0) / places.length;
    };
    expect(width(pauseS + 1)).toBeGreaterThan(width(pauseS) + 0.1);
  });
});

describe('P8: a bevel cuts like the plate it crosses', () => {
  const losing = (thicknessMm: number, workAngleDeg: number): number => {
    let keeps = 4;
    let loses = 40;
    while (loses - keeps > 0.01 * loses) {
      const middle = (keeps + loses) / 2;
      if (cut('mild-steel', thicknessMm, 60, middle, { workAngleDeg }).severedFraction >= 0.97) keeps = middle;
      else loses = middle;
    }
    return keeps;
  };
  test.each([15, 30, 45])(
    'at %i deg the losing speed is that of t / cos b within 10 %%',
    (degrees) => {
      const slanted = losing(6, degrees);
      const thicker = losing(6 / Math.cos((degrees * Math.PI) / 180), 0);
      expect(Math.abs(slanted / thicker - 1)).toBeLessThan(0.1);
    },
    60_000,
  );
});

describe('P14: three metals as their properties say', () => {
  test('aluminium conducts the largest share away, stainless steel the smallest, and aluminium travels fastest', () => {
    const look = (material: MaterialId) => {
      const window = speedWindow({ material, thicknessMm: 6, currentA: 60, rig: '60' });
      const middle = cut(material, 6, 60, (window.windowLowMmPerS! + window.windowHighMmPerS!) / 2);
      return { share: middle.energy.conductedJ / middle.energy.deliveredJ, losing: window.losingSpeedMmPerS! };
    };
    const steel = look('mild-steel');
    const stainless = look('stainless-steel');
    const aluminium = look('aluminium');
    expect(aluminium.share).toBeGreaterThan(steel.share);
    expect(steel.share).toBeGreaterThan(stainless.share);
    expect(aluminium.losing).toBeGreaterThan(stainless.losing);
    expect(aluminium.losing).toBeGreaterThan(steel.losing);
  });
});
