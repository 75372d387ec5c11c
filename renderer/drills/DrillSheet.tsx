import type { DrillSummary, Standing } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StateMark } from '../ui/StateMark.tsx';
import { Told } from '../ui/Told.tsx';
import { scoreText, thickness } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { authorLanguage } from './author-language.ts';
import { PlateSketch } from './PlateSketch.tsx';
import { triedWords } from './tried-words.ts';
import { useDrill } from './use-drill.ts';

/** One drill on the home page: what is cut, and how far whoever practises has come with it. */
export function DrillSheet({ summary, standing }: { summary: DrillSummary; standing: Standing | null }) {
  const units = useUnits();
  const reading = useDrill(summary);
  return (
    <li className="drill-sheet">
      <div className="drill-sketch">{reading.state === 'read' && <PlateSketch drill={reading.drill} />}</div>
      <h4>
        <span lang={authorLanguage(summary)}>{keepTogether(summary.title)}</span>{' '}
        {summary.draft && <span className="drill-draft">{say('home.drill.draft')}</span>}
      </h4>
      <p className="drill-facts">
        <span>{say(`material.${summary.material}`)}</span>
        <span className="figure">{thickness(summary.thicknessMm, units)}</span>
      </p>
      {reading.state === 'reading' && <p className="soft small">{say('home.drill.reading')}</p>}
      {reading.state === 'broken' && (
        <p className="drill-broken small">
          <Told words={say('home.drill.broken', { reason: reading.reason })} />
        </p>
      )}
      <p className="small drill-standing" data-drill={summary.id} data-tries={standing?.tries ?? 0}>
        {standing === null ? (
          <span className="soft">{say('home.drill.untried')}</span>
        ) : (
          <>
            {standing.bestScore !== null && <StateMark outcome={standing.passed ? 'passed' : 'not-yet'} />}
            {standing.bestScore !== null && (
              <span className="figure">{say('home.drill.best', { score: scoreText(standing.bestScore) })}</span>
            )}
            <span className="soft">{triedWords(standing.tries)}</span>
          </>
        )}
      </p>
      <Action
        kind="main"
        isDisabled={reading.state !== 'read'}
        aria-label={say('home.drill.open-long', { title: summary.title })}
        onPress={() => goTo({ at: 'bench', drillId: summary.id })}
      >
        {say('home.drill.open')}
      </Action>
    </li>
  );
}
