import { useRef, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { flushSync } from 'react-dom';
import { CORE_VERSION, type Evidence } from '../../sim-core/index.ts';
import { runHandWords } from '../calibration/run-hand-words.ts';
import { useMe } from '../register/signed-in.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Told } from '../ui/Told.tsx';
import { useUnits } from '../ui/use-units.ts';
import { BlindPanel } from '../verdict/BlindPanel.tsx';
import { ComparePicker } from '../verdict/ComparePicker.tsx';
import { HandInPanel } from '../verdict/HandInPanel.tsx';
import { NotesPanel } from '../verdict/NotesPanel.tsx';
import { TrustSign } from '../verdict/TrustSign.tsx';
import type { Notes } from '../verdict/use-notes.ts';
import { useTrust } from '../verdict/use-trust.ts';
import { VerdictPanel } from '../verdict/VerdictPanel.tsx';
import { beforeEvidence } from './before-evidence.ts';
import { CostPanel } from './CostPanel.tsx';
import { FacePanel } from './FacePanel.tsx';
import { FirstWord } from './FirstWord.tsx';
import { type ReviewedRun, UNKEPT_RUN_ID } from './fresh-run.ts';
import { GuessNote } from './GuessNote.tsx';
import type { CutFace } from './measure/use-cut-face.ts';
import type { ReportPicture } from './report-pictures.ts';
import type { ReviewTab } from './review-tabs.ts';
import { ScorePanel } from './ScorePanel.tsx';
import type { Replay } from './use-replay.ts';

export interface ReviewSideProps {
  run: ReviewedRun;
  /** The run is judged for this moderation set. */
  setId: string | null;
  replay: Replay;
  /** Null while the cut face is not looked at, or not measured. */
  face: CutFace | null;
  notes: Notes;
  tabs: readonly ReviewTab[];
  tab: ReviewTab;
  onTab(tab: ReviewTab): void;
  onGo(tick: number): void;
  /** The part and the map of its cut, for the report. */
  pictures(): Promise<ReportPicture[]>;
}

/** What is said of a run, beside its replay: marks, cut face, cost, notes and verdict. */
export function ReviewSide({ run, setId, replay, face, notes, tabs, tab, onTab, onGo, pictures }: ReviewSideProps) {
  const units = useUnits();
  const me = useMe();
  const { drill, score } = run;
  const kept = run.id !== UNKEPT_RUN_ID;
  const judges = kept && me !== null && me.role !== 'apprentice';
  const trust = useTrust(judges ? run.id : null);
  const blind = setId !== null;
  const otherCore = run.coreVersion !== CORE_VERSION;
  const [allShown, setAllShown] = useState(run.justGuessed !== true);
  const scoreHead = useRef<HTMLDivElement>(null);

  function showAll(): void {
    flushSync(() => setAllShown(true));
    // The button that was pressed is gone.
    scoreHead.current?.focus();
  }

  const show = (evidence: Evidence) => onGo(beforeEvidence(evidence));

  return (
    <aside className="review-side" aria-label={say('review.score')}>
      {replay.failure !== null && (
        <p role="alert">
          <Told words={say('bench.failed', { reason: inEnglish(replay.failure) })} />
        </p>
      )}
      {run.notKept !== null && (
        <p role="alert">
          <Told words={say('review.not-kept', { reason: run.notKept.reason })} />
        </p>
      )}
      {otherCore && !judges && (
        <p className="notice">{say('review.other-core', { version: run.coreVersion, own: CORE_VERSION })}</p>
      )}
      {run.state === 'unfinished' && <p className="notice">{say('review.unfinished')}</p>}
      {run.state === 'abandoned' && <p className="notice">{say('review.abandoned')}</p>}
      {judges && trust.state !== 'same' && trust.state !== 'checking' && tab !== 'verdict' && <TrustSign trust={trust} />}
      <Tabs className="review-tabs" selectedKey={tab} onSelectionChange={(key) => onTab(key as ReviewTab)}>
        <TabList className="tab-row" aria-label={say('review.tabs')}>
          {tabs.map((id) => (
            <Tab key={id} id={id} className="tab">
              {say(`review.tab.${id}`)}
            </Tab>
          ))}
        </TabList>
        <TabPanel id="marks" className="tab-panel">
          {score && allShown && <ScorePanel score={score} units={units} ready={replay.ready} head={scoreHead} onShow={show} />}
          {score && !allShown && (
            <FirstWord score={score} guess={run.guess} units={units} ready={replay.ready} onShow={show} onAll={showAll} />
          )}
        </TabPanel>
        <TabPanel id="face" className="tab-panel">
          {face ? (
            <FacePanel drill={drill} face={face} units={units} onGo={onGo} />
          ) : (
            <p className="soft">{say(otherCore ? 'review.not-measured' : 'review.measuring')}</p>
          )}
        </TabPanel>
        <TabPanel id="cost" className="tab-panel">
          {replay.measured ? (
            <CostPanel use={replay.measured.use} />
          ) : (
            <p className="soft">{say(otherCore ? 'review.not-measured' : 'review.measuring')}</p>
          )}
        </TabPanel>
        {tabs.includes('notes') && (
          <TabPanel id="notes" className="tab-panel">
            <NotesPanel notes={notes} tick={replay.tick} ready={replay.ready} writes={judges} onGo={onGo} />
          </TabPanel>
        )}
        {me !== null && tabs.includes('verdict') && (
          <TabPanel id="verdict" className="tab-panel">
            {setId === null ? (
              <VerdictPanel run={run} trust={judges ? trust : null} me={me} pictures={pictures} />
            ) : (
              <BlindPanel run={run} trust={trust} setId={setId} />
            )}
          </TabPanel>
        )}
      </Tabs>
      {kept && me?.role === 'apprentice' && run.handedInAt == null && <HandInPanel runId={run.id} />}
      {kept && !blind && run.trace && <ComparePicker runId={run.id} drillId={drill.id} />}
      {replay.verdict !== null && !judges && (
        <p className={`small ${replay.verdict === 'same' ? 'soft' : 'notice'}`}>{say(`review.verdict.${replay.verdict}`)}</p>
      )}
      {!blind && allShown && <GuessNote run={run} />}
      <p className="small" data-hand-scale={run.handScale?.applied ? run.handScale.device : 'none'}>
        {runHandWords(run.hand, run.handScale)}
      </p>
      <p className="small soft">{say('replay.keys')}</p>
      <p className="small soft review-caution">{say('app.caution')}</p>
    </aside>
  );
}
