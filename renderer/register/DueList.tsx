import { useState } from 'react';
import { goTo } from '../app/route.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { triedWords } from '../drills/tried-words.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { StateMark } from '../ui/StateMark.tsx';
import { scoreText } from '../ui/units.ts';
import { dayText } from './dates.ts';
import { type DueStanding, dueStanding, isClosed } from './due-standing.ts';
import { type Due, type DueDrill, isDone } from './next-practice.ts';
import { attemptsLeftWords } from './next-words.ts';

/** What somebody was asked to do, soonest due first, then what waits for a decision; what is done or closed is folded away. */
export function DueList({ due }: { due: readonly Due[] }) {
  const [unfolded, setUnfolded] = useState(false);
  const sheets = due.map((one) => ({ one, standing: dueStanding(one) }));
  const open = sheets.filter(({ standing }) => standing === 'open');
  const waiting = sheets.filter(({ standing }) => standing === 'waits');
  const past = sheets.filter(({ standing }) => standing === 'done' || standing === 'closed');
  return (
    <>
      {open.length === 0 && <p className="soft">{say('own.due.none-open')}</p>}
      <Sheets sheets={[...open, ...waiting]} />
      {past.length > 0 && (
        <>
          <Action kind="quiet" className="due-fold" aria-expanded={unfolded} onPress={() => setUnfolded(!unfolded)}>
            <svg viewBox="0 0 12 12" aria-hidden="true" focusable="false">
              <path fill="currentColor" d={unfolded ? 'M1 3h10L6 10z' : 'M3 1v10l7-5z'} />
            </svg>
            {past.length === 1 ? say('own.due.past-one') : say('own.due.past', { count: past.length })}
          </Action>
          {unfolded && <Sheets sheets={past} />}
        </>
      )}
    </>
  );
}

interface Sheet {
  one: Due;
  standing: DueStanding;
}

function Sheets({ sheets }: { sheets: readonly Sheet[] }) {
  if (sheets.length === 0) return null;
  return (
    <ul className="due-list">
      {sheets.map(({ one, standing }) => (
        <DueSheet key={one.assignmentId} due={one} standing={standing} />
      ))}
    </ul>
  );
}

/** When it is due or was; only what can still be cut for is called late. */
function whenWords(dueAt: string | null, standing: DueStanding): string {
  if (standing === 'closed') return say('own.due.closed');
  if (standing === 'waits') return say('own.due.waits');
  if (dueAt === null) return say('own.due.any');
  const over = standing === 'open' && Date.parse(dueAt) < Date.now();
  return say(over ? 'own.due.over' : 'own.due.by', { date: dayText(dueAt) });
}

function DueSheet({ due, standing }: { due: Due; standing: DueStanding }) {
  const over = standing === 'open' && due.dueAt !== null && Date.parse(due.dueAt) < Date.now();
  return (
    <li className="due-sheet" data-due={due.assignmentId} data-standing={standing}>
      <div className="due-head">
        <h3>{keepTogether(due.title)}</h3>
        <p className={over ? 'due-over' : undefined}>{whenWords(due.dueAt, standing)}</p>
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
  const words = [used === 0 ? say('own.due.untried') : triedWords(used)];
  if (bestScore !== null) words.push(say('own.due.best', { score: scoreText(bestScore) }));
  if (left !== null) words.push(attemptsLeftWords(left));
  if (submittedRunId !== null && decision === null) words.push(say('own.due.handed-in'));
  return words.join(', ');
}

function DueRow({ drill, assignmentId, isNext }: { drill: DueDrill; assignmentId: string; isNext: boolean }) {
  return (
    <li className="due-row" data-next={isNext}>
      <div>
        <p>
          <strong>{keepTogether(drill.title)}</strong>
          {isNext && <span className="due-next">{say('own.due.next')}</span>}
        </p>
        <p className="soft small">
          {techniqueName(drill.technique)}: {standingWords(drill)}
        </p>
      </div>
      {drill.decision !== null ? (
        <strong className="due-decision">{say(`own.due.${drill.decision}`)}</strong>
      ) : (
        drill.passed !== null && drill.used > 0 && <StateMark outcome={drill.passed ? 'passed' : 'not-yet'} />
      )}
      {!isClosed(drill) && (
        <Action
          aria-label={say(isDone(drill) ? 'own.due.again-long' : 'own.due.open-long', { title: drill.title })}
          onPress={() => goTo({ at: 'bench', drillId: drill.drillId, assignmentId })}
        >
          {say(isDone(drill) ? 'own.due.again' : 'own.due.open')}
        </Action>
      )}
    </li>
  );
}
