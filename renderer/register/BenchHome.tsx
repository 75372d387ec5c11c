import { goTo } from '../app/route.ts';
import { loadRuns, useYard } from '../app/yard-store.ts';
import { offersFirstCut } from '../bench/first-cut.ts';
import { DrillList } from '../drills/DrillList.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { DemoWays } from './DemoWays.tsx';
import { FirstCut } from './FirstCut.tsx';
import { PersonPicker } from './PersonPicker.tsx';
import { personText } from './person-text.ts';
import { RunTable } from './RunTable.tsx';
import { useSignedIn } from './signed-in.ts';
import { useRunsSettle } from './use-runs-settle.ts';
import { YardNotices } from './YardNotices.tsx';

/** What there is to practise and what was done last; in an open yard also who practises. */
export function BenchHome() {
  const { session, drills, standings, runs, runTotal, people, chosenId } = useYard();
  const me = useSignedIn((state) => state.me);
  useRunsSettle(runs, loadRuns);
  const rolesBind = me?.rolesBind ?? false;
  const isEmpty = me !== null && !rolesBind && session !== null && people.length === 0 && runTotal === 0;
  const person = people.find((one) => one.id === chosenId);
  return (
    <main id="content" tabIndex={-1} className="home-main">
      <div className="home-ask">
        <h1>{say('home.title')}</h1>
        {!rolesBind && <PersonPicker />}
      </div>
      <YardNotices />
      {offersFirstCut(drills, runTotal) && (person === undefined || person.role === 'apprentice') && <FirstCut />}
      {isEmpty && <DemoWays />}
      <section aria-labelledby="drills-title">
        <h2 id="drills-title" className="kerf-rule">
          {say('home.drills')}
        </h2>
        {(rolesBind ? me?.person : person)?.role === 'instructor' && (
          <Action onPress={() => goTo({ at: 'builder', drillId: null })}>{say('home.build')}</Action>
        )}
        {session !== null && drills.length === 0 && <p className="soft">{say('home.drills.none')}</p>}
        {drills.length > 0 && <DrillList drills={drills} standings={standings} />}
      </section>
      <section aria-labelledby="runs-title">
        <h2 id="runs-title" className="kerf-rule">
          {person ? say('home.runs.of', { person: personText(person.name) }) : say('home.runs')}
        </h2>
        {runs.length === 0 ? <p className="soft">{say('home.runs.none')}</p> : <RunTable runs={runs} label={say('home.runs')} />}
        {runTotal > runs.length && <p className="soft small">{say('home.runs.more', { count: runTotal })}</p>}
      </section>
    </main>
  );
}
