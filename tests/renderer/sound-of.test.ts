import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LAYER_GAIN, SOUND, SOUND_LAYERS } from '../../renderer/sound/sound-constants.ts';
import { createSoundFollower } from '../../renderer/sound/sound-follower.ts';
import { type SoundMoment, type SoundParameters, silence, soundOf, soundRig } from '../../renderer/sound/sound-of.ts';
import {
  ARC_STATES,
  type ArcStateName,
  fitFor,
  type RigFit,
  SAMPLE_FIELDS,
  type Sample,
  type SimulationSetup,
  TICK_HZ,
} from '../../sim-core/index.ts';

/*
 * What is held here are properties of the design, not of real arcs: no source says what an arc sounds like. They are what a
 * trainee is meant to tell by ear, each in one direction and never back.
 */

const setup = (fit: Partial<RigFit> = {}, currentA = 45): SimulationSetup => ({
  material: 'mild-steel',
  thicknessMm: 6,
  lengthMm: 160,
  widthMm: 90,
  rig: '60',
  currentA,
  fit: { ...fitFor('cut', currentA), ...fit },
  seed: 1,
});

const LONG_AGO: SoundMoment = {
  inStateS: 1,
  sinceLostS: Number.POSITIVE_INFINITY,
  sinceOutS: Number.POSITIVE_INFINITY,
};

function sampleOf(arc: ArcStateName, given: Partial<Sample> = {}): Sample {
  const blank = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, 0])) as Sample;
  const burning = arc === 'transferred' ? { arcVoltageV: 114, underMm3PerS: 150, throughFraction: 0.25 } : {};
  return { ...blank, arcState: ARC_STATES.indexOf(arc), arcVoltageV: Number.NaN, ...burning, ...given };
}

function heard(arc: ArcStateName, given: Partial<Sample> = {}, moment: Partial<SoundMoment> = {}, of = setup()): SoundParameters {
  const sound = silence();
  soundOf(sampleOf(arc, given), soundRig(of), { ...LONG_AGO, ...moment }, sound);
  return sound;
}

/** A pair of values, the second above the first by more than rounding. */
const rising = (low: number, high: number) =>
  fc
    .tuple(fc.double({ min: low, max: high, noNaN: true }), fc.double({ min: low, max: high, noNaN: true }))
    .map(([a, b]) => (a < b ? [a, b] : [b, a]) as [number, number])
    .filter(([a, b]) => b - a > (high - low) * 1e-6);

describe('the arc', () => {
  test('longer: higher, brighter and rougher, never less so, whatever else happens at the metal', () => {
    const metal = fc.double({ min: 0, max: 300, noNaN: true });
    fc.assert(
      fc.property(rising(SOUND.shortArcV, 200), metal, metal, ([short, long], underMm3PerS, topMm3PerS) => {
        const a = heard('transferred', { arcVoltageV: short, underMm3PerS, topMm3PerS });
        const b = heard('transferred', { arcVoltageV: long, underMm3PerS, topMm3PerS });
        expect(b.toneHz).toBeGreaterThan(a.toneHz);
        expect(b.brightHz).toBeGreaterThan(a.brightHz);
        expect(b.roughness).toBeGreaterThan(a.roughness);
        expect(b.arc).toBe(a.arc);
      }),
      { seed: 20_260_115 },
    );
  });

  test('one millimetre of stand-off more is heard as more than half a semitone', () => {
    // The core adds 3.6 V to the arc for every millimetre; a semitone is the twelfth root of two.
    const near = heard('transferred', { arcVoltageV: 113 });
    const far = heard('transferred', { arcVoltageV: 113 + 3.6 });
    expect(12 * Math.log2(far.toneHz / near.toneHz)).toBeGreaterThan(0.5);
  });

  test('open below: duller, with the jet under the plate; the more power goes through unused, the more of it', () => {
    const blind = heard('transferred', { underMm3PerS: 0, topMm3PerS: 200, throughFraction: 0 });
    const open = heard('transferred', { underMm3PerS: 200, topMm3PerS: 0, throughFraction: 0.05 });
    expect(open.brightHz).toBeLessThan(blind.brightHz * 0.6);
    expect([blind.under, open.under > 0]).toEqual([0, true]);
    fc.assert(
      fc.property(rising(0, 1), ([fast, slow]) => {
        const [a, b] = [fast, slow].map((throughFraction) => heard('transferred', { throughFraction }));
        expect(b?.under).toBeGreaterThan(a?.under as number);
        expect(b?.brightHz).toBeLessThanOrEqual(a?.brightHz as number);
      }),
      { seed: 20_260_115 },
    );
  });

  test('a lost cut spatters above, the more the more metal comes up; a sound cut does not', () => {
    expect(heard('transferred').spray).toBe(0);
    fc.assert(
      fc.property(rising(SOUND.faintMm3PerS, 300), ([less, more]) => {
        const [a, b] = [less, more].map((topMm3PerS) => heard('transferred', { topMm3PerS, underMm3PerS: 0 }));
        expect(b?.spray).toBeGreaterThanOrEqual(a?.spray as number);
      }),
      { seed: 20_260_115 },
    );
    expect(heard('transferred', { topMm3PerS: 200, underMm3PerS: 0 }).spray).toBe(1);
  });

  test('an arc that wanders or burns double is rougher; more current is louder', () => {
    const sound = heard('transferred').roughness;
    expect(heard('transferred', { arcLeanDeg: 3 }).roughness).toBeGreaterThan(sound);
    expect(heard('transferred', { arcLeanDeg: -3 }).roughness).toBe(heard('transferred', { arcLeanDeg: 3 }).roughness);
    expect(heard('transferred', { doubleArcShare: 0.2 })).toMatchObject({ double: expect.closeTo(0.52, 9) });
    expect(heard('transferred', { doubleArcShare: 0.2 }).roughness).toBeGreaterThan(sound);
    expect(heard('transferred', {}, {}, setup({}, 60)).arc).toBeGreaterThan(heard('transferred', {}, {}, setup({}, 20)).arc);
  });
});

