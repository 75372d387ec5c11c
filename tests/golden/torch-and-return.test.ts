// What must come out of the one model: P7, P9, P12 and P13 of the design. All are common practice, no source; the numbers in
// them are the design's.
import { describe, expect, test } from 'vitest';
import {
  ARC_STATES,
  createSimulation,
  fitFor,
  type PointMm,
  pierceCoupon,
  quantiseHand,
  type RigFit,
  type RigMode,
  type Simulation,
  type SimulationSetup,
  speedWindow,
  spentLife,
} from '../../sim-core/index.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

interface Told {
  /** Way of the tip over the plate, mm. */
  reachedMm: number;
  lit: number;
  /** Ticks of pilot, arcs lost before the far edge. */
  lost: number;
  meanSparkDeg: number;
  doubleShare: number;
  meanLeanDeg: number;
  openShare: number;
  simulation: Simulation;
}

interface Cut {
  mode?: RigMode;
  change?: (fit: RigFit) => void;
  setup?: Partial<SimulationSetup>;
  heightMm?: number;
  seconds?: number;
  /** Go on moving where there is no arc, as a hand does on mesh. */
  goOn?: boolean;
  speedMmPerS?: number;
}

const WIDTH_MM = 60;

/** 6 mm mild steel at 45 A, straight across from the edge, half a second of pause after the strike. */
function cut({ mode = 'cut', change, setup, heightMm = 1.5, seconds = 12, goOn = false, speedMmPerS = 10 }: Cut): Told {
  const fit = fitFor(mode, 45);
  change?.(fit);
  const simulation = createSimulation({
    ...{ material: 'mild-steel', thicknessMm: 6, lengthMm: 100, widthMm: WIDTH_MM },
    ...{ rig: '60', currentA: 45, seed: 7, fit },
    ...setup,
  });
  const told = { reachedMm: 0, lit: 0, lost: 0, spark: 0, sparks: 0, doubles: 0, lean: 0 };
  let before = 0;
  for (let tick = 0; tick < seconds * 240 && told.reachedMm < WIDTH_MM + 6; tick++) {
    simulation.step(quantiseHand({ xMm: 50, yMm: told.reachedMm, heightMm, leanXDeg: 0, leanYDeg: 0, trigger: true }));
    const { sample } = simulation;
    const burning = sample.arcState === TRANSFERRED;
    if (burning) told.lit++;
    if ((burning || (goOn && told.lit > 0)) && told.lit > 120) told.reachedMm += speedMmPerS / 240;
    if (before === TRANSFERRED && !burning && told.reachedMm < WIDTH_MM - 1) told.lost++;
    if (burning && sample.doubleArcShare > 0) told.doubles++;
    if (burning) told.lean += sample.arcLeanDeg;
    if (!Number.isNaN(sample.sparkAngleDeg)) {
      told.spark += sample.sparkAngleDeg;
      told.sparks++;
    }
    before = sample.arcState;
  }
  let open = 0;
  for (let y = 5; y < WIDTH_MM - 5; y++) if (simulation.isOpenAlongAxis(50, y, 0, 0)) open++;
  return {
    reachedMm: told.reachedMm,
    lit: told.lit,
    lost: told.lost,
    meanSparkDeg: told.sparks > 0 ? told.spark / told.sparks : 0,
    doubleShare: told.lit > 0 ? told.doubles / told.lit : 0,
    meanLeanDeg: told.lit > 0 ? told.lean / told.lit : 0,
    openShare: open / (WIDTH_MM - 10),
    simulation,
  };
}

const sound = cut({});

