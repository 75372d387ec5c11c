import { useMemo } from 'react';
import { useShownTheme } from '../app/theme.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { scoreText } from '../ui/units.ts';
import { CurvePlot } from './CurvePlot.tsx';
import type { Progress } from './next-practice.ts';
import { fitPracticeCurve, practiceScore } from './practice-curve.ts';

const MEAN_OF = 5;

/** At each run the mean of it and the ones before, five at most. */
export function meanOfLast(scores: readonly number[], count = MEAN_OF): number[] {
  return scores.map((_, at) => {
    const last = scores.slice(Math.max(0, at + 1 - count), at + 1);
    return last.reduce((sum, score) => sum + score, 0) / last.length;
  });
}

/** The curve of each technique that was practised. */
export function OwnCurves({ techniques }: { techniques: Progress['techniques'] }) {
  return (
    <ul className="curves">
      {techniques.map((one) => (
        <OwnCurve key={one.technique} {...one} />
      ))}
    </ul>
  );
}

function OwnCurve({ technique, runs }: Progress['techniques'][number]) {
  const theme = useShownTheme();
  const points = useMemo(() => runs.map((run, at) => ({ x: at + 1, score: run.score, filled: run.passed })), [runs]);
  const line = useMemo(() => meanOfLast(runs.map((run) => run.score)), [runs]);
  const curve = useMemo(() => fitPracticeCurve(runs.map((run) => run.score)), [runs]);
  const fitted = useMemo(() => (curve ? runs.map((_, at) => practiceScore(curve, at + 1)) : undefined), [curve, runs]);
  const name = techniqueName(technique);
  const count = runs.length === 1 ? say('own.curve.run') : say('own.curve.runs', { count: runs.length });
  const told = say('own.curve.summary', {
    technique: name,
    runs: count,
    first: scoreText(runs[0]?.score ?? 0),
    last: scoreText(runs.at(-1)?.score ?? 0),
    mean: scoreText(line.at(-1) ?? 0),
    passed: runs.filter((run) => run.passed).length,
  });
  const summary = curve ? say('own.curve.fitted', { told, level: scoreText(curve.level) }) : told;
  return (
    <li className="curve">
      <div className="curve-head">
        <h3>{name}</h3>
        <p>
          <span className="soft small">{count}</span> <span className="figure curve-now">{scoreText(line.at(-1) ?? 0)}</span>
        </p>
      </div>
      {runs.length > 1 ? (
        <CurvePlot points={points} line={line} fitted={fitted} time={false} theme={theme} summary={summary} />
      ) : (
        <p className="soft curve-none">{say('own.curve.one')}</p>
      )}
    </li>
  );
}
