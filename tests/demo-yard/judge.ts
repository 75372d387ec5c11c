import type { Request } from '../../electron/contract.ts';
import type { MeasureScore } from '../../sim-core/index.ts';
import type { Figures } from './figures.ts';
import type { PractisedRun } from './practise.ts';
import { GOOD_REASONS, MISSING, OVERRULED } from './verdict-words.ts';

/** A run that is in the yard. */
export interface Handed {
  practised: PractisedRun;
  runId: string;
}

type Given = Pick<Request<'signVerdict'>, 'decision' | 'reasons'> & {
  overruled: NonNullable<Request<'signVerdict'>['overruled']>;
};

/** Every so many verdicts a mark is overruled, where there is a reason for it. */
const OVERRULES_EVERY = 6;

/**
 * What an assessor makes of a run: the marks say the most, but not all.
 * @param strictFrom score below which this assessor says no, whatever was passed
 */
export function givenVerdict({ practised }: Handed, nth: number, by: Figures, strictFrom = 0): Given {
  const { score } = practised.run;
  const lowest = lowestMeasure(practised);
  const own = OVERRULED[lowest.id];
  const overruled =
    nth % OVERRULES_EVERY === 2 && own !== undefined && lowest.mark < 90
      ? [{ measureId: lowest.id, mark: Math.min(100, Math.round(lowest.mark / 5) * 5 + 20), reason: own }]
      : [];
  const isGood = score.passed && score.score >= strictFrom;
  const good = GOOD_REASONS[by.whole(0, GOOD_REASONS.length - 1)] ?? GOOD_REASONS[0];
  const but = lowest.mark < 85 ? ` For next time: ${lowerFirst(MISSING[lowest.id])}` : '';
  return {
    decision: isGood ? 'competent' : 'not-yet-competent',
    reasons: isGood ? `${good}${but}` : MISSING[lowest.id],
    overruled,
  };
}

/** The moment that cost the most, and what there is to say about it. */
export function notedMoment({ practised }: Handed): { tick: number; text: string } {
  const lowest = lowestMeasure(practised);
  const worst = lowest.evidence.toSorted((a, b) => b.lostMarks - a.lostMarks)[0];
  const tick = worst ? Math.floor((worst.fromTick + worst.toTick) / 2) : Math.floor(practised.run.tickCount / 2);
  const text = lowest.mark < 95 ? MISSING[lowest.id] : 'This is what it should look like. Show it to your group.';
  return { tick: Math.min(tick, practised.run.tickCount), text };
}

function lowestMeasure({ run }: PractisedRun): MeasureScore {
  const [first] = run.score.measures.toSorted((a, b) => a.mark - b.mark);
  if (!first) throw new Error('A run without measures.');
  return first;
}

function lowerFirst(text: string): string {
  return text.slice(0, 1).toLowerCase() + text.slice(1);
}
