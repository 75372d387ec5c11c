import { goTo } from '../app/route.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StateMark } from '../ui/StateMark.tsx';
import { scoreText } from '../ui/units.ts';
import { dayText } from './dates.ts';
import { type Due, type DueDrill, isDone } from './next-practice.ts';
import { attemptsLeftWords } from './next-words.ts';

/** What somebody was asked to do, soonest due first; each drill with how it stands. */
export function DueList({ due }: { due: readonly Due[] }) {
  return (
    <ul className="due-list">
      {due.map((one) => (
        <DueSheet key={one.assignmentId} due={one} />
      ))}
    </ul>
  );
}

function DueSheet({ due }: { due: Due }) {
  const over = due.dueAt !== null && Date.parse(due.dueAt) < Date.now() && !due.drills.every(isDone);
  const when = due.dueAt === null ? say('own.due.any') : say(over ? 'own.due.over' : 'own.due.by', { date: dayText(due.dueAt) });
  return (
    <li className="due-sheet" data-due={due.assignmentId}>
      <div className="due-head">
        <h3>{due.title}</h3>
        <p className={over ? 'due-over' : undefined}>{when}</p>
        <p className="soft">{say('own.due.done', { done: due.drills.filter(isDone).length, all: due.drills.length })}</p>
      </div>
      <ol className="due-drills">
        {due.drills.map((drill) => (
          <DueRow
            key={drill.drillHash}
            drill={drill}
            assignmentId={due.assignmentId}
            isNext={drill.drillHash === due.nextDrillHash && !isDone(drill)}
          />
        ))}
      </ol>
    </li>
  );
}

function standingWords({ used, bestScore, left, submittedRunId, decision }: DueDrill): string {
  const tried = used === 0 ? say('own.due.untried') : used === 1 ? say('own.due.used-once') : say('own.due.used', { used });
  const words = [tried];
  if (bestScore !== null) words.push(say('own.due.best', { score: scoreText(bestScore) }));
  if (left !== null) words.push(attemptsLeftWords(left));
  if (submittedRunId !== null && decision === null) words.push(say('own.due.handed-in'));
  return words.join(', ');
}

function DueRow({ drill, assignmentId, isNext }: { drill: DueDrill; assignmentId: string; isNext: boolean }) {
  const closed = drill.left === 0 || (drill.submittedRunId !== null && drill.decision !== 'not-yet-competent');
  return (
    <li className="due-row" data-next={isNext}>
      <div>
        <p>
          <strong>{drill.title}</strong>
          {isNext && <span className="due-next">{say('own.due.next')}</span>}
        </p>
        <p className="soft small">
          {techniqueName(drill.technique)}: {standingWords(drill)}
        </p>
      </div>
      {drill.decision !== null ? (
        <strong>{say(`own.due.${drill.decision}`)}</strong>
      ) : (
        drill.passed !== null && drill.used > 0 && <StateMark outcome={drill.passed ? 'passed' : 'not-yet'} />
      )}
      {!closed && (
        <Action
          aria-label={say('own.due.open-long', { title: drill.title })}
          onPress={() => goTo({ at: 'bench', drillId: drill.drillId, assignmentId })}
        >
          {say('own.due.open')}
        </Action>
      )}
    </li>
  );
}
