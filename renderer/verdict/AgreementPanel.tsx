import { measureName } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import { percentText } from '../ui/number-text.ts';
import { DecisionMark } from './DecisionMark.tsx';
import {
  biasWords,
  coefficientWords,
  type Difference,
  FEW_RUNS,
  type ModerationFigures,
  pointsWords,
} from './moderation-figures.ts';

export interface AgreementPanelProps {
  figures: ModerationFigures;
  first: string;
  second: string;
  /** How a run of the set is called. */
  nameOf(runId: string): string;
}

/** Agreement of two assessors: each figure with what it means, and every run on which they came to different things. */
export function AgreementPanel({ figures, first, second, nameOf }: AgreementPanelProps) {
  const { decisions, scores, scoreBias, differences } = figures;
  return (
    <section className="agreement" aria-labelledby="agreement-title">
      <h2 id="agreement-title" className="kerf-rule">
        {say('moderation.agreement')}
      </h2>
      <div className="agreement-figures">
        <article className="given" data-kappa={decisions?.kappa ?? ''}>
          <h3>{say('moderation.kappa')}</h3>
          {decisions?.kappa == null ? (
            <p>{say('moderation.kappa.none')}</p>
          ) : (
            <>
              <p className="agreement-figure figure">{coefficientWords(decisions.kappa)}</p>
              <p>
                {say('moderation.kappa.of', {
                  cases: decisions.cases,
                  observed: percentText(decisions.observed * 100),
                  expected: percentText(decisions.expected * 100),
                })}
              </p>
            </>
          )}
          <p className="small soft">{say('moderation.kappa.means')}</p>
        </article>
        <article className="given" data-icc={scores?.icc21 ?? ''}>
          <h3>{say('moderation.icc')}</h3>
          {scores?.icc21 == null ? (
            <p>{say('moderation.icc.none')}</p>
          ) : (
            <>
              <p className="agreement-figure figure">{coefficientWords(scores.icc21)}</p>
              <p>{say('moderation.icc.of', { cases: scores.targets })}</p>
            </>
          )}
          <p className="small soft">{say('moderation.icc.means')}</p>
        </article>
        {scoreBias && (
          <article className="given">
            <h3>{say('moderation.bias')}</h3>
            <p className="agreement-figure figure">{pointsWords(scoreBias.bias)}</p>
            <p>{biasWords(scoreBias.bias, first, second)}</p>
            {scoreBias.lower !== null && scoreBias.upper !== null && (
              <p className="small soft">
                {say('moderation.bias.range', { lower: pointsWords(scoreBias.lower), upper: pointsWords(scoreBias.upper) })}
              </p>
            )}
          </article>
        )}
      </div>
      {figures.runs < FEW_RUNS && <p className="notice">{say('moderation.few')}</p>}
      <h2>{say('moderation.differences')}</h2>
      {differences.length === 0 ? (
        <p className="soft">{say('moderation.differences.none')}</p>
      ) : (
        <>
          <Differences
            title={say('moderation.differences.decision')}
            rows={differences.filter((one) => one.firstDecision !== one.secondDecision)}
            {...{ first, second, nameOf }}
          />
          <Differences
            title={say('moderation.differences.marks')}
            rows={differences.filter((one) => one.firstDecision === one.secondDecision)}
            {...{ first, second, nameOf }}
          />
        </>
      )}
    </section>
  );
}

interface DifferencesProps extends Pick<AgreementPanelProps, 'first' | 'second' | 'nameOf'> {
  title: string;
  rows: readonly Difference[];
}

/** Runs of one kind of difference; nothing where there is none. */
function Differences({ title, rows, first, second, nameOf }: DifferencesProps) {
  if (rows.length === 0) return null;
  return (
    <>
      <h3>
        {title} <span className="soft">({rows.length})</span>
      </h3>
      <table className="run-table differences" aria-label={title}>
        <thead>
          <tr>
            <th scope="col">{say('moderation.run')}</th>
            <th scope="col">{first}</th>
            <th scope="col">{second}</th>
            <th scope="col" className="to-right">
              {say('moderation.apart')}
            </th>
            <th scope="col">{say('moderation.measures')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((difference) => (
            <tr key={difference.runId}>
              <th scope="row">{nameOf(difference.runId)}</th>
              <td>
                <DecisionMark decision={difference.firstDecision} />
              </td>
              <td>
                <DecisionMark decision={difference.secondDecision} />
              </td>
              <td className="figure to-right">{pointsWords(difference.scoreDifference)}</td>
              <td>
                {difference.measures
                  .map(({ measureId, firstMark, secondMark }) =>
                    say('moderation.measure', {
                      measure: measureName(measureId),
                      first: Math.round(firstMark),
                      second: Math.round(secondMark),
                    }),
                  )
                  .join(', ') || '–'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
