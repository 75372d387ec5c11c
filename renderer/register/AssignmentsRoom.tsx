import { useMemo, useState } from 'react';
import type { Assignment, Group } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { useYard } from '../app/yard-store.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { useTitle } from '../ui/use-title.ts';
import { attemptsWords, cueWords, forWhomWords, stateWords } from './assignment-words.ts';
import { dayText } from './dates.ts';
import { FormDialog } from './FormDialog.tsx';
import { useAssignments, useGroups } from './use-yard-lists.ts';
import { type TableColumn, VirtualTable } from './VirtualTable.tsx';
import { YardPage } from './YardPage.tsx';

const ROLES_HERE = ['instructor'] as const;

/** What was assigned to whom, and the way to a new assignment. */
export function AssignmentsRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <Assignments />
    </YardPage>
  );
}

function Assignments() {
  const assignments = useAssignments();
  const groups = useGroups();
  useTitle(say('assign.title'));
  return (
    <main id="content" tabIndex={-1} className="home-main">
      <div className="home-ask">
        <h1>{say('assign.title')}</h1>
        <Action kind="main" onPress={() => goTo({ at: 'assign' })}>
          {say('assign.new')}
        </Action>
      </div>
      {assignments.value !== null && groups.value !== null && (
        <AssignmentList assignments={assignments.value} groups={groups.value} onWithdrawn={assignments.again} />
      )}
    </main>
  );
}

interface AssignmentListProps {
  assignments: readonly Assignment[];
  groups: readonly Group[];
  onWithdrawn(): Promise<void>;
}

function AssignmentList({ assignments, groups, onWithdrawn }: AssignmentListProps) {
  const say = useSay();
  const people = useYard((state) => state.people);
  const [withdrawing, setWithdrawing] = useState<Assignment | null>(null);
  const columns = useMemo((): TableColumn<Assignment>[] => {
    const nowMs = Date.now();
    return [
      {
        id: 'title',
        head: say('assign.name'),
        isRowHead: true,
        sortBy: (one) => one.title,
        show: (one) => keepTogether(one.title),
      },
      {
        id: 'for',
        head: say('assign.for'),
        show: (one) => <span className="assigned-for">{forWhomWords(one, groups, people)}</span>,
      },
      {
        id: 'drills',
        head: say('assign.drills'),
        sortBy: (one) => one.drills.length,
        show: (one) => <AssignedDrills titles={one.drills.map((drill) => drill.title)} />,
      },
      {
        id: 'due',
        head: say('assign.due'),
        sortBy: (one) => one.dueAt,
        show: (one) => <span className="figure">{one.dueAt === null ? say('assign.any-day') : dayText(one.dueAt)}</span>,
      },
      { id: 'attempts', head: say('assign.attempts'), show: (one) => <span className="figure">{attemptsWords(one)}</span> },
      { id: 'cues', head: say('assign.cues'), show: (one) => <span className="assigned-cues">{cueWords(one)}</span> },
      {
        id: 'state',
        head: say('assign.state'),
        sortBy: (one) => stateWords(one, nowMs),
        show: (one) => <span className={one.withdrawnAt === null ? 'figure' : 'soft'}>{stateWords(one, nowMs)}</span>,
      },
      {
        id: 'change',
        head: say('assign.action'),
        headOutOfSight: true,
        toRight: true,
        show: (one) =>
          one.withdrawnAt === null && (
            <Action
              kind="quiet"
              className="withdraw"
              aria-label={say('assign.withdraw-long', { title: one.title })}
              onPress={() => setWithdrawing(one)}
            >
              {say('assign.withdraw')}
            </Action>
          ),
      },
    ];
  }, [groups, people, say]);
  if (assignments.length === 0) return <p className="soft">{say('assign.none')}</p>;
  return (
    <>
      <VirtualTable
        label={say('assign.list')}
        rows={assignments}
        columns={columns}
        keyOf={(one) => one.id}
        marksOf={(one) => ({ 'data-assignment': one.id })}
      />
      {withdrawing && (
        <FormDialog
          title={say('assign.withdraw.title', { title: withdrawing.title })}
          isOpen
          onOpenChange={(open) => {
            if (!open) setWithdrawing(null);
          }}
          leave={say('assign.withdraw.leave')}
          keep={say('assign.withdraw')}
          ready
          onKeep={async () => {
            await callHost('withdrawAssignment', { assignmentId: withdrawing.id });
            await onWithdrawn();
          }}
        >
          <p>{say('assign.withdraw.about')}</p>
        </FormDialog>
      )}
    </>
  );
}

/** The first drill, and the others on demand. */
function AssignedDrills({ titles }: { titles: readonly string[] }) {
  const [first = '', ...others] = titles;
  if (others.length === 0) return keepTogether(first);
  return (
    <details className="assigned-drills">
      <summary>
        {keepTogether(first)} <span className="assigned-more">{say('assign.drills.more', { more: others.length })}</span>
      </summary>
      <ul>
        {others.map((title) => (
          <li key={title}>{keepTogether(title)}</li>
        ))}
      </ul>
    </details>
  );
}
