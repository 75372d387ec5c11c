import type { QueueRow } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { measureName } from '../review/score-words.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { scoreText } from '../ui/units.ts';
import { DecisionMark } from './DecisionMark.tsx';
import { momentWords } from './moment-words.ts';

/** The queue, oldest first, each run with its way into the review. */
export function QueueTable({ rows }: { rows: readonly QueueRow[] }) {
  return (
    <table className="run-table queue-table" aria-label={say('queue.title')}>
      <thead>
        <tr>
          <th scope="col">{say('queue.column.since')}</th>
          <th scope="col">{say('queue.column.person')}</th>
          <th scope="col">{say('queue.column.drill')}</th>
          <th scope="col" className="to-right">
            {say('queue.column.score')}
          </th>
          <th scope="col">{say('queue.column.weakest')}</th>
          <th scope="col">{say('queue.column.decision')}</th>
          <th scope="col">
            <span className="out-of-sight">{say('queue.column.action')}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ run, weakestMeasure, decidedBy }) => {
          const person = run.personName ?? say('queue.nobody');
          const decision = run.assessment?.decision ?? null;
          return (
            <tr key={run.id} data-run-id={run.id}>
              <td className="figure">{momentWords(run.assessment?.submittedAt ?? run.beganAt)}</td>
              <td>{person}</td>
              <th scope="row">{run.drillTitle}</th>
              <td className="figure to-right">{run.score === null ? '–' : scoreText(run.score)}</td>
              <td>{weakestMeasure === null ? '–' : measureName(weakestMeasure)}</td>
              <td>
                <DecisionMark decision={decision} />
                {decidedBy !== null && <span className="soft small queue-by">{decidedBy}</span>}
              </td>
              <td className="to-right">
                <Action
                  aria-label={say('queue.open-long', { drill: run.drillTitle, person })}
                  onPress={() => goTo({ at: 'review', runId: run.id })}
                >
                  {say('queue.open')}
                </Action>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
