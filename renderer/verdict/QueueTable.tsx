import type { QueueRow } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { type TableColumn, VirtualTable } from '../register/VirtualTable.tsx';
import { measureName } from '../review/score-words.ts';
import { keepTogether } from '../text/keep-together.ts';
import { perLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { scoreText } from '../ui/units.ts';
import { DecisionMark } from './DecisionMark.tsx';

const personOf = ({ run }: QueueRow) => (run.personName === null ? say('queue.nobody') : personText(run.personName));

const columns = perLanguage((): readonly TableColumn<QueueRow>[] => [
  {
    id: 'since',
    head: say('queue.column.since'),
    show: ({ run }) => <span className="figure">{momentText(run.assessment?.submittedAt ?? run.beganAt)}</span>,
  },
  { id: 'person', head: say('queue.column.person'), isRowHead: true, show: personOf },
  {
    id: 'drill',
    head: say('queue.column.drill'),
    show: ({ run }) => <span className="queue-drill">{keepTogether(run.drillTitle)}</span>,
  },
  {
    id: 'score',
    head: say('queue.column.score'),
    toRight: true,
    show: ({ run }) => <span className="figure">{run.score === null ? '–' : scoreText(run.score)}</span>,
  },
  {
    id: 'weakest',
    head: say('queue.column.weakest'),
    show: ({ weakestMeasure }) => (weakestMeasure === null ? '–' : measureName(weakestMeasure)),
  },
  {
    id: 'decision',
    head: say('queue.column.decision'),
    show: ({ run, decidedBy }) => (
      <>
        <DecisionMark decision={run.assessment?.decision ?? null} />
        {decidedBy !== null && <span className="soft small queue-by">{personText(decidedBy)}</span>}
      </>
    ),
  },
  {
    id: 'open',
    head: say('queue.column.action'),
    headOutOfSight: true,
    toRight: true,
    show: (row) => (
      <Action
        aria-label={say('queue.open-long', { drill: row.run.drillTitle, person: personOf(row) })}
        onPress={() => goTo({ at: 'review', runId: row.run.id })}
      >
        {say('queue.open')}
      </Action>
    ),
  },
]);

export interface QueueTableProps {
  rows: readonly QueueRow[];
  /** Rows there are in all. */
  total: number;
  onNearEnd(): void;
}

/** The queue, oldest first, each run with its way into the review. */
export function QueueTable({ rows, total, onNearEnd }: QueueTableProps) {
  return (
    <VirtualTable
      label={say('queue.title')}
      rows={rows}
      columns={columns()}
      keyOf={({ run }) => run.id}
      marksOf={({ run }) => ({ 'data-run-id': run.id })}
      total={total}
      onNearEnd={onNearEnd}
    />
  );
}
