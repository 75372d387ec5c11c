import type { SpeedGuess } from '../../electron/contract.ts';
import type { Drill, Score } from '../../sim-core/index.ts';

/** From this mark on the speed was right, as far as a word can tell. */
const RIGHT_FROM_MARK = 80;

/** Whether a run of this drill ends with the question. Where the fault of the rig is asked for, that is the guess. */
export function asksSpeedGuess(drill: Pick<Drill, 'rubric'>): boolean {
  const measures = new Set(drill.rubric.measures.map(({ id }) => id));
  return measures.has('travel-speed') && !measures.has('fault-finding');
}

/** What the speed was over the run, by the marks that it lost; null where it was not marked. */
export function speedTruth(score: Pick<Score, 'measures'>): SpeedGuess | null {
  const speed = score.measures.find((measure) => measure.id === 'travel-speed');
  if (!speed) return null;
  if (speed.mark >= RIGHT_FROM_MARK) return 'right';
  let balance = 0;
  for (const { fault, lostMarks } of speed.evidence) {
    if (fault === 'travel-speed.too-fast') balance += lostMarks;
    if (fault === 'travel-speed.too-slow') balance -= lostMarks;
  }
  if (balance === 0) return null;
  return balance > 0 ? 'too-fast' : 'too-slow';
}

/** Whether marks of a drill wait for an assessor where roles bind, as the host has it: not where finding the fault is the lesson. */
export function marksAreSealed(drill: Pick<Drill, 'cueLevel' | 'technique'>): boolean {
  return drill.cueLevel === 'none' && drill.technique !== 'fault-finding';
}
