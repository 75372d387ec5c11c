// Hands with one fault each: the measure that names the fault loses the most, every other one less, and the advice names it.
// Physics decides what a fault does; nothing here depends on its numbers.
import { beforeAll, describe, expect, test } from 'vitest';
import {
  type CompletedRun,
  FAULT_HANDS,
  type FaultHandId,
  faultHand,
  faultsOf,
  referenceHand,
  runHand,
  type SpeedWindow,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';

const HANDLING: readonly FaultHandId[] = [
  'too-fast',
  'too-slow',
  'leaves-early',
  'leaves-late',
  'leaning',
  'wandering',
  'too-high',
  'stops-short',
  'halting',
];

const CASES: [string, readonly FaultHandId[]][] = [
  ['hanger-tab-straight-6', HANDLING],
  ['keel-saddle-curve-6', ['too-fast', 'too-slow', 'leaning', 'wandering', 'too-high']],
  ['cradle-gusset-straight-10', ['too-fast', 'too-slow', 'leaves-early', 'wandering', 'stops-short']],
  ['guard-patch-straight-3', ['too-slow', 'leaves-early', 'leaning', 'too-high']],
];

describe.each(CASES)('%s', (id, faults) => {
  const drill = shippedDrill(id);
  let window: SpeedWindow;
  let reference: CompletedRun;

  beforeAll(() => {
    window = windowOfDrill(drill);
    reference = runHand(drill, referenceHand(drill, window), 11);
  });

  test.each(faults)(
    '%s',
    (fault) => {
      expect(faultsOf(drill)).toContain(fault);
      const { script, ...answers } = faultHand(fault, drill, window);
      const { score } = runHand(drill, script, 11, answers);
      const lost = (measureId: string): number => {
        const before = reference.score.measures.find((measure) => measure.id === measureId);
        const after = score.measures.find((measure) => measure.id === measureId);
        return (before?.mark ?? 0) - (after?.mark ?? 0);
      };
      const named = FAULT_HANDS[fault];
      expect(lost(named)).toBeGreaterThan(25);
      for (const { id: other } of score.measures) {
        if (other !== named) expect(lost(other), other).toBeLessThan(lost(named));
      }
      expect(score.passed).toBe(false);
      expect(score.score).toBeLessThan(reference.score.score);
      expect(score.firstThingToChange?.measureId).toBe(named);
      const evidence = score.measures.find((measure) => measure.id === named)?.evidence ?? [];
      expect(evidence[score.firstThingToChange?.evidenceIndex ?? -1]?.fault).toBe(score.firstThingToChange?.key);
    },
    60_000,
  );
});
