import { describe, expect, test } from 'vitest';
import { type CueHistory, cuesFor } from '../../renderer/bench/cues-for.ts';

const fresh: CueHistory = { ofOnePerson: true, tries: 0, passed: false, techniqueTries: 0 };
const full = { cueLevel: 'full', technique: 'edge-start' } as const;
const alternate = { cueLevel: 'alternate', technique: 'edge-start' } as const;

const series = (drill: typeof full | typeof alternate, history: Omit<CueHistory, 'tries'>, attempts: number) =>
  Array.from({ length: attempts }, (_, tries) => cuesFor(drill, { ...history, tries }).now);
const share = (shown: boolean[]) => shown.filter(Boolean).length / shown.length;

describe('cues', () => {
  test('begin full, go to every other attempt, and end once the drill is passed', () => {
    const shown = series(full, { ...fresh, passed: true }, 16);
    expect(shown.slice(0, 4)).toEqual([true, true, true, true]);
    expect(shown.slice(4, 12)).toEqual([true, false, true, false, true, false, true, false]);
    expect(shown.slice(12)).toEqual([false, false, false, false]);
    // Half of a block, as in the published schedule.
    expect(share(shown)).toBe(0.5);
  });

  test('never end for somebody who has not passed, however often it was tried', () => {
    expect(share(series(full, fresh, 60).slice(20))).toBe(0.5);
  });

  test('of a drill that alternates come every other time from the first, and end sooner', () => {
    expect(series(alternate, fresh, 6)).toEqual([true, false, true, false, true, false]);
    expect(cuesFor(alternate, { ...fresh, tries: 11, passed: true, techniqueTries: 9 }).stage).toBe('never');
  });

  test('fade sooner for somebody who has practised the technique, but the first attempt at a drill has them', () => {
    const skilled = { ...fresh, techniqueTries: 40 };
    expect(cuesFor(full, skilled)).toEqual({ stage: 'every-other', why: 'fading', now: true, next: false });
    expect(cuesFor(full, fresh)).toEqual({ stage: 'always', why: 'first-attempts', now: true, next: true });
  });

  test('never come in an assessment, whoever is assessed', () => {
    for (const history of [fresh, { ...fresh, tries: 7 }, { ...fresh, ofOnePerson: false }]) {
      expect(cuesFor({ cueLevel: 'none', technique: 'edge-start' }, history)).toMatchObject({ now: false, next: false });
      expect(cuesFor({ cueLevel: 'full', technique: 'assessment' }, history)).toMatchObject({ now: false, why: 'assessment' });
    }
  });

  test('do not fade by what others did while nobody is chosen', () => {
    const anybody = { ofOnePerson: false, tries: 200, passed: true, techniqueTries: 90 };
    expect(cuesFor(full, anybody)).toMatchObject({ stage: 'always', now: true, next: true });
    expect(cuesFor(alternate, anybody)).toMatchObject({ stage: 'every-other', now: true, next: false });
    expect(cuesFor(alternate, { ...anybody, tries: 201 })).toMatchObject({ now: false, next: true });
  });

  test('what is foretold of the next attempt is what comes', () => {
    for (const drill of [full, alternate]) {
      for (const passed of [false, true]) {
        for (let tries = 0; tries < 20; tries += 1) {
          const next = cuesFor(drill, { ...fresh, passed, tries }).next;
          expect(cuesFor(drill, { ...fresh, passed, tries: tries + 1 }).now).toBe(next);
        }
      }
    }
  });
});
