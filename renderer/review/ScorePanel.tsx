import type { Ref } from 'react';
import { type Evidence, type MeasureScore, type Score, TICK_HZ } from '../../sim-core/index.ts';
import { isMeasure } from '../help/help-topics.ts';
import { MeasureHelpButton } from '../help/MeasureHelpButton.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { significantText } from '../ui/number-text.ts';
import { StateMark } from '../ui/StateMark.tsx';
import { clock, lostText, markText, scoreText, type UnitSystem } from '../ui/units.ts';
import { FirstToChange } from './FirstToChange.tsx';
import { bandWords, evidenceFigure, faultWords, measureName, reasonWords } from './score-words.ts';

export interface ScorePanelProps {
  score: Score;
  units: UnitSystem;
  /** Deductions can be shown once the replay stands. */
  ready: boolean;
  /** The score itself: takes the focus where the panel comes in place of a button. */
  head?: Ref<HTMLDivElement>;
  onShow(evidence: Evidence): void;
}

/** Score, the first thing to change, and every mark with what it lost and where. */
export function ScorePanel({ score, units, ready, head, onShow }: ScorePanelProps) {
  return (
    <div className="score" data-score={score.score} data-passed={score.passed}>
      <div className="score-head" ref={head} tabIndex={-1}>
        <p className="score-figure">
          <span className="out-of-sight">{say('review.score')} </span>
          <strong>{scoreText(score.score)}</strong> <span className="soft">{say('review.of')}</span>
        </p>
        <p className="score-outcome">
          <StateMark outcome={score.passed ? 'passed' : 'not-yet'} />
        </p>
      </div>
      {score.reasons.length > 0 && (
        <section className="score-why">
          <h3>{say('review.why')}</h3>
          <ul>
            {score.reasons.map((reason) => (
              <li key={reason.kind + ('measureId' in reason ? reason.measureId : '')}>{reasonWords(reason, units)}</li>
            ))}
          </ul>
        </section>
      )}
      <FirstToChange score={score} units={units} ready={ready} onShow={onShow} />
      <section>
        <h2 className="kerf-rule">{say('review.marks')}</h2>
        <ul className="marks">
          {score.measures.map((measure) => (
            <Measure key={measure.id} measure={measure} units={units} ready={ready} onShow={onShow} />
          ))}
        </ul>
      </section>
    </div>
  );
}

function Measure({
  measure,
  units,
  ready,
  onShow,
}: { measure: MeasureScore; units: UnitSystem } & Pick<ScorePanelProps, 'ready' | 'onShow'>) {
  const right = bandWords(measure, units);
  return (
    <li className="mark" data-measure={measure.id} data-mark={measure.mark}>
      <div className="mark-head">
        <h3>{measureName(measure.id)}</h3>
        {isMeasure(measure.id) && <MeasureHelpButton id={measure.id} />}
        <span className="soft small">{say('review.weight', { weight: significantText(measure.weight, 3) })}</span>
        <strong className="figure mark-figure">{markText(measure.mark, measure.mustReach)}</strong>
      </div>
      <svg className="mark-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true" focusable="false">
        <rect className="mark-bar-ground" width={100} height={6} />
        <rect className="mark-bar-fill" width={measure.mark} height={6} />
        {measure.mustReach !== null && <rect className="mark-bar-must" x={measure.mustReach - 0.4} width={0.8} height={6} />}
      </svg>
      <p className="small soft">
        {[
          right && say('review.band', { band: right }),
          measure.evidence.length === 0 && measure.mark >= 99.5 && say('review.clean'),
        ]
          .filter(Boolean)
          .join('. ')}
      </p>
      {measure.evidence.length > 0 && (
        <ul className="deductions">
          {measure.evidence.map((evidence, index) => (
            <li key={`${evidence.fault}-${evidence.finding ?? evidence.fromTick}`}>
              <Action
                className="deduction"
                isDisabled={!ready}
                data-evidence={`${measure.id}-${index}`}
                data-from-tick={evidence.fromTick}
                onPress={() => onShow(evidence)}
              >
                <span className="figure">
                  <span className="out-of-sight">{say('review.show-at')} </span>
                  {clock(evidence.fromTick / TICK_HZ)}
                </span>
                <span className="deduction-fault">{faultWords(evidence)}</span>
                <span className="figure soft">{evidenceFigure(evidence, units)}</span>
                <span className="figure">{say('review.lost', { marks: lostText(evidence.lostMarks) })}</span>
              </Action>
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}
