import type { DrillSummary } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { isTextKey, say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { thickness } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { PlateSketch } from './PlateSketch.tsx';
import { passInShort } from './pass-rules.ts';
import { useDrill } from './use-drill.ts';

/** One drill on the home page: what is cut, how, and what counts as a pass. */
export function DrillSheet({ summary }: { summary: DrillSummary }) {
  const units = useUnits();
  const reading = useDrill(summary);
  const technique = `technique.${summary.technique}`;
  return (
    <li className="drill-sheet">
      <div className="drill-sketch">{reading.state === 'read' && <PlateSketch drill={reading.drill} />}</div>
      <h3>{summary.title}</h3>
      <p className="drill-facts">
        <span>{say(`material.${summary.material}`)}</span>
        <span className="figure">{thickness(summary.thicknessMm, units)}</span>
        <span>{isTextKey(technique) ? say(technique) : summary.technique}</span>
      </p>
      {reading.state === 'reading' && <p className="soft small">{say('home.drill.reading')}</p>}
      {reading.state === 'broken' && <p className="drill-broken small">{say('home.drill.broken', { reason: reading.reason })}</p>}
      {reading.state === 'read' && (
        <p className="small drill-pass">
          <span className="soft">{say('home.drill.pass')}: </span>
          {passInShort(reading.drill)}
        </p>
      )}
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
