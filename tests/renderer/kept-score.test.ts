import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { ScoreRecord } from '../../electron/contract.ts';
import { keptScore } from '../../renderer/review/kept-score.ts';
import { adviceWords, bandWords, evidenceFigure, faultWords, reasonWords } from '../../renderer/review/score-words.ts';
import { decodeRunFile, type Score } from '../../sim-core/index.ts';
import { realRunText } from '../papers/signed-run.ts';

const decoded = decodeRunFile(realRunText(3));
if (!decoded.ok || !decoded.run.score) throw new Error('The run of the test has no score.');
const GOOD = decoded.run.score as ScoreRecord;

/** Every word that the review has to say about a score. */
function wordsOf(score: Score): string[] {
  return [
    adviceWords(score, 'metric') ?? '',
    ...score.reasons.map((reason) => reasonWords(reason, 'metric')),
    ...score.measures.flatMap((measure) => [
      bandWords(measure, 'metric') ?? '',
      ...measure.evidence.flatMap((one) => [faultWords(one), evidenceFigure(one, 'metric')]),
    ]),
  ];
}

test('a score of this core is kept as it is', () => {
  expect(keptScore(GOOD)).toEqual(GOOD);
  expect(wordsOf(keptScore(GOOD)).join('').length).toBeGreaterThan(100);
});

test('of a score with nothing but its named parts, marks and total stand', () => {
  const bare = { score: 40, passed: false, measures: [{ id: 'grace <b>', mark: 40, weight: 1 }] };
  expect(keptScore(bare)).toEqual({
    ...{ score: 40, passed: false, reasons: [], firstThingToChange: null },
    measures: [{ id: 'grace <b>', mark: 40, weight: 1, mustReach: null, band: null, evidence: [] }],
  });
});

test('advice that points at a stretch that is left out points nowhere', () => {
  const measures = GOOD.measures.map((measure) => ({ ...measure, evidence: [{ fault: 'nothing.known' }] }));
  const score = keptScore({ ...GOOD, measures });
  expect(score.firstThingToChange).toEqual({ ...(GOOD as unknown as Score).firstThingToChange, evidenceIndex: null });
});

test('whatever else a score holds, the review has words for what is left of it', () => {
  const odd = fc.anything({ maxDepth: 3 });
  const kind = fc.constantFrom('not-severed', 'far-off', 'measure-below', 'constructor', 'toString');
  const strange = fc.record({
    reasons: fc.oneof(odd, fc.array(fc.record({ kind, measureId: odd, mark: odd, mustReach: odd, share: odd, uncutMm: odd }))),
    firstThingToChange: fc.oneof(
      odd,
      fc.record({ key: odd, measureId: fc.constantFrom('severance', '__proto__'), evidenceIndex: odd }),
    ),
    measures: fc.array(
      fc.record({
        id: fc.constantFrom('severance', '__proto__', 'grace'),
        mark: fc.double({ min: 0, max: 100, noNaN: true }),
        weight: fc.constant(1),
        mustReach: odd,
        band: fc.oneof(odd, fc.record({ low: odd, high: odd, unit: fc.constantFrom('mm', 'constructor', 3) })),
        evidence: fc.oneof(
          odd,
          fc.array(fc.record({ fault: fc.constantFrom('severance.uncut', '__proto__', 7), fromTick: odd, unit: odd })),
        ),
      }),
    ),
  });
  fc.assert(
    fc.property(strange, (given) => {
      const score = keptScore({ score: 1, passed: false, ...given } as ScoreRecord);
      for (const words of wordsOf(score)) expect(words).toBeTypeOf('string');
      expect(score.measures).toHaveLength(given.measures.length);
    }),
    { seed: 20_260_103, numRuns: 2000 },
  );
});
