// Every shipped drill, whatever its technique: the hand that does it right passes with 90 or more, and hands with one fault each
// lose on the measure that names the fault. One drill alone: npx vitest run tests/scoring/every-drill.test.ts -t DRILL_ID
import { beforeAll, describe, expect, test } from 'vitest';
import {
  type CompletedRun,
  FAULT_HANDS,
  type FaultHandId,
  faultHand,
  faultsOf,
  type MeasureId,
  referenceHand,
  runHand,
  type SpeedWindow,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { DRILL_FILES, shippedDrill } from '../scenarios/drill-files.ts';

const DRILL_IDS = DRILL_FILES.map((name) => name.replace('.json', ''));

/** Faults tried on each drill, each with a measure of its own; of these at least so many must be named, each by so many marks. */
const TRIED = 5;
const NAMED = 3;
const LEAST_LOST = 25;

/** The faults to try on a drill: those of its own technique first. */
function tried(faults: readonly FaultHandId[]): FaultHandId[] {
  const first = faults.filter((fault, index) => faults.findIndex((other) => FAULT_HANDS[other] === FAULT_HANDS[fault]) === index);
  return [...first, ...faults.filter((fault) => !first.includes(fault))].slice(0, TRIED);
}

function markOf(run: CompletedRun, id: MeasureId): number {
  return run.score.measures.find((measure) => measure.id === id)?.mark ?? Number.NaN;
}

describe.each(DRILL_IDS)('%s', (id) => {
  const drill = shippedDrill(id);
  let window: SpeedWindow;
  let reference: CompletedRun;

  beforeAll(() => {
    window = windowOfDrill(drill);
    reference = runHand(drill, referenceHand(drill, window), 11);
  });

  test('the reference hand passes with 90 or more', () => {
    expect(reference.score.reasons).toEqual([]);
    expect(reference.score.score).toBeGreaterThanOrEqual(90);
  });

  test('at least three single faults are named by their measures', () => {
    const outcomes = tried(faultsOf(drill)).map((fault) => {
      const { script, ...answers } = faultHand(fault, drill, window);
      const run = runHand(drill, script, 11, answers);
      const named = FAULT_HANDS[fault];
      const { evidence } = run.score.measures.find((measure) => measure.id === named) ?? { evidence: [] };
      const lost = markOf(reference, named) - markOf(run, named);
      return { fault, lost, told: evidence.length > 0, dearer: run.score.score < reference.score.score };
    });
    const shown = outcomes.filter(({ lost, told, dearer }) => lost >= LEAST_LOST && told && dearer);
    expect(shown.length, JSON.stringify(outcomes)).toBeGreaterThanOrEqual(NAMED);
  });
});
