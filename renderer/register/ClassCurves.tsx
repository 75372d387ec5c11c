import { useMemo } from 'react';
import type { ClassView } from '../../electron/contract.ts';
import { useShownTheme } from '../app/theme.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { CurvePlot } from './CurvePlot.tsx';
import { weekText } from './dates.ts';
import { lateMean } from './late-mean.ts';

type Curve = ClassView['curves'][number];

const secondsOf = (week: string) => Date.parse(`${week}T00:00:00Z`) / 1000;
const runsWords = (count: number) => (count === 1 ? say('own.curve.run') : say('own.curve.runs', { count }));

/** The practice curve of each technique, week by week. */
export function ClassCurves({ curves }: { curves: readonly Curve[] }) {
  return (
    <section aria-labelledby="class-curves">
      <h2 id="class-curves" className="kerf-rule">
        {say('class.curves')}
      </h2>
      <p className="soft small">{say('class.curves.key')}</p>
      <ul className="curves">
        {curves.map((curve) => (
          <ClassCurve key={curve.technique} {...curve} />
        ))}
      </ul>
    </section>
  );
}

function ClassCurve({ technique, weeks }: Curve) {
  const theme = useShownTheme();
  const points = useMemo(
    () => weeks.map(({ week, meanScore, passShare }) => ({ x: secondsOf(week), score: meanScore, filled: passShare >= 0.5 })),
    [weeks],
  );
  const line = useMemo(() => weeks.map((week) => week.meanScore), [weeks]);
  const runs = weeks.reduce((sum, week) => sum + week.runs, 0);
  const late = lateMean(weeks);
  const name = techniqueName(technique);
  const summary = say('class.curve.summary', {
    technique: name,
    weeks: weeks.length,
    runs,
    first: scoreText(line[0] ?? 0),
    last: scoreText(line.at(-1) ?? 0),
  });
  return (
    <li className="curve">
      <div className="curve-head">
        <h3>{name}</h3>
        {late && (
          <p>
            <span className="soft small">
              {late.runs === runs ? runsWords(runs) : say('class.curve.late', { runs: late.runs, all: runs })}
            </span>{' '}
            <span className="figure curve-now">{scoreText(late.score)}</span>
          </p>
        )}
      </div>
      {weeks.length > 1 ? (
        <CurvePlot points={points} line={line} time theme={theme} summary={summary} />
      ) : (
        <p className="soft curve-none">{say('class.curve.one', { week: weekText(points[0]?.x ?? 0) })}</p>
      )}
    </li>
  );
}