describe('the gas', () => {
  test('comes before the arc, is still there beside it, and fades after it, ever quieter', () => {
    expect(heard('off').gas).toBe(0);
    expect(heard('pre-flow', {}, { inStateS: 0 }).gas).toBe(0);
    const flowing = heard('pre-flow').gas;
    expect(flowing).toBeGreaterThan(0.9);
    expect(heard('pilot')).toMatchObject({ gas: flowing, pilot: 1, arc: 0 });
    expect(heard('transferred').gas).toBeLessThan(flowing);
    const after = Array.from({ length: 31 }, (_, n) => heard('post-flow', {}, { inStateS: n / 10 }).gas);
    expect(after[0]).toBe(flowing);
    expect(after.at(-1)).toBe(0);
    after.forEach((level, n) => {
      if (n > 0) expect(level).toBeLessThanOrEqual(after[n - 1] as number);
    });
  });

  test('less pressure at the torch is a fainter hiss', () => {
    const [low, right] = [2.5, 5.7].map((supplyBar) => heard('pre-flow', {}, {}, setup({ supplyBar })).gas);
    expect(low).toBeLessThan((right as number) * 0.7);
  });
});

test('whatever the sample holds, every level is 0, or at least audible and at most 1, and every figure is one', () => {
  const anything = fc.oneof(fc.double({ min: -1e6, max: 1e6 }), fc.constant(Number.NaN), fc.constant(Number.POSITIVE_INFINITY));
  const state = fc.integer({ min: 0, max: ARC_STATES.length - 1 });
  const whole = fc.record(Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, field === 'arcState' ? state : anything])));
  fc.assert(
    fc.property(whole, fc.double({ min: 0, max: 10, noNaN: true }), (sample, ageS) => {
      const sound = silence();
      soundOf(sample as Sample, soundRig(setup()), { inStateS: ageS, sinceLostS: ageS, sinceOutS: ageS }, sound);
      for (const layer of SOUND_LAYERS) {
        expect(sound[layer] === 0 || (sound[layer] >= SOUND.audible && sound[layer] <= 1), `${layer} ${sound[layer]}`).toBe(true);
      }
      expect([sound.toneHz >= 0, sound.brightHz > 0]).toEqual([true, true]);
      expect(sound.toneHz).toBeLessThanOrEqual(2_000);
      expect(sound.roughness >= 0 && sound.roughness <= 1).toBe(true);
    }),
    { seed: 20_260_115 },
  );
});

describe('following a run', () => {
  function follow(steps: readonly [tick: number, arc: ArcStateName, trigger: boolean][]) {
    const follower = createSoundFollower(setup());
    return steps.map(([tick, arc, trigger]) => {
      follower.follow(sampleOf(arc), trigger, tick);
      return { ...follower.sound };
    });
  }

  test('an arc that goes out under a held trigger is lost with a break; one let go of ends softly', () => {
    const lost = follow([
      [100, 'transferred', true],
      [101, 'post-flow', true],
      [101 + TICK_HZ * SOUND.lostS, 'post-flow', true],
    ]);
    expect(lost.map(({ lost: level, out }) => [level, out])).toEqual([
      [0, 0],
      [1, 0],
      [0, 0],
    ]);
    const letGo = follow([
      [100, 'transferred', true],
      [110, 'post-flow', false],
    ]);
    expect(letGo[1]).toMatchObject({ lost: 0, out: 1, gas: 1 });
  });

  test('a frame that comes late still tells of the loss; a jump of a replay tells of nothing', () => {
    expect(
      follow([
        [100, 'transferred', true],
        [100 + TICK_HZ / 2, 'post-flow', true],
      ])[1],
    ).toMatchObject({ lost: 1 });
    const back: [number, ArcStateName, boolean][] = [
      [1000, 'transferred', true],
      [200, 'off', false],
    ];
    expect(follow(back)[1]).toMatchObject({ arc: 0, gas: 0, lost: 0, out: 0 });
    expect(
      follow([
        [100, 'transferred', true],
        [100 + 3 * TICK_HZ, 'post-flow', true],
      ])[1],
    ).toMatchObject({ lost: 0, out: 0 });
  });
});

test('every layer has its place in the mix', () => {
  expect(Object.keys(silence()).filter((name) => name in LAYER_GAIN)).toEqual([...SOUND_LAYERS]);
});
