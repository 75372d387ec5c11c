import { useEffect, useMemo, useRef, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { flushSync } from 'react-dom';
import { CORE_VERSION, type Evidence, TICK_HZ } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { useShownTheme } from '../app/theme.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { ArcState } from '../bench/ArcState.tsx';
import { runHandWords } from '../calibration/run-hand-words.ts';
import { markedLine } from '../drills/marked-line.ts';
import { personText } from '../register/person-text.ts';
import { useMe } from '../register/signed-in.ts';
import { CutScene } from '../scene/CutScene.tsx';
import { guideShape } from '../scene/guide-shape.ts';
import type { TierName } from '../scene/quality-tiers.ts';
import { createSceneHandle } from '../scene/scene-handle.ts';
import { MuteButton } from '../sound/MuteButton.tsx';
import { useSound } from '../sound/use-sound.ts';
import { inEnglish } from '../text/in-english.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { percentText } from '../ui/number-text.ts';
import { Told } from '../ui/Told.tsx';
import { thickness } from '../ui/units.ts';
import { useTitle } from '../ui/use-title.ts';
import { useUnits } from '../ui/use-units.ts';
import { BlindPanel } from '../verdict/BlindPanel.tsx';
import { ComparePicker } from '../verdict/ComparePicker.tsx';
import { HandInPanel } from '../verdict/HandInPanel.tsx';
import { NotesPanel } from '../verdict/NotesPanel.tsx';
import { TrustSign } from '../verdict/TrustSign.tsx';
import { useNotes } from '../verdict/use-notes.ts';
import { useTrust } from '../verdict/use-trust.ts';
import { VerdictPanel } from '../verdict/VerdictPanel.tsx';
import { CostPanel } from './CostPanel.tsx';
import { exportRun } from './export-run.ts';
import { FacePanel } from './FacePanel.tsx';
import { FirstWord } from './FirstWord.tsx';
import { FreeCamera } from './FreeCamera.tsx';
import { type ReviewedRun, UNKEPT_RUN_ID } from './fresh-run.ts';
import { GuessNote } from './GuessNote.tsx';
import { LeaveReview } from './LeaveReview.tsx';
import { loadRun } from './load-run.ts';
import { MeasureOverlay } from './measure/MeasureOverlay.tsx';
import { useCutFace } from './measure/use-cut-face.ts';
import { offerFile } from './offer-file.ts';
import { QualityTable } from './QualityTable.tsx';
import { reportPictures } from './report-pictures.ts';
import { type ReviewTab, reviewTabs } from './review-tabs.ts';
import { ScorePanel } from './ScorePanel.tsx';
import { TraceWall } from './TraceWall.tsx';
import { Transport } from './Transport.tsx';
import { unkeptRunFile } from './unkept-run-file.ts';
import { useReplay } from './use-replay.ts';
import { useStill } from './use-still.ts';

/** A deduction is shown from a moment before it begins. */
const LEAD_TICKS = TICK_HZ / 4;
/** Where keys are letters. */
const WRITTEN_IN = 'textarea, input[type="text"], input[type="password"], [role="dialog"], [role="listbox"]';
/** Controls for which Space has a meaning of its own. */
const OWN_SPACE = 'button, input, [role="slider"], [role="radio"], [role="tab"], [role="dialog"]';

/** Score, traces and replay of one run; `setId`: it is judged for that moderation set. */
export function ReviewRoom({ runId, setId = null }: { runId: string; setId?: string | null }) {
  const [run, setRun] = useState<ReviewedRun | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    loadRun(runId).then(
      (loaded) => wanted && setRun(loaded),
      (error: unknown) => wanted && setFailure(errorWords(error)),
    );
    return () => {
      wanted = false;
    };
  }, [runId]);
  if (failure !== null) {
    return (
      <main className="waiting">
        <div>
          <p role="alert">
            <Told words={failure} />
          </p>
          <LeaveReview />
        </div>
      </main>
    );
  }
  return run ? <Review run={run} setId={setId} /> : <p className="waiting">{say('review.loading')}</p>;
}