describe('P7: the end of a thick cut', () => {
  /** Cross-section of metal left in the last 8 mm under the line, mm2, after running off the edge of 16 mm at 45 A. */
  function tabMm2(end: { leanDeg?: number; slowMmPerS?: number }): number {
    const material = 'mild-steel';
    const window = speedWindow({ material, thicknessMm: 16, currentA: 45, rig: '60' });
    const middle = (window.windowLowMmPerS! + window.windowHighMmPerS!) / 2;
    const simulation = createSimulation({
      ...{ material, thicknessMm: 16, lengthMm: 60, widthMm: 40, rig: '60', currentA: 45, seed: 1 },
    });
    let y = 0;
    let through = false;
    for (let tick = 0; tick < 240 * 60 && y < 46; tick++) {
      const left = 40 - y;
      const near = left < 12 ? 1 - left / 12 : 0;
      const leanYDeg = -(end.leanDeg ?? 0) * Math.min(near, 1);
      const beside = Math.tan((leanYDeg * Math.PI) / 180) * 1.5;
      simulation.step(quantiseHand({ xMm: 30, yMm: y + beside, heightMm: 1.5, leanXDeg: 0, leanYDeg, trigger: true }));
      through ||= simulation.isOpenAlongAxis(30, 0.15, 0, 0);
      if (through) y += (left < 12 && end.slowMmPerS ? end.slowMmPerS : middle) / 240;
    }
    const { layers, layerMm } = simulation.grid;
    let tab = 0;
    for (let at = 32; at < 40; at += 0.5) {
      for (let k = 0; k < layers; k++) {
        let gone = 0;
        for (let x = 29; x <= 31; x += 0.25) gone = Math.max(gone, simulation.goneAt(x, at + 0.01, (k + 0.5) * layerMm));
        if (gone < 0.95) tab += 0.5 * layerMm;
      }
    }
    return tab;
  }

  test('held upright at a good speed the lagging front leaves a tab; leaning so that the arc leads out, or slowing, does not', () => {
    const upright = tabMm2({});
    expect(upright).toBeGreaterThan(1);
    expect(tabMm2({ leanDeg: 15 })).toBeLessThan(0.3 * upright);
    expect(tabMm2({ slowMmPerS: 1.6 })).toBeLessThan(0.3 * upright);
  });
});

describe('P9: gaps', () => {
  const slots: PointMm[][] = [15, 27, 39].map((y) => [
    { xMm: 40, yMm: y },
    { xMm: 60, yMm: y },
    { xMm: 60, yMm: y + 6 },
    { xMm: 40, yMm: y + 6 },
  ]);
  const across = (mode: RigMode, cutouts: PointMm[][]) => cut({ mode, setup: { cutouts }, goOn: true, speedMmPerS: 8 });

  test('set to bridge gaps the arc strikes again after each, and each costs time and life', () => {
    const none = across('gaps', []);
    const one = across('gaps', slots.slice(0, 1));
    const three = across('gaps', slots);
    expect(none.simulation.usage.restrikes).toBeLessThanOrEqual(1);
    expect(one.simulation.usage.restrikes).toBe(none.simulation.usage.restrikes + 1);
    expect(three.simulation.usage.restrikes).toBe(none.simulation.usage.restrikes + 3);
    const life = (told: Told) => spentLife(told.simulation.wear).electrode;
    expect(life(one)).toBeGreaterThan(life(none));
    expect(life(three)).toBeGreaterThan(life(one) + 1.5 * (life(one) - life(none)));
    expect(three.simulation.usage.pilotS).toBeGreaterThan(one.simulation.usage.pilotS + 0.2);
    expect(three.openShare).toBeGreaterThan(0.85);
  });

  test('set to cut it goes out at the first gap and stays out', () => {
    const told = across('cut', slots);
    expect(told.simulation.usage.restrikes).toBe(0);
    expect(told.openShare).toBeLessThan(0.6);
  });
});

