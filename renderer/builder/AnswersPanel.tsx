import { Fragment } from 'react';
import { type Drill, type ParseProblem, PIERCE_METHODS, rightGuideOffsetMm, runCost } from '../../sim-core/index.ts';
import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { money } from '../ui/money.ts';
import { StateMark } from '../ui/StateMark.tsx';
import { band, quantity, scoreText, type UnitSystem } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import type { PierceFigures } from './builder-messages.ts';
import { type BuilderPart, partOfPath } from './builder-parts.ts';
import type { CoreAnswers } from './use-core-answers.ts';

const joules = new Intl.NumberFormat('en', { maximumSignificantDigits: 2 });

export interface AnswersPanelProps {
  drill: Drill;
  answers: CoreAnswers;
  /** Opens the part of the form where a problem can be mended. */
  onMend(part: BuilderPart): void;
}

/** Whether the drill can be cut, and if not why not. */
function Verdict({ answers, onMend }: Omit<AnswersPanelProps, 'drill'>) {
  const { problems, drawing, failed } = answers;
  const known = problems ?? (drawing !== undefined && drawing.length > 0 ? drawing : undefined);
  const state = failed !== null ? 'failed' : known === undefined ? 'asking' : known.length === 0 ? 'can' : 'cannot';
  return (
    <div className={`verdict verdict-${state}`} role="status" data-verdict={state}>
      <p>
        <strong>
          {failed !== null ? say('builder.verdict.failed', { reason: failed }) : say(`builder.verdict.${state as 'can'}`)}
        </strong>
      </p>
      {known !== undefined && known.length > 0 && <ProblemList problems={known} onMend={onMend} />}
    </div>
  );
}

export function ProblemList({ problems, onMend }: { problems: readonly ParseProblem[]; onMend(part: BuilderPart): void }) {
  return (
    <ul className="problem-list">
      {problems.map((problem) => {
        const part = partOfPath(problem.path);
        return (
          <li key={problem.path + problem.sentence} data-problem={problem.path}>
            <span>{problem.sentence}</span>
            <Action
              aria-label={say('builder.problem.mend-long', { part: say(`builder.part.${part}`), problem: problem.sentence })}
              onPress={() => onMend(part)}
            >
              {say('builder.problem.mend', { part: say(`builder.part.${part}`) })}
            </Action>
          </li>
        );
      })}
    </ul>
  );
}

function pierceWords({ throughS, thrownBackJ }: PierceFigures, units: UnitSystem): string {
  if (throughS === null) return say('builder.answer.no-way');
  return say('builder.answer.through', { time: quantity(throughS, 's', units), heat: joules.format(thrownBackJ) });
}

/** What the core says of the drill as it is now. */
export function AnswersPanel({ drill, answers, onMend }: AnswersPanelProps) {
  const units = useUnits();
  const prices = useYard((state) => state.settings.prices);
  const { window, pierces, reference } = answers;
  const wait = say('builder.answer.wait');
  const guideMm = rightGuideOffsetMm(drill);
  const low = window?.windowLowMmPerS ?? null;
  const high = window?.windowHighMmPerS ?? null;
  const speed =
    window === undefined ? wait : low === null || high === null ? (window.reason ?? '') : band(low, high, 'mm/s', units);
  return (
    <section className="builder-answers" aria-label={say('builder.answers')}>
      <Verdict answers={answers} onMend={onMend} />
      <dl className="answer-list">
        <dt>{say(drill.intended.speedMmPerS ? 'builder.answer.own-speed' : 'builder.answer.speed')}</dt>
        <dd data-answer="speed" data-low={low ?? ''} data-high={high ?? ''}>
          {speed}
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
      {answers.reason !== null && <p role="status">{answers.reason}</p>}
    </section>
  );
}
