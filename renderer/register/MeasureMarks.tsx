import { say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { measureName } from './measure-name.ts';
import type { Progress } from './next-practice.ts';

const SHOWN = 6;

/** The measures that were lowest of late, each on a rule from 0 to 100. */
export function MeasureMarks({ measures }: { measures: Progress['measures'] }) {
  if (measures.length === 0) return null;
  return (
    <section className="measure-marks" aria-labelledby="measures-title">
      <h3 id="measures-title">{say('own.measures')}</h3>
      <ul>
        {measures.slice(0, SHOWN).map(({ measureId, recentMark }) => (
          <li key={measureId}>
            <span>{measureName(measureId)}</span>
            <span className="mark-rule" aria-hidden="true">
              <span style={{ width: `${Math.max(0, Math.min(100, recentMark))}%` }} />
            </span>
            <span className="figure">{scoreText(recentMark)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
