import { speedTruth } from '../bench/speed-guess.ts';
import { say } from '../text/say.ts';
import type { ReviewedRun } from './fresh-run.ts';

/** What whoever cut the run took the speed to have been, beside what it was as far as the marks are told. */
export function GuessNote({ run: { guess, score } }: { run: Pick<ReviewedRun, 'guess' | 'score'> }) {
  if (guess === null) return null;
  const truth = score === null ? null : speedTruth(score);
  const said = { guess: say(`guess.${guess}`) };
  return (
    <p className="small" data-guess={guess} data-was={truth ?? ''}>
      {truth === null ? say('guess.kept', said) : say('guess.kept-beside', { ...said, truth: say(`guess.${truth}`) })}
    </p>
  );
}
