import type { RunSummary } from '../../electron/contract.ts';
import { TICK_HZ } from '../../sim-core/index.ts';
import { goTo } from '../app/route.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StateMark } from '../ui/StateMark.tsx';
import { clock, scoreText } from '../ui/units.ts';

const when = new Intl.DateTimeFormat('en', { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hour12: false });

function outcomeOf(run: RunSummary) {
  if (run.state !== 'finished') return run.state;
  return run.passed ? 'passed' : 'not-yet';
}

/** Runs, newest first, each with its way into the replay. */
export function RunTable({ runs, label }: { runs: readonly RunSummary[]; label: string }) {
  return (
    <table className="run-table" aria-label={label}>
      <thead>
        <tr>
          <th scope="col">{say('home.run.drill')}</th>
          <th scope="col">{say('home.run.who')}</th>
          <th scope="col">{say('home.run.when')}</th>
          <th scope="col" className="to-right">
            {say('home.run.length')}
          </th>
          <th scope="col" className="to-right">
            {say('home.run.score')}
          </th>
          <th scope="col">
            <span className="out-of-sight">{say('home.run.action')}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {runs.map((run) => {
          const began = when.format(new Date(run.beganAt));
          return (
            <tr key={run.id} data-run-id={run.id} data-run-state={run.state}>
              <th scope="row">{run.drillTitle}</th>
              <td>{run.personName ?? say('home.who.nobody')}</td>
              <td className="figure">{began}</td>
              <td className="figure to-right">{clock(run.tickCount / TICK_HZ)}</td>
              <td className="to-right run-score">
                {run.score !== null && <span className="figure">{scoreText(run.score)}</span>}
                <StateMark outcome={outcomeOf(run)} />
              </td>
              <td className="to-right">
                <Action
                  isDisabled={run.tickCount === 0}
                  aria-label={say('home.run.replay-long', { drill: run.drillTitle, when: began })}
                  onPress={() => goTo({ at: 'review', runId: run.id })}
                >
                  {say('home.run.replay')}
                </Action>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
