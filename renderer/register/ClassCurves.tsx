import { useMemo } from 'react';
import type { ClassView } from '../../electron/contract.ts';
import { useShownTheme } from '../app/theme.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { CurvePlot } from './CurvePlot.tsx';

type Curve = ClassView['curves'][number];

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
    () =>
      weeks.map(({ week, meanScore, passShare }) => ({
        x: Date.parse(`${week}T00:00:00Z`) / 1000,
        score: meanScore,
        filled: passShare >= 0.5,
      })),
    [weeks],
  );
  const line = useMemo(() => weeks.map((week) => week.meanScore), [weeks]);
  const runs = weeks.reduce((sum, week) => sum + week.runs, 0);
  const name = techniqueName(technique);
  const last = scoreText(line.at(-1) ?? 0);
  const summary = say('class.curve.summary', {
    technique: name,
    weeks: weeks.length,
    runs,
    first: scoreText(line[0] ?? 0),
    last,
  });
  return (
    <li className="curve">
      <p className="curve-head" aria-hidden="true">
        <strong>{name}</strong>
        <span className="soft">{runs === 1 ? say('own.curve.run') : say('own.curve.runs', { count: runs })}</span>
        <span className="figure curve-now">{last}</span>
      </p>
      <CurvePlot points={points} line={line} time theme={theme} summary={summary} />
    </li>
  );
}
