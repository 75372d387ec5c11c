import { useEffect, useRef } from 'react';
import { SPEED_GUESSES, type SpeedGuess } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

const WRITTEN_IN = '[role="dialog"], input';

/** After the arc and before any mark: what the trainee takes the own speed to have been. 1, 2 and 3 answer, Esc goes on without. */
export function GuessPanel({ onGuess }: { onGuess(guess: SpeedGuess | null): void }) {
  const title = useRef<HTMLHeadingElement>(null);
  // Not on an answer: a key that is still held from the cut would give it.
  useEffect(() => title.current?.focus(), []);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      if (event.target instanceof HTMLElement && event.target.closest(WRITTEN_IN)) return;
      const answer = SPEED_GUESSES[Number(event.key) - 1];
      if (answer) onGuess(answer);
      else if (event.key === 'Escape') onGuess(null);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [onGuess]);
  return (
    <section className="guess" aria-labelledby="guess-title">
      <h1 id="guess-title" ref={title} tabIndex={-1}>
        {say('guess.title')}
      </h1>
      <p className="soft">{say('guess.why')}</p>
      <div className="guess-answers">
        {SPEED_GUESSES.map((guess, n) => (
          <Action key={guess} data-guess={guess} onPress={() => onGuess(guess)}>
            <span className="guess-key" aria-hidden="true">
              {n + 1}
            </span>
            {say(`guess.${guess}`)}
          </Action>
        ))}
      </div>
      <Action kind="quiet" onPress={() => onGuess(null)}>
        {say('guess.skip')}
      </Action>
    </section>
  );
}
