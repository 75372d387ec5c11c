import { useEffect } from 'react';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { loadRuns, useYard } from '../app/yard-store.ts';
import { DrillList } from '../drills/DrillList.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { PersonPicker } from './PersonPicker.tsx';
import { RunTable } from './RunTable.tsx';

/** Who practises, what there is to practise, and what was done last. */
export function HomePage() {
  const { session, drills, standings, runs, runTotal, people, chosenId } = useYard();
  const person = people.find((one) => one.id === chosenId);
  useEffect(() => {
    document.title = say('app.name');
    if (useYard.getState().session !== null) void loadRuns();
  }, []);
  return (
    <div className="home">
      <a className="skip out-of-sight" href="#content">
        {say('app.skip')}
      </a>
      <header className="home-head">
        <p className="wordmark">
          <svg viewBox="0 0 64 64" aria-hidden="true" focusable="false">
            <path fill="var(--action)" d="M4 10h23l-9 44H4zM37 10h23v44H28z" />
            <path fill="var(--ember)" d="M29.4 10h5.2l-9 44h-5.2z" />
          </svg>
          {say('app.name')}
        </p>
        <p className="soft small tagline">{say('app.tagline')}</p>
        <SettingsMenu />
      </header>
      <main id="content" className="home-main">
        <div className="home-ask">
          <h1>{say('home.title')}</h1>
          <PersonPicker />
        </div>
        {session?.notices.map((notice) => (
          <p key={notice.code + notice.message} className="notice">
            {notice.message}
          </p>
        ))}
        <section aria-labelledby="drills-title">
          <h2 id="drills-title" className="kerf-rule">
            {say('home.drills')}
          </h2>
          {person?.role === 'instructor' && (
            <Action onPress={() => goTo({ at: 'builder', drillId: null })}>{say('home.build')}</Action>
          )}
          {session !== null && drills.length === 0 && <p className="soft">{say('home.drills.none')}</p>}
          {drills.length > 0 && <DrillList drills={drills} standings={standings} />}
        </section>
        <section aria-labelledby="runs-title">
          <h2 id="runs-title" className="kerf-rule">
            {person ? say('home.runs.of', { person: person.name }) : say('home.runs')}
          </h2>
          {runs.length === 0 ? (
            <p className="soft">{say('home.runs.none')}</p>
          ) : (
            <RunTable runs={runs} label={say('home.runs')} />
          )}
          {runTotal > runs.length && <p className="soft small">{say('home.runs.more', { count: runTotal })}</p>}
        </section>
      </main>
      <footer className="home-foot">
        <p>
          <strong>{say('app.caution')}</strong> {say('caution.always')}
        </p>
      </footer>
    </div>
  );
}
