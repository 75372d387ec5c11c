import { expect, test } from 'vitest';
import { type ArcSign, createArcSigns } from '../../renderer/fault-finding/arc-signs.ts';
import {
  ARC_STATES,
  type ArcStateName,
  fitFor,
  type RigFit,
  type Sample,
  type SimulationSetup,
  TICK_HZ,
} from '../../sim-core/index.ts';

const setup = (fit: Partial<RigFit> = {}): SimulationSetup => ({
  material: 'mild-steel',
  thicknessMm: 6,
  lengthMm: 160,
  widthMm: 90,
  rig: '60',
  currentA: 45,
  fit: { ...fitFor('cut', 45), ...fit },
  seed: 1,
});

interface Moment extends Partial<Sample> {
  arc?: ArcStateName;
  trigger?: boolean;
}

/** Signs that showed over a stretch of moments, each lasting a tenth of a second. */
function shown(moments: readonly Moment[], of = setup()): ArcSign[] {
  const signs = createArcSigns(of);
  const found = new Set<ArcSign>();
  moments.forEach(({ arc = 'transferred', trigger = true, ...sample }, n) => {
    const whole = { xMm: 60, yMm: 40, standOffMm: 1.5, doubleArcShare: 0, arcLeanDeg: 0, ...sample } as Sample;
    signs.look({ ...whole, arcState: ARC_STATES.indexOf(arc) }, trigger, n * (TICK_HZ / 10));
    for (const sign of signs.now) found.add(sign);
  });
  return [...found];
}

const times = (count: number, moment: Moment | ((n: number) => Moment)): Moment[] =>
  Array.from({ length: count }, (_, n) => (typeof moment === 'function' ? moment(n) : moment));
const pull: Moment[] = [{ arc: 'off', trigger: false }, ...times(4, { arc: 'pre-flow' }), ...times(2, { arc: 'pilot' })];

test('a rig that is right shows nothing, from the pull to the end of the cut', () => {
  expect(shown([...pull, ...times(40, (n) => ({ arcLeanDeg: 0.3 * (n % 2) })), { arc: 'post-flow', trigger: false }])).toEqual(
    [],
  );
});

test('an arc that swings wanders; one that keeps to one side burns aslant', () => {
  expect(shown([...pull, ...times(20, (n) => ({ arcLeanDeg: n % 2 === 0 ? 3 : -2 }))])).toEqual(['wandering']);
  expect(shown([...pull, ...times(20, { arcLeanDeg: 5 })])).toEqual(['aslant']);
});

test('power between the torch’s own parts is a second arc', () => {
  expect(shown([...pull, ...times(3, { doubleArcShare: 0.1 })])).toEqual(['double-arc']);
});

test('too little gas, or a bore too wide for the current, makes a soft arc', () => {
  expect(shown([...pull, {}], setup({ supplyBar: 3.6 }))).toEqual(['soft']);
  expect(shown([...pull, {}], setup({ nozzle: 'large' }))).toEqual(['soft']);
});

test('a pilot that stays over metal does not go over; in the air beside the plate it is no sign', () => {
  expect(shown([...pull, ...times(15, { arc: 'pilot' })])).toEqual(['pilot-only']);
  expect(shown([...pull, ...times(15, { arc: 'pilot', xMm: -8 })])).toEqual([]);
  expect(shown([...pull, ...times(15, { arc: 'pilot', standOffMm: 20 })])).toEqual([]);
});

test('gas without a light, and an arc that drops out under a held trigger', () => {
  expect(shown([{ arc: 'off', trigger: false }, ...times(25, { arc: 'pre-flow' })])).toEqual(['no-pilot']);
  expect(shown([...pull, ...times(5, {}), { arc: 'pilot' }, ...times(5, {})])).toEqual(['drops-out']);
  expect(shown([...pull, ...times(5, {}), { arc: 'post-flow', trigger: false }])).toEqual([]);
  // Past the edge of the plate there is nothing to burn to.
  expect(shown([...pull, ...times(5, {}), { arc: 'pilot', xMm: 161 }])).toEqual([]);
});

test('an arc that comes at the second pull over the metal was hard to start', () => {
  const failed: Moment[] = [...times(3, { arc: 'pre-flow' }), { arc: 'off' }, { arc: 'off', trigger: false }];
  expect(shown([{ arc: 'off', trigger: false }, ...failed, ...pull, {}])).toEqual(['hard-start']);
});
