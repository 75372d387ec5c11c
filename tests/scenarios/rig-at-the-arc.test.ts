// What was chosen in the rig check, and what was put in as a fault, shows itself at the arc: the same hand on the same plate.
import { beforeAll, describe, expect, test } from 'vitest';
import {
  ARC_STATES,
  type CompletedRun,
  type Drill,
  PART_IDS,
  RIG_FAULT_IDS,
  type RigChoices,
  referenceHand,
  rightChoices,
  runHand,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const painted = shippedDrill('trailer-step-painted-6');
const mesh = shippedDrill('what-is-wrong-fourth-mesh-4');
const plain = shippedDrill('what-is-wrong-first-6');

function run(drill: Drill, choices: Partial<RigChoices> = {}): CompletedRun {
  return runHand(drill, referenceHand(drill, windowOfDrill(drill)), 1, { choices: { ...rightChoices(drill), ...choices } });
}

/** Ticks of the run in each state of the arc. */
function ticksIn({ samples }: CompletedRun): Record<string, number> {
  const ticks = samples.columns.arcState.subarray(0, samples.length);
  return Object.fromEntries(ARC_STATES.map((name, state) => [name, ticks.filter((at) => at === state).length]));
}

describe('choices', () => {
  let right: CompletedRun;
  beforeAll(() => {
    right = run(painted);
  });

  test('all right: the arc burns, the offcut falls', () => {
    expect(ticksIn(right).transferred).toBeGreaterThan(500);
    expect(right.simulation.fallen.length).toBe(1);
  });

  test.each(['painted-corner', null])(
    'a clamp on %s: the pilot burns and no arc goes over',
    (clampSpot) => {
      const ticks = ticksIn(run(painted, { clampSpot }));
      expect(ticks.pilot).toBeGreaterThan(100);
      expect(ticks.transferred).toBe(0);
    },
    60_000,
  );

  test('a clamp on the piece that falls: the arc goes with it', () => {
    const dropped = run(painted, { clampSpot: 'offcut' });
    const [piece] = dropped.simulation.fallen;
    const after = dropped.samples.columns.arcState.subarray(piece.tick, dropped.samples.length);
    expect([...after]).not.toContain(ARC_STATES.indexOf('transferred'));
  });

  test.each([
    ['a part left out', PART_IDS.slice(1)],
    ['parts out of order', [...PART_IDS].reverse()],
  ])(
    '%s: not even a pilot',
    (_what, stack) => {
      const ticks = ticksIn(run(painted, { stack: [...stack] }));
      expect(ticks.pilot + ticks.transferred).toBe(0);
    },
    60_000,
  );

  test('paint left on: the arc goes over later', () => {
    const first = ({ samples }: CompletedRun) => samples.columns.arcState.indexOf(ARC_STATES.indexOf('transferred'));
    expect(first(run(painted, { coatingRemoved: false }))).toBeGreaterThan(first(right));
  });

  test('a nozzle too small for the current burns between its own parts and wears', () => {
    const small = run(painted, { nozzle: 'fine' });
    const doubled = small.samples.columns.doubleArcShare.subarray(0, small.samples.length);
    expect(Math.max(...doubled)).toBeGreaterThan(0.1);
    expect(small.simulation.wear.boreGrowthMm).toBeGreaterThan(right.simulation.wear.boreGrowthMm);
  });
});

describe('faults', () => {
  test.each(RIG_FAULT_IDS)(
    '%s leaves another cut behind than a sound rig, by the same hand',
    (fault) => {
      const good = run({ ...plain, faults: [] });
      const faulty = run({ ...plain, faults: [fault] });
      const end = ({ samples }: CompletedRun, field: 'severedMm' | 'spentLife') => samples.columns[field][samples.length - 1];
      const shows =
        end(faulty, 'severedMm') < 0.9 * end(good, 'severedMm') || end(faulty, 'spentLife') > 2 * end(good, 'spentLife');
      expect(shows, `severed ${end(faulty, 'severedMm')} of ${end(good, 'severedMm')} mm`).toBe(true);
      expect(faulty.finalDigest).not.toBe(good.finalDigest);
    },
    60_000,
  );

  test('the wrong mode on a mesh: the arc is lost at the first opening and does not come back', () => {
    const { samples } = run({ ...mesh, faults: ['wrong-mode'] });
    const last = samples.columns.arcState.lastIndexOf(ARC_STATES.indexOf('transferred'));
    expect(samples.columns.xMm[last]).toBeLessThan(40);
  });
});
