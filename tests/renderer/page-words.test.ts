import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hashFromRoute, routeFromHash } from '../../renderer/app/route.ts';
import { cueState, wholeLeanDeg } from '../../renderer/bench/cue-state.ts';
import { GUIDE_STEPS } from '../../renderer/bench/guidance.ts';
import { guideSentence, startEdge } from '../../renderer/bench/guide-sentence.ts';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import { en } from '../../renderer/text/en.ts';
import { LANGUAGE_IDS, speak } from '../../renderer/text/language.ts';
import { isTextKey, say } from '../../renderer/text/say.ts';
import { CAUTION_IDS, type Drill, FAULT_IDS, MEASURE_IDS, parseDrill, type Sample } from '../../sim-core/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'scenarios');
const drills: Drill[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
  .map((name) => {
    const result = parseDrill(readFileSync(join(folder, name), 'utf8'));
    if (!result.ok) throw new Error(`${name} cannot be read`);
    return result.value;
  });

describe('words', () => {
  test('everything the core can name has words: measures, faults, advice, cautions with their source', () => {
    const wanted = [
      ...MEASURE_IDS.map((id) => `measure.${id}`),
      ...MEASURE_IDS.flatMap((id) => [`help.${id}.means`, `help.${id}.matters`, `help.${id}.better`]),
      ...FAULT_IDS.flatMap((id) => [`fault.${id}`, `advice.${id}`]),
      ...CAUTION_IDS.flatMap((id) => [`caution.${id}.name`, `caution.${id}.say`, `caution.${id}.source`]),
    ];
    expect(wanted.filter((key) => !isTextKey(key))).toEqual([]);
  });

  test('a placeholder left open is an error, not a hole in a sentence', () => {
    expect(say('guide.progress', { percent: '40 %' })).toBe('40\u00a0% of the line');
    expect(() => say('guide.progress')).toThrow('{percent}');
  });

  test('the figures of the regulations stand in the cautions', () => {
    expect(en['caution.eyes.say']).toContain('shade 8');
    expect(en['caution.eyes.source']).toBe('29 CFR 1910.133(a)(5)');
    expect(en['caution.fire.say']).toContain('10.7 m (35 ft)');
    expect(en['caution.fire.say']).toContain('30 min');
    expect(en['caution.fire.source']).toContain('29 CFR 1910.252(a)(2)');
    expect(en['caution.noise.say']).toContain('90 dBA');
    expect(en['caution.coatings.say']).toContain('5 µg/m³');
    expect(en['start.lead']).toContain('does not qualify');
    expect(en['caution.always']).toContain('licensed electrician');
  });

  test.each(LANGUAGE_IDS)(
    'every step of the guide is a whole sentence for every shipped drill, in both units: %s',
    (language) => {
      speak(language);
      expect(drills.length).toBeGreaterThanOrEqual(4);
      const told = drills.flatMap((drill) =>
        GUIDE_STEPS.flatMap((step) =>
          (['metric', 'inch'] as const).map((units) => guideSentence(step, drill, units, FIRST_HAND_SETTINGS)),
        ),
      );
      expect(told.filter(({ sentence, help }) => !/^[A-Z].*\.$/.test(sentence) || `${sentence}${help}`.includes('{'))).toEqual(
        [],
      );
      speak('en');
    },
  );

  test('the edge of the start is named as the person sees it', () => {
    const drill = drills.find((one) => one.id === 'hanger-tab-straight-6') as Drill;
    expect(startEdge(drill)).toBe('left');
    expect(startEdge({ ...drill, path: { ...drill.path, start: { xMm: 80, yMm: 0 } } })).toBe('near');
    expect(startEdge({ ...drill, path: { ...drill.path, start: { xMm: 80, yMm: 40 } } })).toBeNull();
  });
});

describe('cues', () => {
  const { tolerances } = drills.find((one) => one.id === 'hanger-tab-straight-6') as Drill;
  const window = { windowLowMmPerS: 6, windowHighMmPerS: 11 };
  const sample = { speedMmPerS: 8, sparkAngleDeg: 20, standOffMm: 1.5, arcState: 3, underMm3PerS: 80, topMm3PerS: 0 } as Sample;

  test('each figure is judged against its band', () => {
    expect(cueState(sample, 0, 0, tolerances, window)).toMatchObject({ speed: 'ok', spark: 'ok', standOff: 'ok', lean: 'ok' });
    expect(cueState({ ...sample, speedMmPerS: 20 }, 0, 0, tolerances, window).speed).toBe('high');
    expect(cueState({ ...sample, speedMmPerS: 0.1 }, 0, 0, tolerances, window).speed).toBe('still');
    expect(cueState({ ...sample, sparkAngleDeg: 5 }, 0, 0, tolerances, window).spark).toBe('low');
    expect(cueState({ ...sample, sparkAngleDeg: Number.NaN, underMm3PerS: 0 }, 0, 0, tolerances, window).spark).toBe('none');
    expect(cueState({ ...sample, underMm3PerS: 1, topMm3PerS: 60 }, 0, 0, tolerances, window).spark).toBe('top');
    expect(cueState(sample, 9, 9, tolerances, window).lean).toBe('high');
  });

  test('two leans make one from upright', () => {
    expect(wholeLeanDeg(30, 0)).toBeCloseTo(30, 9);
    expect(wholeLeanDeg(45, 45)).toBeCloseTo((Math.atan(Math.SQRT2) * 180) / Math.PI, 9);
  });
});

describe('addresses', () => {
  test.each([
    { at: 'home' },
    { at: 'first-cut' },
    { at: 'help', topic: 'spark-angle' },
    { at: 'help', topic: 'fading' },
    { at: 'bench', drillId: 'hanger-tab-straight-6' },
    { at: 'review', runId: '0b7e1c1e-5a52-4c4e-9a3b-1f0f5a3d2c11' },
  ] as const)('%o comes back from its address', (route) => {
    expect(routeFromHash(hashFromRoute(route))).toEqual(route);
  });

  test('an address that is none leads home', () => {
    expect(routeFromHash('#/drill/../../x')).toEqual({ at: 'home' });
    expect(routeFromHash('#/run/')).toEqual({ at: 'home' });
    expect(routeFromHash('#/help/nothing')).toEqual({ at: 'home' });
  });
});
