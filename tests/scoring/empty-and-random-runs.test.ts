// Doing nothing, or waving the torch about, earns next to nothing: on the real plate, by the real core.
import { beforeAll, describe, expect, test } from 'vitest';
import {
  appendSample,
  createSamples,
  createSimulation,
  type Drill,
  pathGeometry,
  quantiseHand,
  rightChoices,
  type Score,
  type SpeedWindow,
  scoreContextOf,
  scoreRun,
  setupFromDrill,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { nextUnit } from '../../sim-core/math/random.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';

const drill = shippedDrill('hanger-tab-straight-6');
let window: SpeedWindow;
beforeAll(() => {
  window = windowOfDrill(drill);
});

/** One drill of every kind that is marked by other measures than a straight cut. */
const OTHER_KINDS = [
  'galley-vent-slot-3',
  'hanger-weld-gouge-12',
  'blank-layout-marks-3',
  'drain-grating-mesh-4',
  'bilge-tank-rig-check-3',
  'what-is-wrong-first-6',
];

type Pose = { xMm: number; yMm: number; trigger: boolean };

function scoreOf(seconds: number, poseAt: (t: number) => Pose, on: Drill = drill): Score {
  const simulation = createSimulation(setupFromDrill(on, 1));
  const samples = createSamples();
  for (let i = 0; i < seconds * TICK_HZ; i++) {
    simulation.step(quantiseHand({ ...poseAt(i / TICK_HZ), heightMm: 1.5, leanXDeg: 0, leanYDeg: 0 }));
    appendSample(samples, simulation.sample);
  }
  // Prepared as it should be, so that nothing but the hand can cost marks; no fault is named.
  const answers = { choices: rightChoices(on), diagnosis: null };
  return scoreRun(on, samples, scoreContextOf(simulation, on === drill ? window : windowOfDrill(on), answers));
}

test.each<[string, (t: number) => Pose]>([
  ['nothing at all', () => ({ xMm: -10, yMm: 60, trigger: false })],
  ['the line followed without the trigger', (t) => ({ xMm: t * 18 - 5, yMm: 60, trigger: false })],
  ['the trigger held in the air', () => ({ xMm: -40, yMm: 60, trigger: true })],
  ['a hole burnt in one place of the line', () => ({ xMm: 80, yMm: 60, trigger: true })],
  ['a flick along the line', (t) => ({ xMm: t < 1 ? 0 : (t - 1) * 300, yMm: 60, trigger: t < 1.7 })],
])('%s scores under 10', (_what, poseAt) => {
  const score = scoreOf(10, poseAt);
  expect(score.score).toBeLessThan(10);
  expect(score.passed).toBe(false);
  expect(score.reasons.map(({ kind }) => kind)).toContain('not-severed');
  expect(score.firstThingToChange).not.toBeNull();
});

describe.each(OTHER_KINDS)('%s', (id) => {
  const other = shippedDrill(id);
  const { lengthMm, widthMm } = other.plate;
  const path = pathGeometry(other.path);
  const middle = path.pointAt(path.lengthMm / 2);

  test.each<[string, (t: number) => Pose]>([
    ['nothing at all', () => ({ ...middle, trigger: false })],
    ['the line followed without the trigger', (t) => ({ ...path.pointAt((t / 8) * path.lengthMm), trigger: false })],
    ['the trigger held beside the plate', () => ({ xMm: -60, yMm: widthMm / 2, trigger: true })],
    ['a hole burnt in one place of the line', () => ({ ...middle, trigger: true })],
    ['a flick along the line', (t) => ({ ...path.pointAt(t < 1 ? 0 : (t - 1) * 400), trigger: t < 1 + path.lengthMm / 400 })],
  ])(
    '%s scores under 10 and does not pass',
    (_what, poseAt) => {
      const score = scoreOf(8, poseAt, other);
      expect(score.score).toBeLessThan(10);
      expect(score.passed).toBe(false);
      expect(score.firstThingToChange).not.toBeNull();
    },
    60_000,
  );

  test('waving about with the arc on scores under 15 and does not pass', () => {
    const random = { counter: 5 };
    let x = 0;
    let y = 0;
    let toX = 0;
    let toY = 0;
    const step = 60 / TICK_HZ;
    const waved = scoreOf(
      20,
      () => {
        const way = Math.hypot(toX - x, toY - y);
        if (way < step) {
          toX = nextUnit(random) * lengthMm;
          toY = nextUnit(random) * widthMm;
        } else {
          x += ((toX - x) / way) * step;
          y += ((toY - y) / way) * step;
        }
        return { xMm: x, yMm: y, trigger: true };
      },
      other,
    );
    expect(waved.score).toBeLessThan(15);
    expect(waved.passed).toBe(false);
  });
});

describe('waving about with the arc on', () => {
  test.each([
    [15, 40],
    [60, 20],
    [200, 20],
  ])(
    'at %d mm/s scores under 10',
    (mmPerS, seconds) => {
      for (const seed of [1, 2, 3]) {
        const random = { counter: seed };
        let x = 0;
        let y = 60;
        let toX = 0;
        let toY = 60;
        const score = scoreOf(seconds, () => {
          const way = Math.hypot(toX - x, toY - y);
          if (way < mmPerS / TICK_HZ) {
            toX = nextUnit(random) * drill.plate.lengthMm;
            toY = nextUnit(random) * drill.plate.widthMm;
          } else {
            x += ((toX - x) / way) * (mmPerS / TICK_HZ);
            y += ((toY - y) / way) * (mmPerS / TICK_HZ);
          }
          return { xMm: x, yMm: y, trigger: true };
        });
        expect(score.score, `seed ${seed}`).toBeLessThan(10);
        expect(score.passed).toBe(false);
      }
    },
    60_000,
  );
});
