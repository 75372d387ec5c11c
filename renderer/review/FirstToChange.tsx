import type { Evidence, Score } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import type { UnitSystem } from '../ui/units.ts';
import { adviceWords } from './score-words.ts';

export interface FirstToChangeProps {
  score: Score;
  units: UnitSystem;
  /** The stretch can be shown once the replay stands. */
  ready: boolean;
  onShow(evidence: Evidence): void;
}

/** The one thing to change next, and the way to the stretch that shows it. */
export function FirstToChange({ score, units, ready, onShow }: FirstToChangeProps) {
  const first = score.firstThingToChange;
  const shown =
    first && first.evidenceIndex !== null
      ? score.measures.find((measure) => measure.id === first.measureId)?.evidence[first.evidenceIndex]
      : undefined;
  return (
    <section className="score-first">
      <h2>{say('review.first')}</h2>
      <p>{adviceWords(score, units) ?? say('review.first-none')}</p>
      {shown && (
        <Action isDisabled={!ready} data-evidence="first" onPress={() => onShow(shown)}>
          {say('review.show')}
        </Action>
      )}
    </section>
  );
}