function Review({ run, setId }: { run: ReviewedRun; setId: string | null }) {
  const units = useUnits();
  const theme = useShownTheme();
  const pinnedTier = useYard((state) => state.settings.qualityTier);
  const mainFrame = useRef<HTMLDivElement>(null);
  const underFrame = useRef<HTMLDivElement>(null);
  const scene = useMemo(createSceneHandle, []);
  const line = useMemo(() => markedLine(run.drill), [run]);
  const guide = useMemo(() => guideShape(run.drill, run.choices), [run]);
  const [tier, setTier] = useState<TierName | null>(null);
  const replay = useReplay(run);
  const still = useStill(replay.source);
  const sound = useSound(replay.source, true);
  const { drill, score } = run;
  const me = useMe();
  const kept = run.id !== UNKEPT_RUN_ID;
  const judges = kept && me !== null && me.role !== 'apprentice';
  const trust = useTrust(judges ? run.id : null);
  const blind = setId !== null;
  const tabs = reviewTabs(run, me, blind);
  const notes = useNotes(tabs.includes('notes') ? run.id : null);
  const marks = useMemo(() => score?.measures.flatMap((measure) => measure.evidence) ?? [], [score]);
  const otherCore = run.coreVersion !== CORE_VERSION;
  const faceSeen = useRef(false);
  const [tab, setTab] = useState<ReviewTab>('marks');
  const [allShown, setAllShown] = useState(run.justGuessed !== true);
  const scoreHead = useRef<HTMLDivElement>(null);
  const cutFace = useCutFace(run, replay, units, tab === 'face', goToTick);
  const face = tab === 'face' ? cutFace : null;
  const map = face?.map ?? null;

  const latest = useRef(replay);
  latest.current = replay;

  // The replay opens at what matters most: the stretch behind the first thing to change. Or at a moment that was picked meanwhile.
  const { ready, seek } = replay;
  useEffect(() => {
    const first = score?.firstThingToChange;
    if (!ready || !first || first.evidenceIndex === null || latest.current.tick > 0) return;
    const evidence = score.measures.find((measure) => measure.id === first.measureId)?.evidence[first.evidenceIndex];
    if (evidence) seek(Math.max(0, evidence.fromTick - LEAD_TICKS));
  }, [ready, seek, score]);

  useTitle(`${say('review.title')}: ${drill.title}`);

  function goToTick(to: number): void {
    replay.play(0);
    replay.seek(to);
  }

  function showAll(): void {
    flushSync(() => setAllShown(true));
    // The button that was pressed is gone.
    scoreHead.current?.focus();
  }

  function saveAsFile(): void {
    if (run.notKept === null) exportRun(run.id).catch(tellTrouble);
    else offerFile(unkeptRunFile(run, run.notKept.drillText, new Date()));
  }

  function show(evidence: Evidence): void {
    goToTick(Math.max(0, evidence.fromTick - LEAD_TICKS));
  }

  function openTab(next: ReviewTab): void {
    setTab(next);
    if (next !== 'face' || faceSeen.current) return;
    // The map is of the cut part: the first look at it is from above, and at the end of the run.
    faceSeen.current = true;
    scene.goTo('above');
    if (replay.ready) goToTick(run.tickCount);
  }

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const { ready: stands, playing, step, play } = latest.current;
      if (!stands || event.ctrlKey || event.metaKey || event.altKey) return;
      const on = (selector: string) => event.target instanceof HTMLElement && event.target.closest(selector) !== null;
      if (on(WRITTEN_IN)) return;
      if (event.key === ',') step(-1);
      else if (event.key === '.') step(1);
      else if (event.key === ' ' && !on(OWN_SPACE)) play(playing === 0 ? 1 : 0);
      else if (event.key === 'b') play(playing === -1 ? 0 : -1);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);

  return (
    <div
      className="review"
      data-ready={replay.ready}
      data-tick={replay.tick}
      data-tier={tier ?? ''}
      data-verdict={replay.verdict ?? ''}
      data-seek-ms={replay.seekMs?.whole.toFixed(1) ?? ''}
      data-seek-core-ms={replay.seekMs?.core.toFixed(1) ?? ''}
    >
      <header className="bench-head">
        <LeaveReview />
        <h1 className="bench-title review-title">
          <strong>{keepTogether(drill.title)}</strong>
          {run.personName && !blind && <span className="review-who">{personText(run.personName)}</span>}
          <span className="review-metal">
            {say(`material.${drill.plate.material}`)} {thickness(drill.plate.thicknessMm, units)}
          </span>
        </h1>
        <MuteButton wordless />
        <SettingsMenu tier={tier} />
        <Action kind="quiet" onPress={saveAsFile}>
          {say('review.export')}
        </Action>
        <Action kind="main" onPress={() => goTo({ at: 'bench', drillId: drill.id })}>
          {say('review.again')}
        </Action>
      </header>
      <main className="review-work">
        {replay.source && (
          <CutScene
            source={replay.source}
            line={line}
            stopsAtEnd={drill.finish === 'stop'}
            guide={guide}
            shade={run.choices?.protection.shade ?? null}
            theme={theme}
            pinnedTier={pinnedTier}
            onTier={setTier}
            mainFrame={mainFrame}
            underFrame={underFrame}
            free
            still={still}
            handle={scene}
            label={map && face ? say('quality.scene', { figure: say(`quality.figure.${face.figure.id}`) }) : say('bench.scene')}
            map={map}
            trace={run.trace}
          />
        )}
        <FreeCamera frame={mainFrame} handle={scene} onPress={face?.press} />
        {replay.source && replay.ready && !face && (
          <div className="stage-signs">
            <ArcState source={replay.source} sound={sound} scene={scene} frame={mainFrame} units={units} />
          </div>
        )}
        {face && <MeasureOverlay face={face} scene={scene} units={units} />}
        <div className="review-under" aria-hidden="true">
          <p className="review-under-name">{say('bench.view.under')}</p>
          <div className="under-frame" ref={underFrame} />
        </div>
        <div className="review-play">
          {replay.ready ? (
            <Transport replay={replay} tickCount={run.tickCount} marks={marks} pins={notes.notes.map(({ tick }) => tick)} />
          ) : (
            <p className="review-building" role="status">
              {say('review.building', { percent: percentText(Math.floor(replay.built * 100)) })}
            </p>
          )}
        </div>
        <div className="review-traces">
          {face ? (
            <QualityTable
              drill={drill}
              quality={face.quality}
              units={units}
              shownMm={face.tool === 'map' ? face.shownMm : face.measuredMm}
              onPick={face.tool === 'place' ? face.measurePlace : face.showPlace}
            />
          ) : (
            run.trace && (
              <TraceWall
                drill={drill}
                score={score}
                trace={run.trace}
                tick={replay.tick}
                units={units}
                theme={theme}
                onPick={replay.seek}
              />
            )
          )}
        </div>
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
          <Tabs className="review-tabs" selectedKey={tab} onSelectionChange={(key) => openTab(key as ReviewTab)}>
            <TabList className="tab-row" aria-label={say('review.tabs')}>
              {tabs.map((id) => (
                <Tab key={id} id={id} className="tab">
                  {say(`review.tab.${id}`)}
                </Tab>
              ))}
            </TabList>
            <TabPanel id="marks" className="tab-panel">
              {score && allShown && (
                <ScorePanel score={score} units={units} ready={replay.ready} head={scoreHead} onShow={show} />
              )}
              {score && !allShown && (
                <FirstWord score={score} guess={run.guess} units={units} ready={replay.ready} onShow={show} onAll={showAll} />
              )}
            </TabPanel>
            <TabPanel id="face" className="tab-panel">
              {face ? (
                <FacePanel drill={drill} face={face} units={units} onGo={goToTick} />
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
                <NotesPanel notes={notes} tick={replay.tick} ready={replay.ready} writes={judges} onGo={goToTick} />
              </TabPanel>
            )}
            {me !== null && tabs.includes('verdict') && (
              <TabPanel id="verdict" className="tab-panel">
                {setId === null ? (
                  <VerdictPanel
                    run={run}
                    trust={judges ? trust : null}
                    me={me}
                    pictures={() => reportPictures(run, replay, scene, units)}
                  />
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
      </main>
    </div>
  );
}
