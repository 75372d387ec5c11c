import type { RunSummary } from '../../electron/contract.ts';
import { TICK_HZ } from '../../sim-core/index.ts';
import { goTo } from '../app/route.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StateMark } from '../ui/StateMark.tsx';
import { clock, scoreText } from '../ui/units.ts';
import { momentText } from './dates.ts';
import { personText } from './person-text.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';

export interface RunTableProps {
  runs: readonly RunSummary[];
  label: string;
  /** Left out where all runs are of one person. */
  withPerson?: boolean;
  /** Runs that the host would take for a decision now. */
  mayHandIn?: ReadonlySet<string>;
  /** Hands a run in for a decision. */
  onHandIn?(run: RunSummary): Promise<void>;
}

/** How a run came out; of an undecided assessment only that it waits. */
function RunOutcome({ run: { state, score, passed, assessment } }: { run: RunSummary }) {
  if (assessment?.decision) return <span className="run-decision">{say(`own.due.${assessment.decision}`)}</span>;
  if (state === 'finished' && passed === null) {
    return <span className="soft">{say(assessment?.submittedAt ? 'run.waits' : 'run.sealed')}</span>;
  }
  return (
    <>
      {score !== null && <span className="figure">{scoreText(score)}</span>}
      <StateMark outcome={state !== 'finished' ? state : passed ? 'passed' : 'not-yet'} />
    </>
  );
}

function columnsOf({ withPerson = true, mayHandIn, onHandIn }: RunTableProps): TableColumn<RunSummary>[] {
  const who: TableColumn<RunSummary> = {
    id: 'who',
    head: say('home.run.who'),
    sortBy: (run) => run.personName,
    show: (run) => (run.personName === null ? say('home.who.nobody') : personText(run.personName)),
  };
  return [
    {
      id: 'drill',
      head: say('home.run.drill'),
      isRowHead: true,
      sortBy: (run) => run.drillTitle,
      show: (run) => keepTogether(run.drillTitle),
    },
    ...(withPerson ? [who] : []),
    {
      id: 'when',
      head: say('home.run.when'),
      sortBy: (run) => run.beganAt,
      show: (run) => <span className="figure">{momentText(run.beganAt)}</span>,
    },
    {
      id: 'length',
      head: say('home.run.length'),
      toRight: true,
      sortBy: (run) => run.tickCount,
      show: (run) => <span className="figure">{clock(run.tickCount / TICK_HZ)}</span>,
    },
    {
      id: 'score',
      head: say('home.run.score'),
      toRight: true,
      sortBy: (run) => run.score,
      show: (run) => (
        <span className="run-score">
          <RunOutcome run={run} />
        </span>
      ),
    },
    {
      id: 'open',
      head: say('home.run.action'),
      headOutOfSight: true,
      toRight: true,
      show: (run) => (
        <span className="row-actions">
          {onHandIn && mayHandIn?.has(run.id) && (
            <WorkAction
              kind="quiet"
              aria-label={say('run.hand-in-long', { drill: run.drillTitle, when: momentText(run.beganAt) })}
              work={() => onHandIn(run)}
            >
              {say('run.hand-in')}
            </WorkAction>
          )}
          <Action
            isDisabled={run.tickCount === 0}
            aria-label={say('home.run.replay-long', { drill: run.drillTitle, when: momentText(run.beganAt) })}
            onPress={() => goTo({ at: 'review', runId: run.id })}
          >
            {say('home.run.replay')}
          </Action>
        </span>
      ),
    },
  ];
}

/** Runs, newest first, each with its way into the replay. */
export function RunTable(props: RunTableProps) {
  return (
    <VirtualTable
      label={props.label}
      rows={props.runs}
      columns={columnsOf(props)}
      keyOf={(run) => run.id}
      marksOf={(run) => ({ 'data-run-id': run.id, 'data-run-state': run.state })}
    />
  );
}