describe('P12: what is wrong with a rig shows, each in its own way', () => {
  test('a sound rig shows none of it', () => {
    expect(sound).toMatchObject({ lost: 0, doubleShare: 0, meanLeanDeg: 0, openShare: 1 });
  });

  test('little gas: a soft arc whose sparks trail far, double arcs', () => {
    const told = cut({
      change: (fit) => {
        fit.supplyBar = 3.8;
      },
    });
    expect(told.meanSparkDeg).toBeGreaterThan(sound.meanSparkDeg + 3);
    expect(told.doubleShare).toBeGreaterThan(0.02);
    expect(told.simulation.wear.boreGrowthMm).toBeGreaterThan(5 * sound.simulation.wear.boreGrowthMm);
  });

  test('hardly any gas, or parts in the wrong order: no pilot at all', () => {
    const starved = cut({
      change: (fit) => {
        fit.supplyBar = 2;
      },
      seconds: 3,
    });
    const mixed = cut({
      change: (fit) => {
        fit.stack.reverse();
      },
      seconds: 3,
    });
    for (const told of [starved, mixed]) {
      expect(told.lit).toBe(0);
      expect(told.simulation.usage.pilotS).toBe(0);
    }
  });

  test('too much gas: harder to start, and a raised torch loses its arc', () => {
    const excess = (fit: RigFit): void => {
      fit.supplyBar = 9;
    };
    const low = cut({ change: excess });
    expect(low.simulation.usage.pilotS).toBeGreaterThan(sound.simulation.usage.pilotS);
    expect(cut({ heightMm: 14 }).openShare).toBeGreaterThan(0.5);
    expect(cut({ change: excess, heightMm: 14 }).openShare).toBeLessThan(0.1);
  });

  test('wet gas: the arc wanders and the electrode wears', () => {
    const told = cut({
      change: (fit) => {
        fit.gas = 'wet';
      },
    });
    expect(told.meanLeanDeg).toBeGreaterThan(2);
    expect(told.simulation.wear.electrodePitMm).toBeGreaterThan(2.5 * sound.simulation.wear.electrodePitMm);
  });

  test('oily gas: double arcs', () => {
    expect(
      cut({
        change: (fit) => {
          fit.gas = 'oily';
        },
      }).doubleShare,
    ).toBeGreaterThan(0.03);
  });

  test('a worn electrode: strikes that fail, and wandering', () => {
    const told = cut({
      change: (fit) => {
        fit.wear.electrodePitMm = 1.5;
      },
    });
    expect(told.meanLeanDeg).toBeGreaterThan(2);
    const pilots = [1, 2, 3, 4, 5].map(
      (seed) =>
        cut({
          setup: { seed },
          change: (fit) => {
            fit.wear.electrodePitMm = 1.5;
          },
          seconds: 3,
        }).simulation.usage.pilotS,
    );
    expect(Math.max(...pilots)).toBeGreaterThan(0.15);
  });

  test('a worn nozzle: the cut leans, always to the same side', () => {
    const told = cut({
      change: (fit) => {
        fit.wear.boreGrowthMm = 0.25;
      },
    });
    expect(told.meanLeanDeg).toBeGreaterThan(4);
    // The middle of the kerf moves from the top to the underside by what the arc leans.
    const middle = (depthMm: number): number => {
      let [sum, weight] = [0, 0];
      for (let x = 44; x < 56; x += 0.125) {
        const gone = told.simulation.goneAt(x, 30.01, depthMm);
        sum += gone * x;
        weight += gone;
      }
      return sum / weight;
    };
    expect(Math.abs(middle(5.8) - middle(0.2))).toBeGreaterThan(0.15);
  });

  test('a nozzle too small for the current burns double arcs and is gone in a cut; one too large is soft', () => {
    const small = cut({
      change: (fit) => {
        fit.nozzle = 'fine';
      },
    });
    expect(small.doubleShare).toBeGreaterThan(0.3);
    expect(spentLife(small.simulation.wear).nozzle).toBeGreaterThan(0.3);
    const large = cut({
      change: (fit) => {
        fit.nozzle = 'large';
      },
    });
    expect(large.doubleShare).toBe(0);
    expect(large.meanSparkDeg).toBeGreaterThan(sound.meanSparkDeg + 2);
  });

  test('a clamp on paint or nowhere: a pilot and no transfer; on rust the arc drops out', () => {
    for (const clamp of [null, { xMm: 90, yMm: 50, surface: 'paint' as const }]) {
      const told = cut({
        change: (fit) => {
          fit.clamp = clamp;
        },
        seconds: 5,
      });
      expect(told.lit).toBe(0);
      expect(told.simulation.usage.pilotS).toBeGreaterThan(2.5);
    }
    const rusty = (seed: number): number =>
      cut({
        setup: { seed },
        change: (fit) => {
          fit.clamp = { xMm: 90, yMm: 50, surface: 'rust' };
        },
      }).lost;
    expect([1, 2, 3, 4].map(rusty).reduce((sum, lost) => sum + lost)).toBeGreaterThan(1);
  });

  test('a clamp on the piece that falls: the arc is lost when it falls, and not before', () => {
    const supports = [{ xMm: 20, yMm: 30 }];
    // A cut across at x = 50 parts the right half, which rests on nothing.
    const onDrop = cut({
      setup: { supports },
      change: (fit) => {
        fit.clamp = { xMm: 90, yMm: 30, surface: 'bare' };
      },
    });
    expect(onDrop.simulation.fallen).toHaveLength(1);
    const again = (told: Told): boolean => {
      // Back over the metal that stayed.
      for (let tick = 0; tick < 240; tick++) {
        told.simulation.step(quantiseHand({ xMm: 30, yMm: 30, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: tick > 24 }));
      }
      return told.simulation.sample.arcState === TRANSFERRED;
    };
    expect(again(onDrop)).toBe(false);
    const onRest = cut({
      setup: { supports },
      change: (fit) => {
        fit.clamp = { xMm: 10, yMm: 30, surface: 'bare' };
      },
    });
    expect(again(onRest)).toBe(true);
  });

  test('paint along the cut: the pilot must burn through it first', () => {
    expect(cut({ setup: { surface: 'paint' } }).simulation.usage.pilotS).toBeGreaterThan(0.4);
  });
});

