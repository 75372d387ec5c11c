import { useCallback, useEffect, useMemo, useState } from 'react';
import type { Person, RunSummary } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { loadRuns, tellTrouble, useYard } from '../app/yard-store.ts';
import { offersFirstCut } from '../bench/first-cut.ts';
import { DrillList } from '../drills/DrillList.tsx';
import { drillShelf, NO_FILTER } from '../drills/drill-shelf.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { FocusedStatus } from '../ui/FocusedStatus.tsx';
import { DueList } from './DueList.tsx';
import { FirstCut } from './FirstCut.tsx';
import { MeasureMarks } from './MeasureMarks.tsx';
import { type Due, nextPractice, type Progress } from './next-practice.ts';
import { attemptsLeftWords, reasonWords } from './next-words.ts';
import { OlderRuns } from './OlderRuns.tsx';
import { OwnCurves } from './OwnCurves.tsx';
import { fetchOlderRuns, fetchOwnRecords, type OwnRecords } from './own-records.ts';
import { personText } from './person-text.ts';
import { RunTable } from './RunTable.tsx';
import { useRunsSettle } from './use-runs-settle.ts';
import { YardNotices } from './YardNotices.tsx';

const NO_RUNS: readonly RunSummary[] = [];

/** An apprentice's own page: what comes next and why, what is due, how it comes along, own runs, every drill. */
export function OwnPage({ person }: { person: Person }) {
  const { drills, standings } = useYard();
  const [own, setOwn] = useState<OwnRecords | null>(null);
  /** Id of the run that was handed in last, here. */
  const [handedIn, setHandedIn] = useState<string | null>(null);
  const load = useCallback(async () => setOwn(await fetchOwnRecords(person.id)), [person.id]);
  const show = useCallback(() => void load().catch(tellTrouble), [load]);
  useEffect(show, [show]);
  useRunsSettle(own?.runs ?? NO_RUNS, show);

  const olderRuns = async () => {
    if (own === null) return;
    const join = await fetchOlderRuns(person.id, own);
    setOwn((now) => now && join(now));
  };
  const handIn = async (run: RunSummary) => {
    await callHost('submitRun', { runId: run.id });
    setHandedIn(run.id);
    await Promise.all([load(), loadRuns()]);
  };

  return (
    <main id="content" tabIndex={-1} className="home-main own-page">
      <h1>{personText(person.name)}</h1>
      <YardNotices />
      {own === null ? (
        <p className="soft" role="status">
          {say('app.loading')}
        </p>
      ) : (
        <>
          {offersFirstCut(drills, own.runTotal) && <FirstCut />}
          <NextOnBench due={own.due} progress={own.progress} />
          <section aria-labelledby="due-title">
            <h2 id="due-title" className="kerf-rule">
              {say('own.due')}
            </h2>
            {own.due.length === 0 ? <p className="soft">{say('own.due.none')}</p> : <DueList due={own.due} />}
          </section>
          <section aria-labelledby="curves-title">
            <h2 id="curves-title" className="kerf-rule">
              {say('own.curves')}
            </h2>
            {own.progress.techniques.length === 0 ? (
              <p className="soft">{say('own.curves.none')}</p>
            ) : (
              <>
                <p className="soft small">{say('own.curves.key')}</p>
                <OwnCurves techniques={own.progress.techniques} />
                <MeasureMarks measures={own.progress.measures} />
              </>
            )}
          </section>
          <section aria-labelledby="runs-title" tabIndex={-1}>
            <h2 id="runs-title" className="kerf-rule">
              {say('own.runs')}
            </h2>
            {handedIn !== null && <FocusedStatus key={handedIn}>{say('hand-in.waits')}</FocusedStatus>}
            {own.runs.length === 0 ? (
              <p className="soft">{say('home.runs.none')}</p>
            ) : (
              <RunTable runs={own.runs} label={say('own.runs')} withPerson={false} mayHandIn={own.mayHandIn} onHandIn={handIn} />
            )}
            {own.runTotal > own.runs.length && <OlderRuns shown={own.runs.length} all={own.runTotal} onFetch={olderRuns} />}
          </section>
        </>
      )}
      <section aria-labelledby="drills-title">
        <h2 id="drills-title" className="kerf-rule">
          {say('own.drills')}
        </h2>
        <DrillList drills={drills} standings={standings} />
      </section>
    </main>
  );
}

/** The one thing to do now, and why, in a sentence. */
function NextOnBench({ due, progress }: { due: Due[]; progress: Progress }) {
  const drills = useYard((state) => state.drills);
  const next = useMemo(() => {
    const inLearningOrder = drillShelf(drills, NO_FILTER).flatMap((group) => group.drills);
    return nextPractice({ due, progress, drills: inLearningOrder, nowMs: Date.now() });
  }, [due, progress, drills]);
  if (next === null) return <p className="next-on-bench">{say('own.next.none')}</p>;
  const { drillId, assignmentId, left } = next;
  return (
    <section className="next-on-bench" aria-labelledby="next-title">
      <div>
        <h2 id="next-title">{say('own.next')}</h2>
        <p className="next-drill">{keepTogether(next.title)}</p>
        <p>
          {reasonWords(next.reason)}
          {left !== null && <span className="soft"> {say('own.next.left', { left: attemptsLeftWords(left) })}</span>}
        </p>
        <p className="soft small">{techniqueName(next.technique)}</p>
      </div>
      <Action
        kind="main"
        aria-label={say('home.drill.open-long', { title: next.title })}
        onPress={() => goTo(assignmentId === null ? { at: 'bench', drillId } : { at: 'bench', drillId, assignmentId })}
      >
        {say('home.drill.open')}
      </Action>
    </section>
  );
}
