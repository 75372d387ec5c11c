import { useEffect, useMemo, useRef, useState } from 'react';
import { errorWords } from '../app/error-words.ts';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { useShownTheme } from '../app/theme.ts';
import { WorkAction } from '../app/WorkAction.tsx';
import { useYard } from '../app/yard-store.ts';
import { ArcState } from '../bench/ArcState.tsx';
import { markedLine } from '../drills/marked-line.ts';
import { personText } from '../register/person-text.ts';
import { useMe } from '../register/signed-in.ts';
import { CutScene } from '../scene/CutScene.tsx';
import { guideShape } from '../scene/guide-shape.ts';
import type { TierName } from '../scene/quality-tiers.ts';
import { createSceneHandle } from '../scene/scene-handle.ts';
import { MuteButton } from '../sound/MuteButton.tsx';
import { useSound } from '../sound/use-sound.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { percentText } from '../ui/number-text.ts';
import { Told } from '../ui/Told.tsx';
import { thickness } from '../ui/units.ts';
import { useTitle } from '../ui/use-title.ts';
import { useUnits } from '../ui/use-units.ts';
import { useNotes } from '../verdict/use-notes.ts';
import { beforeEvidence } from './before-evidence.ts';
import { exportRun } from './export-run.ts';
import { FreeCamera } from './FreeCamera.tsx';
import type { ReviewedRun } from './fresh-run.ts';
import { LeaveReview } from './LeaveReview.tsx';
import { loadRun } from './load-run.ts';
import { MeasureOverlay } from './measure/MeasureOverlay.tsx';
import { useCutFace } from './measure/use-cut-face.ts';
import { offerFile } from './offer-file.ts';
import { QualityTable } from './QualityTable.tsx';
import { ReviewSide } from './ReviewSide.tsx';
import { reportPictures } from './report-pictures.ts';
import { type ReviewTab, reviewTabs } from './review-tabs.ts';
import { TraceWall } from './TraceWall.tsx';
import { Transport } from './Transport.tsx';
import { unkeptRunFile } from './unkept-run-file.ts';
import { useReplay } from './use-replay.ts';
import { useReplayKeys } from './use-replay-keys.ts';
import { useStill } from './use-still.ts';

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
  const blind = setId !== null;
  const tabs = reviewTabs(run, me, blind);
  const notes = useNotes(tabs.includes('notes') ? run.id : null);
  const marks = useMemo(() => score?.measures.flatMap((measure) => measure.evidence) ?? [], [score]);
  const faceSeen = useRef(false);
  const [tab, setTab] = useState<ReviewTab>('marks');
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
    if (evidence) seek(beforeEvidence(evidence));
  }, [ready, seek, score]);

  useTitle(`${say('review.title')}: ${drill.title}`);

  function goToTick(to: number): void {
    replay.play(0);
    replay.seek(to);
  }

  async function saveAsFile(): Promise<void> {
    if (run.notKept === null) await exportRun(run.id);
    else offerFile(unkeptRunFile(run, run.notKept.drillText, new Date()));
  }

  function openTab(next: ReviewTab): void {
    setTab(next);
    if (next !== 'face' || faceSeen.current) return;
    // The map is of the cut part: the first look at it is from above, and at the end of the run.
    faceSeen.current = true;
    scene.goTo('above');
    if (replay.ready) goToTick(run.tickCount);
  }

  useReplayKeys(replay);

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
        <WorkAction kind="quiet" work={saveAsFile}>
          {say('review.export')}
        </WorkAction>
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
        <ReviewSide
          {...{ run, setId, replay, face, notes, tabs, tab }}
          onTab={openTab}
          onGo={goToTick}
          pictures={() => reportPictures(run, replay, scene, units)}
        />
      </main>
    </div>
  );
}
