import { reasonsAfterOverruling, type Score, scoreAfterOverruling } from '../../sim-core/index.ts';
import { reasonWords } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import { StateMark } from '../ui/StateMark.tsx';
import { scoreText } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import type { Overruling } from './verdict-draft.ts';

export interface OverruledTotalsProps {
  score: Score;
  overruled: readonly Overruling[];
  passMark: number;
}

/** The score as it was marked and as the assessor's marks would have it, each with what the drill's own pass rule says of it. */
export function OverruledTotals({ score, overruled, passMark }: OverruledTotalsProps) {
  const units = useUnits();
  const after = scoreAfterOverruling(score, overruled);
  const reasons = reasonsAfterOverruling(score, overruled, passMark);
  const changed = overruled.length > 0;
  return (
    <div className="totals" data-as-marked={score.score} data-after={after} data-passes={reasons.length === 0}>
      <table className="totals-table">
        <caption className="small soft">{say('verdict.total.caption')}</caption>
        <tbody>
          <tr>
            <th scope="row">{say('verdict.total.as-marked')}</th>
            <td className="figure">{changed ? <s>{scoreText(score.score)}</s> : scoreText(score.score)}</td>
            <td>
              <StateMark outcome={score.passed ? 'passed' : 'not-yet'} />
            </td>
          </tr>
          {changed && (
            <tr>
              <th scope="row">{say('verdict.total.overruled')}</th>
              <td className="figure">{scoreText(after)}</td>
              <td>
                <StateMark outcome={reasons.length === 0 ? 'passed' : 'not-yet'} />
              </td>
            </tr>
          )}
        </tbody>
      </table>
      {reasons.length > 0 && (
        <ul className="small">
          {reasons.map((reason) => (
            <li key={reason.kind + ('measureId' in reason ? reason.measureId : '')}>{reasonWords(reason, units)}</li>
          ))}
        </ul>
      )}
      <p className="small soft">{say('verdict.total.free')}</p>
    </div>
  );
}
