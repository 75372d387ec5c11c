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

/** How an assessor judges. */
export interface Temper {
  /** Score below which the answer is no, whatever was passed. */
  strictFrom: number;
  /** Score from which the answer is yes, even where a single rule of passing was missed. */
  lenientFrom: number;
  /** How often a mark is overruled where there is a reason for it. */
  overrules: number;
  /** By how many marks, up or down. */
  by: number;
}

/** What an assessor makes of a run: the marks say the most, but not all. */
export function givenVerdict({ practised }: Handed, temper: Temper, by: Figures): Given {
  const { score } = practised.run;
  const lowest = lowestMeasure(practised);
  const doubtful = score.measures
    .filter(({ id, mark }) => OVERRULED[id] !== undefined && mark < 96)
    .toSorted((a, b) => a.mark - b.mark)[0];
  const overrules = by.happens(temper.overrules);
  const overruled =
    overrules && doubtful
      ? [
          {
            measureId: doubtful.id,
            mark: Math.max(0, Math.min(100, Math.round(doubtful.mark / 5) * 5 + temper.by)),
            reason: OVERRULED[doubtful.id] ?? '',
          },
        ]
      : [];
  const isGood = (score.passed || score.score >= temper.lenientFrom) && score.score >= temper.strictFrom;
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
