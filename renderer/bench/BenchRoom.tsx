import { useEffect, useMemo, useRef, useState } from 'react';
import { ToggleButton } from 'react-aria-components';
import { neutralChoices } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { goTo } from '../app/route.ts';
import { SettingsMenu } from '../app/SettingsMenu.tsx';
import { useShownTheme } from '../app/theme.ts';
import { changeSettings, useYard } from '../app/yard-store.ts';
import { HandOffer } from '../calibration/HandOffer.tsx';
import { markedLine } from '../drills/marked-line.ts';
import { createArcSigns } from '../fault-finding/arc-signs.ts';
import { DiagnosisPanel } from '../fault-finding/DiagnosisPanel.tsx';
import { RigSigns } from '../fault-finding/RigSigns.tsx';
import { useSignedIn } from '../register/signed-in.ts';
import { RigCheckRoom } from '../rig-check/RigCheckRoom.tsx';
import { CutScene } from '../scene/CutScene.tsx';
import { guideShape } from '../scene/guide-shape.ts';
import type { TierName } from '../scene/quality-tiers.ts';
import { createSceneHandle } from '../scene/scene-handle.ts';
import { MuteButton } from '../sound/MuteButton.tsx';
import { useSound } from '../sound/use-sound.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Progress } from '../ui/Progress.tsx';
import { Told } from '../ui/Told.tsx';
import { quantity, thickness } from '../ui/units.ts';
import { useTitle } from '../ui/use-title.ts';
import { useUnits } from '../ui/use-units.ts';
import { ArcState } from './ArcState.tsx';
import { BenchStands, useBenchEye } from './BenchStands.tsx';
import { CuePanel } from './CuePanel.tsx';
import { cuesFor } from './cues-for.ts';
import { DrillCard } from './DrillCard.tsx';
import { FirstCutCard } from './FirstCutCard.tsx';
import { type FoundDrill, findDrill } from './find-drill.ts';
import { GuessPanel } from './GuessPanel.tsx';
import { guideSentence, isPlainFact } from './guide-sentence.ts';
import { HeldNote } from './HeldNote.tsx';
import { KeysDialog } from './KeysDialog.tsx';
import { PointerLock, TorchNote, useHeldPointer } from './PointerLock.tsx';
import { marksAreSealed } from './speed-guess.ts';
import { TorchCues } from './TorchCues.tsx';
import { useCutting } from './use-cutting.ts';

const UNDER_VIEW = 'under-plate';

export interface BenchRoomProps {
  drillId: string;
  /** The run counts as an attempt of this assignment; null = free practice. */
  assignmentId: string | null;
  /** Somebody's very first cut: with the short card. */
  first?: boolean;
}

/** The bench for one drill: its card, then the cut. */
export function BenchRoom({ drillId, assignmentId, first = false }: BenchRoomProps) {
  const [found, setFound] = useState<FoundDrill | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const personId = useYard((state) => state.chosenId);
  // After a reload whoever is signed in comes a little later than the room.
  const known = useYard((state) => state.session !== null);
  useEffect(() => {
    if (!known && assignmentId !== null) return;
    let wanted = true;
    findDrill(drillId, personId, assignmentId)
      .then((drill) => wanted && setFound(drill))
      .catch((error: unknown) => wanted && setFailure(errorWords(error)));
    return () => {
      wanted = false;
    };
  }, [drillId, personId, assignmentId, known]);

  if (failure !== null) {
    return (
      <main className="waiting">
        <div>
          <p role="alert">
            <Told words={say('bench.failed', { reason: failure })} />
          </p>
          <Action onPress={() => goTo({ at: 'home' })}>{say('bench.back')}</Action>
        </div>
      </main>
    );
  }
  if (found === null) return <p className="waiting">{say('app.loading')}</p>;
  return <DrillOnBench {...found} assignmentId={assignmentId} first={first} />;
}

type DrillOnBenchProps = FoundDrill & { assignmentId: string | null; first: boolean };

