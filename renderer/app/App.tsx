import { lazy, Suspense, useEffect } from 'react';
import { I18nProvider } from 'react-aria-components';
import { FIRST_CUT_DRILL } from '../bench/first-cut.ts';
import { CalibrationRoom } from '../calibration/CalibrationRoom.tsx';
import { BackupRoom } from '../desk/BackupRoom.tsx';
import { FileCatcher } from '../desk/FileCatcher.tsx';
import { HandOnRoom } from '../desk/HandOnRoom.tsx';
import { RecordRoom } from '../desk/RecordRoom.tsx';
import { HelpRoom } from '../help/HelpRoom.tsx';
import { AssignmentsRoom } from '../register/AssignmentsRoom.tsx';
import { AssignRoom } from '../register/AssignRoom.tsx';
import { ClassRoom } from '../register/ClassRoom.tsx';
import { DemoMark } from '../register/DemoMark.tsx';
import { loadDemoYard, useDemoYard } from '../register/demo-yard.ts';
import { HomePage } from '../register/HomePage.tsx';
import { IdleWatch } from '../register/IdleWatch.tsx';
import { PeopleRoom } from '../register/PeopleRoom.tsx';
import { loadWhoAmI } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { CautionDialog } from './CautionDialog.tsx';
import { Mishap } from './Mishap.tsx';
import { type Route, routeFromHash, useHash } from './route.ts';
import { useSpokenLanguage } from './spoken-language.ts';
import { useShownTheme } from './theme.ts';
import { loadYard, tellTrouble, useYard } from './yard-store.ts';

// The rooms with a scene bring the 3D library; the home page opens without it.
const BenchRoom = lazy(() => import('../bench/BenchRoom.tsx').then((room) => ({ default: room.BenchRoom })));
const BuilderRoom = lazy(() => import('../builder/BuilderRoom.tsx').then((room) => ({ default: room.BuilderRoom })));
const CompareRoom = lazy(() => import('../verdict/CompareRoom.tsx').then((room) => ({ default: room.CompareRoom })));
const ModerationRoom = lazy(() => import('../verdict/ModerationRoom.tsx').then((room) => ({ default: room.ModerationRoom })));
const QueueRoom = lazy(() => import('../verdict/QueueRoom.tsx').then((room) => ({ default: room.QueueRoom })));
const ReviewRoom = lazy(() => import('../review/ReviewRoom.tsx').then((room) => ({ default: room.ReviewRoom })));

/** Rooms where a file may be dropped; over a plate or a form nobody means to. */
const TAKES_FILES: ReadonlySet<Route['at']> = new Set(['home', 'people', 'queue', 'packs', 'backup']);

function Trouble() {
  const trouble = useYard((state) => state.trouble);
  if (trouble === null) return null;
  return (
    <div className="trouble" role="alert">
      <p>
        <strong>{say('app.trouble')}.</strong> <Told words={trouble} />
      </p>
      <Action onPress={() => useYard.setState({ trouble: null })}>{say('app.dismiss')}</Action>
    </div>
  );
}

export function App() {
  const hash = useHash();
  const route = routeFromHash(hash);
  const visit = useDemoYard((state) => state.visit);
  useShownTheme();
  const language = useSpokenLanguage();
  useEffect(() => {
    void loadYard();
    loadWhoAmI().catch(tellTrouble);
    loadDemoYard().catch(tellTrouble);
  }, []);
  return (
    <I18nProvider locale={language}>
      <DemoMark />
      <Mishap key={`${visit} ${hash}`}>
        <Suspense fallback={<p className="waiting">{say('app.loading')}</p>}>
          {route.at === 'home' && <HomePage />}
          {route.at === 'bench' && <BenchRoom key={hash} drillId={route.drillId} assignmentId={route.assignmentId ?? null} />}
          {route.at === 'help' && <HelpRoom topic={route.topic} />}
          {route.at === 'first-cut' && <BenchRoom key={hash} drillId={FIRST_CUT_DRILL} assignmentId={null} first />}
          {route.at === 'builder' && <BuilderRoom key={hash} drillId={route.drillId} />}
          {route.at === 'people' && <PeopleRoom />}
          {route.at === 'hand' && <CalibrationRoom />}
          {route.at === 'assignments' && <AssignmentsRoom />}
          {route.at === 'assign' && <AssignRoom />}
          {route.at === 'class' && <ClassRoom />}
          {route.at === 'packs' && <HandOnRoom />}
          {route.at === 'backup' && <BackupRoom />}
          {route.at === 'record' && <RecordRoom />}
          {route.at === 'queue' && <QueueRoom />}
          {route.at === 'compare' && <CompareRoom key={hash} runId={route.runId} otherId={route.otherId} />}
          {route.at === 'moderation' && <ModerationRoom key={hash} setId={route.setId} />}
          {route.at === 'blind' && <ReviewRoom key={hash} runId={route.runId} setId={route.setId} />}
          {route.at === 'review' && <ReviewRoom key={hash} runId={route.runId} />}
        </Suspense>
      </Mishap>
      <FileCatcher taking={TAKES_FILES.has(route.at)} />
      <CautionDialog />
      <IdleWatch />
      <Trouble />
    </I18nProvider>
  );
}
