import type { SpeedGuess } from '../../electron/contract.ts';
import type { Evidence, Score } from '../../sim-core/index.ts';
import { speedTruth } from '../bench/speed-guess.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import type { UnitSystem } from '../ui/units.ts';
import { FirstToChange } from './FirstToChange.tsx';

export interface FirstWordProps {
  score: Score;
  /** Null where the question was passed over. */
  guess: SpeedGuess | null;
  units: UnitSystem;
  /** The replay stands. */
  ready: boolean;
  onShow(evidence: Evidence): void;
  onAll(): void;
}

/** What comes before the marks of a run that was just cut: the own guess beside the truth, and the one thing to change. */
export function FirstWord({ score, guess, units, ready, onShow, onAll }: FirstWordProps) {
  const truth = speedTruth(score);
  return (
    <div className="first-word">
      {guess !== null && truth !== null && (
        <section className="guess-told" data-guessed={guess} data-was={truth}>
          <h2>{say(guess === truth ? 'guess.hit' : 'guess.miss')}</h2>
          <p>{say('guess.told', { guess: say(`guess.${guess}`), truth: say(`guess.${truth}`) })}</p>
        </section>
      )}
      <FirstToChange score={score} units={units} ready={ready} onShow={onShow} />
      <Action kind="main" autoFocus data-marks="all" onPress={onAll}>
        {say('review.all')}
      </Action>
    </div>
  );
}