function DrillOnBench({ drill, drillHash, drillText, earlier, history, assignmentId, first }: DrillOnBenchProps) {
  const units = useUnits();
  const theme = useShownTheme();
  const settings = useYard((state) => state.settings);
  const stage = useRef<HTMLDivElement>(null);
  const underFrame = useRef<HTMLElement>(null);
  const progress = useRef<HTMLDivElement>(null);
  const scene = useMemo(createSceneHandle, []);
  const line = useMemo(() => markedLine(drill), [drill]);
  const [tier, setTier] = useState<TierName | null>(null);
  // Kept here, so that coming back from the plate finds the rig as it was left.
  const [choices, setChoices] = useState(() => neutralChoices(drill));
  const me = useSignedIn((state) => state.me);
  const sealed = me?.rolesBind === true && me.person?.role === 'apprentice' && marksAreSealed(drill);
  const eye = useBenchEye(scene);
  const cutting = useCutting(drill, { drillHash, drillText }, assignmentId, stage, progress, scene, sealed, eye.move);
  const pointerHeld = useHeldPointer(stage);
  const { phase, source, window: speedWindow, step } = cutting;
  const sound = useSound(source, phase === 'cutting' && !cutting.held);
  const atWork = phase === 'cutting' || phase === 'scoring';
  const underShown = settings.pinnedViews.includes(UNDER_VIEW);
  const plan = cuesFor(drill, history);
  const coached = plan.now;
  const paced = plan.stage === 'always' && settings.cuesAtTorch;
  const guide = guideSentence(step, drill, units, settings.hand, { paced, device: cutting.movedBy });
  const spoken = coached || phase === 'scoring' || isPlainFact(step);
  const guide3d = useMemo(() => guideShape(drill, drill.rigCheck === 'by-trainee' ? choices : null), [drill, choices]);
  const signs = useMemo(() => (source ? createArcSigns(source.setup) : null), [source]);
  // A coating that the trainee has taken off is gone.
  const surface = source?.setup.surface ?? drill.plate.surface;
  const findsFaults = drill.rubric.measures.some((measure) => measure.id === 'fault-finding');

  useTitle(drill.title);

  return (
    <div className="bench" data-phase={phase} data-step={step} data-tier={tier ?? ''} data-eye={eye.station}>
      <header className="bench-head">
        <Action kind="quiet" onPress={() => goTo({ at: 'home' })}>
          {phase === 'cutting' ? say('bench.leave') : say('bench.back')}
        </Action>
        <p className="bench-title">
          <strong>{drill.title}</strong>
          <span>
            {say(`material.${drill.plate.material}`)} {thickness(drill.plate.thicknessMm, units)}
          </span>
          {drill.rigCheck === 'done' && <span>{quantity(drill.rig.currentA, 'A', units)}</span>}
          {surface !== 'bare' && <span>{say(`surface.${surface}`)}</span>}
        </p>
        <KeysDialog onOpen={cutting.hold} onClosed={() => stage.current?.focus({ preventScroll: true })} />
        <SettingsMenu tier={tier} />
        {phase === 'cutting' && (
          <Action kind="main" onPress={cutting.end}>
            {say('bench.end')}
          </Action>
        )}
      </header>

      {phase === 'card' && (
        <main className="bench-card">
          {!first && <HandOffer />}
          {first ? (
            <FirstCutCard drill={drill} window={speedWindow} units={units} onStart={cutting.begin} />
          ) : (
            <DrillCard
              drill={drill}
              drillHash={drillHash}
              window={speedWindow}
              units={units}
              earlier={earlier}
              plan={plan}
              onStart={cutting.begin}
            />
          )}
        </main>
      )}
      {phase === 'rig-check' && (
        <main className="bench-rig">
          <RigCheckRoom drill={drill} choices={choices} units={units} onChange={setChoices} onStrike={cutting.strike} />
        </main>
      )}
      {phase === 'diagnosing' && signs && (
        <main className="bench-diagnosis">
          <DiagnosisPanel signs={signs} onSay={cutting.diagnose} />
        </main>
      )}
      {phase === 'guessing' && (
        <main className="bench-guess">
          <GuessPanel onGuess={cutting.guess} />
        </main>
      )}
      {phase === 'failed' && (
        <main className="waiting">
          <p role="alert">
            <Told words={say('bench.failed', { reason: inEnglish(cutting.failure ?? '') })} />
          </p>
        </main>
      )}
      {atWork && (
        <main className={`bench-work ${underShown ? '' : 'bench-work-plain'}`}>
          {source && (
            <CutScene
              source={source}
              line={line}
              stopsAtEnd={drill.finish === 'stop'}
              guide={guide3d}
              shade={drill.rigCheck === 'by-trainee' ? choices.protection.shade : null}
              theme={theme}
              pinnedTier={settings.qualityTier}
              onTier={setTier}
              mainFrame={stage}
              underFrame={underFrame}
              free={false}
              still={false}
              handle={scene}
              label={say('bench.scene')}
            />
          )}
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the stage takes the keys that move the torch */}
          <div className="bench-stage" ref={stage} tabIndex={0} role="application" aria-label={say('bench.stage')} />
          {phase === 'cutting' && <BenchStands eye={eye} stage={stage} />}
          {source && (
            <div className="stage-signs">
              <ArcState source={source} sound={sound} scene={scene} frame={stage} units={units} />
            </div>
          )}
          {source && speedWindow && coached && settings.cuesAtTorch && phase === 'cutting' && (
            <TorchCues source={source} drill={drill} window={speedWindow} scene={scene} frame={stage} step={step} paced={paced} />
          )}
          <div className={spoken ? 'bench-guide' : 'bench-guide bench-guide-silent'}>
            <p className="guide-sentence" role="status" data-guide={step}>
              {phase === 'scoring' ? say('bench.scoring') : spoken ? guide.sentence : ''}
            </p>
            <p className="guide-help">{phase !== 'scoring' && spoken ? guide.help : ''}</p>
            <div className="guide-progress" ref={progress} aria-hidden="true" />
            {cutting.marking && (
              <Progress label={say('bench.marking')} done={cutting.marking.doneTicks} total={cutting.marking.totalTicks} />
            )}
          </div>
          {phase === 'cutting' && <TorchNote oneToOne={cutting.oneToOne} held={pointerHeld} />}
          {cutting.held && <HeldNote oneToOne={cutting.oneToOne} pointerHeld={pointerHeld} />}
          <div className="bench-side">
            <section className="under-view" aria-label={say('bench.view.under')}>
              <div className="under-head">
                <h2>{say('bench.view.under')}</h2>
                <Action
                  kind="quiet"
                  className="under-pin"
                  aria-label={say(underShown ? 'bench.view.under.hide' : 'bench.view.under.show')}
                  onPress={() =>
                    changeSettings({
                      pinnedViews: [
                        ...settings.pinnedViews.filter((view) => view !== UNDER_VIEW),
                        ...(underShown ? [] : [UNDER_VIEW]),
                      ],
                    })
                  }
                >
                  <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                    <path fill="currentColor" fillRule="evenodd" d="M2 4h16v12H2zm2 2v4h12V6z" />
                  </svg>
                </Action>
              </div>
              {/* Hidden, not left away: the scene watches this very element for as long as it stands. */}
              <section className="under-frame" ref={underFrame} hidden={!underShown} aria-hidden="true" />
            </section>
            {source && speedWindow && (
              <section className="bench-cues" aria-label={say('cue.title')}>
                {signs && <RigSigns source={source} signs={signs} units={units} partsShown={!findsFaults} />}
                {coached ? (
                  <>
                    <ToggleButton
                      className="action action-quiet cues-at-torch"
                      isSelected={settings.cuesAtTorch}
                      onChange={(cuesAtTorch) => changeSettings({ cuesAtTorch })}
                    >
                      {say('cue.at-torch')}
                    </ToggleButton>
                    <CuePanel source={source} drill={drill} window={speedWindow} units={units} />
                  </>
                ) : (
                  <p className="soft">{say('cue.off')}</p>
                )}
              </section>
            )}
          </div>
          <footer className="bench-foot">
            <p>{say('app.caution')}</p>
            <p className="figure">{say('bench.set-speed', { speed: quantity(cutting.setSpeedMmPerS, 'mm/s', units) })}</p>
            {cutting.padReady && <p>{say('bench.pad')}</p>}
            <MuteButton />
            <PointerLock stage={stage} held={pointerHeld} />
          </footer>
        </main>
      )}
    </div>
  );
}