describe('P13: the life of the parts', () => {
  const pierces = (count: number): number => {
    const simulation = createSimulation({
      ...{ material: 'mild-steel', thicknessMm: 3, lengthMm: 100, widthMm: 60, rig: '60', currentA: 45, seed: 1 },
    });
    for (let n = 0; n < count; n++) {
      for (let tick = 0; tick < 240; tick++) {
        simulation.step(quantiseHand({ xMm: 10 + 8 * n, yMm: 30, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: tick < 200 }));
      }
    }
    return simulation.sample.spentLife;
  };

  test('falls with the number of pierces', () => {
    expect(pierces(4)).toBeGreaterThan(2 * pierces(1));
  });

  test('falls with a bad way of piercing', () => {
    const condition = { material: 'mild-steel', thicknessMm: 8, currentA: 45, rig: '60' } as const;
    const upright = pierceCoupon(condition, 'contact').spentLifeFraction;
    expect(upright).toBeGreaterThan(2 * pierceCoupon(condition, 'rolling').spentLifeFraction);
  });

  test('falls with dirty gas, with stretching, and with dragging where the shield may not touch', () => {
    const electrode = (told: Told): number => spentLife(told.simulation.wear).electrode;
    const nozzle = (told: Told): number => spentLife(told.simulation.wear).nozzle;
    expect(
      electrode(
        cut({
          change: (fit) => {
            fit.gas = 'wet';
          },
        }),
      ),
    ).toBeGreaterThan(2 * electrode(sound));
    expect(nozzle(cut({ heightMm: 22 }))).toBeGreaterThan(2 * nozzle(sound));
    const allowed = cut({ heightMm: 0 });
    const wrong = cut({
      heightMm: 0,
      change: (fit) => {
        fit.shield = 'open';
      },
    });
    expect(wrong.simulation.sample.spentLife).toBeGreaterThan(5 * allowed.simulation.sample.spentLife);
    expect(wrong.doubleShare).toBeGreaterThan(0.1);
  });
});
