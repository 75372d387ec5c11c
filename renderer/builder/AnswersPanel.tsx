import { Fragment } from 'react';
import { type Drill, type ParseProblem, PIERCE_METHODS, rightGuideOffsetMm, runCost } from '../../sim-core/index.ts';
import { useYard } from '../app/yard-store.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { money } from '../ui/money.ts';
import { significantText } from '../ui/number-text.ts';
import { StateMark } from '../ui/StateMark.tsx';
import { Told } from '../ui/Told.tsx';
import { band, quantity, scoreText, type UnitSystem } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import type { PierceFigures } from './builder-messages.ts';
import { partOfPath, placeOfPath } from './builder-parts.ts';
import { placeName } from './place-words.ts';
import { placesOf } from './plan-places.ts';
import type { CoreAnswers } from './use-core-answers.ts';

export interface AnswersPanelProps {
  drill: Drill;
  answers: CoreAnswers;
  /** False while the text cannot be read: the answers are those of the last drill that could. */
  isReadable: boolean;
  /** Goes to where a problem can be mended; `path` is its place in the text. */
  onMend(path: string): void;
}

/** Whether the drill can be cut, and if not why not. */
function Verdict({ drill, answers, onMend }: Omit<AnswersPanelProps, 'isReadable'>) {
  const { problems, drawing, failed } = answers;
  const known = problems ?? (drawing !== undefined && drawing.length > 0 ? drawing : undefined);
  const state = failed !== null ? 'failed' : known === undefined ? 'asking' : known.length === 0 ? 'can' : 'cannot';
  return (
    <div className={`verdict verdict-${state}`} role="status" data-verdict={state}>
      <p>
        <strong>
          <Told
            words={
              failed !== null
                ? say('builder.verdict.failed', { reason: inEnglish(failed) })
                : say(`builder.verdict.${state as 'can'}`)
            }
          />
        </strong>
      </p>
      {known !== undefined && known.length > 0 && <ProblemList drill={drill} problems={known} onMend={onMend} />}
    </div>
  );
}

export interface ProblemListProps {
  drill: Drill;
  problems: readonly ParseProblem[];
  onMend(path: string): void;
}

/** Reasons, each with the way to where it can be mended: a place of the plan, or a part of the form. */
export function ProblemList({ drill, problems, onMend }: ProblemListProps) {
  const places = placesOf(drill);
  return (
    <ul className="problem-list">
      {problems.map(({ path, sentence }) => {
        const place = places.find((one) => one.id === placeOfPath(path));
        const where = place ? placeName(place) : say(`builder.part.${partOfPath(path)}`);
        return (
          <li key={path + sentence} data-problem={path}>
            <span>
              <Told words={inEnglish(sentence)} />
            </span>
            <Action aria-label={say('builder.problem.mend-long', { where, problem: sentence })} onPress={() => onMend(path)}>
              {say('builder.problem.mend', { where })}
            </Action>
          </li>
        );
      })}
    </ul>
  );
}

function pierceWords({ throughS, thrownBackJ }: PierceFigures, units: UnitSystem): string {
  if (throughS === null) return say('builder.answer.no-way');
  return say('builder.answer.through', { time: quantity(throughS, 's', units), heat: significantText(thrownBackJ, 2) });
}

/** What the core says of the drill as it is now. */
export function AnswersPanel({ drill, answers, isReadable, onMend }: AnswersPanelProps) {
  const units = useUnits();
  const prices = useYard((state) => state.settings.prices);
  const { window, pierces, reference } = answers;
  const wait = say('builder.answer.wait');
  const guideMm = rightGuideOffsetMm(drill);
  const low = window?.windowLowMmPerS ?? null;
  const high = window?.windowHighMmPerS ?? null;
  const speed =
    window === undefined ? wait : low === null || high === null ? inEnglish(window.reason ?? '') : band(low, high, 'mm/s', units);
  return (
    <section className="builder-answers" aria-label={say('builder.answers')} inert={!isReadable}>
      <Verdict drill={drill} answers={answers} onMend={onMend} />
      <dl className="answer-list">
        <dt>{say(drill.intended.speedMmPerS ? 'builder.answer.own-speed' : 'builder.answer.speed')}</dt>
        <dd data-answer="speed" data-low={low ?? ''} data-high={high ?? ''}>
          <Told words={speed} />
        </dd>
        {drill.start === 'edge' && window?.edgeDwellS != null && (
          <>
            <dt>{say('card.dwell')}</dt>
            <dd data-answer="pause">{quantity(window.edgeDwellS, 's', units)}</dd>
          </>
        )}
        {guideMm !== null && (
          <>
            <dt>{say('builder.answer.guide')}</dt>
            <dd data-answer="guide">{quantity(guideMm, 'mm', units)}</dd>
          </>
        )}
        {pierces !== null &&
          PIERCE_METHODS.map((method) => (
            <Fragment key={method}>
              <dt>{say(`builder.method.${method}`)}</dt>
              <dd data-pierce={method} data-through={pierces?.[method].throughS ?? ''}>
                {pierces === undefined ? wait : pierceWords(pierces[method], units)}
              </dd>
            </Fragment>
          ))}
        {reference !== null && (
          <>
            <dt>{say('builder.answer.reference')}</dt>
            <dd data-answer="reference" data-seconds={reference?.seconds ?? ''}>
              {reference === undefined ? (
                wait
              ) : (
                <>
                  {say('builder.answer.took', {
                    time: quantity(reference.seconds, 's', units),
                    score: scoreText(reference.score),
                  })}{' '}
                  <StateMark outcome={reference.passed ? 'passed' : 'not-yet'} />
                </>
              )}
            </dd>
          </>
        )}
        {reference && (
          <>
            <dt>{say('builder.answer.cost')}</dt>
            <dd data-answer="cost">{money(runCost(reference.use, prices).total, prices.currency)}</dd>
          </>
        )}
      </dl>
      {pierces && <p className="soft small">{say('builder.answer.back')}</p>}
      {answers.reason !== null && (
        <p role="status">
          <Told words={inEnglish(answers.reason)} />
        </p>
      )}
    </section>
  );
}
