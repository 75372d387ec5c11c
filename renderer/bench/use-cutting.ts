import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import { ARC_STATES, CORE_VERSION, type Drill, pathGeometry, type SpeedWindow } from '../../sim-core/index.ts';
import { goTo } from '../app/route.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { attachHand } from '../input/attach-hand.ts';
import { createHandController, type HandController } from '../input/hand-controller.ts';
import { limitsFor } from '../input/hand-pose.ts';
import { createKeyboardHand } from '../input/keyboard-hand.ts';
import { createPointerHand } from '../input/pointer-hand.ts';
import { handOver, UNKEPT_RUN_ID } from '../review/fresh-run.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { type BenchSession, openBench } from './bench-session.ts';
import { wholeLeanDeg } from './cue-state.ts';
import { createGuide, type Guide, type GuideStep } from './guidance.ts';
import { createRunRecorder, type RunRecorder } from './run-recorder.ts';
import type { FinishedRun } from './worker-messages.ts';
import type { WorkerRun } from './worker-run.ts';

export type CuttingPhase = 'card' | 'cutting' | 'scoring' | 'failed';

/** Where the torch waits: back from the start of the line, and well above the plate. */
const WAIT_BACK_MM = 20;
const WAIT_HEIGHT_MM = 8;
const FIRST_SET_SPEED_MM_PER_S = 10;
const GUIDE_EVERY_MS = 90;
/** After the cut is done the piece has time to fall before the marks come. */
const FALL_MS = 1600;

export interface Cutting {
  phase: CuttingPhase;
  window: SpeedWindow | null;
  source: WorkerRun | null;
  step: GuideStep;
  setSpeedMmPerS: number;
  padReady: boolean;
  held: boolean;
  failure: string | null;
  begin(): void;
  end(): void;
  /** Stops the clock of the bench until the hand moves again. */
  hold(): void;
}

interface AtWork {
  hand: HandController;
  recorder: RunRecorder;
  guide: Guide;
  seed: number;
  detach(): void;
}

function randomSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0] as number;
}

/** One drill on the bench, from reading the card to the end of the run. Slow state only; the run itself lives in the source. */
export function useCutting(
  drill: Drill,
  drillHash: string,
  stage: RefObject<HTMLElement | null>,
  progress: RefObject<HTMLElement | null>,
  scene: SceneHandle,
): Cutting {
  const [phase, setPhase] = useState<CuttingPhase>('card');
  const [window, setWindow] = useState<SpeedWindow | null>(null);
  const [source, setSource] = useState<WorkerRun | null>(null);
  const [step, setStep] = useState<GuideStep>('approach');
  const [setSpeedMmPerS, setSetSpeed] = useState(FIRST_SET_SPEED_MM_PER_S);
  const [padReady, setPadReady] = useState(false);
  const [held, setHeld] = useState(false);
  const [failure, setFailure] = useState<string | null>(null);
  const session = useRef<BenchSession | null>(null);
  const work = useRef<AtWork | null>(null);
  /** 'waiting': before the first movement; 'held': stopped by the page; null: running. */
  const clock = useRef<'waiting' | 'held' | null>('waiting');
  const ended = useRef(false);

  const finish = useCallback(
    async (run: FinishedRun) => {
      const at = work.current;
      if (!at) return;
      let id = UNKEPT_RUN_ID;
      let notKept: string | null = null;
      try {
        id = await at.recorder.finish(run);
      } catch (error) {
        notKept = error instanceof Error ? error.message : String(error);
      }
      const { people, chosenId } = useYard.getState();
      handOver({
        id,
        drill,
        seed: at.seed,
        coreVersion: CORE_VERSION,
        personName: people.find((person) => person.id === chosenId)?.name ?? null,
        state: 'finished',
        inputs: run.inputs,
        tickCount: run.tickCount,
        score: run.score,
        trace: run.trace,
        recorded: { digests: run.digests, finalDigest: run.finalDigest },
        notKept,
      });
      work.current = null;
      goTo({ at: 'review', runId: id });
    },
    [drill],
  );

  useEffect(() => {
    const opened = openBench(drill, {
      onWindow: setWindow,
      onSource: setSource,
      onChunk: (chunk) => work.current?.recorder.chunk(chunk),
      onFinished: (run) => void finish(run),
      onFailed: (message) => {
        setFailure(message);
        setPhase('failed');
      },
    });
    session.current = opened;
    return () => {
      opened.close();
      work.current?.detach();
      // Left in the middle: what was cut stays, marked as given up.
      void work.current?.recorder.abandon().catch(tellTrouble);
      work.current = null;
    };
  }, [drill, finish]);

  const hold = useCallback(() => {
    if (clock.current !== null || ended.current) return;
    clock.current = 'held';
    work.current?.hand.rest(performance.now());
    session.current?.hold(true);
    setHeld(true);
  }, []);

  const end = useCallback(() => {
    if (ended.current || !work.current) return;
    if (!work.current.recorder.begun) {
      setPhase('card');
      work.current.detach();
      work.current = null;
      setSource(null);
      return;
    }
    ended.current = true;
    work.current.detach();
    setPhase('scoring');
    session.current?.end();
  }, []);

  const begin = useCallback(() => {
    const open = session.current;
    if (!open) return;
    const geometry = pathGeometry(drill.path);
    const start = geometry.pointAt(-WAIT_BACK_MM);
    const seed = randomSeed();
    const nowMs = performance.now();
    const pose = { xMm: start.xMm, yMm: start.yMm, heightMm: WAIT_HEIGHT_MM, leanXDeg: 0, leanYDeg: 0, trigger: false };
    const { chosenId } = useYard.getState();
    const recorder = createRunRecorder({ drillId: drill.id, drillHash, seed, personId: chosenId, onTrouble: tellTrouble });
    const limits = limitsFor(drill.plate.lengthMm, drill.plate.widthMm);
    clock.current = 'waiting';
    ended.current = false;
    open.cut(seed, pose, nowMs);
    open.hold(true);
    const hand = createHandController(pose, nowMs, limits, (event) => {
      if (clock.current !== null) {
        // The first movement starts the clock; after a halt only a fresh one does.
        if (event.rate === null && clock.current === 'held' && !event.pose.trigger && performance.now() - event.atMs > 200)
          return;
        clock.current = null;
        open.hold(false);
        setHeld(false);
      }
      if (event.pose.trigger && !recorder.begun) recorder.begin(hand.device, hand.device);
      open.hand(event);
    });
    const rules = {
      startXMm: drill.path.start.xMm,
      startYMm: drill.path.start.yMm,
      pathLengthMm: geometry.lengthMm,
      standOffLowMm: drill.tolerances.standOffMm.low,
      standOffHighMm: drill.tolerances.standOffMm.high,
      leanDeg: drill.tolerances.leanDeg,
      offLineMm: drill.tolerances.offLineMm,
      speedLowMmPerS: window?.windowLowMmPerS ?? null,
      speedHighMmPerS: window?.windowHighMmPerS ?? null,
    };
    work.current = { hand, recorder, guide: createGuide(rules), seed, detach: () => undefined };
    setStep('approach');
    setPhase('cutting');
  }, [drill, drillHash, window]);

  // Devices are listened to once the stage stands.
  useEffect(() => {
    const at = work.current;
    const element = stage.current;
    if (phase !== 'cutting' || !at || !element || !source) return;
    const pointer = createPointerHand(at.hand, (x, y, height) => scene.plateFromScreen(x, y, height));
    const keyboard = createKeyboardHand(at.hand, FIRST_SET_SPEED_MM_PER_S, { onEnd: end, onSetSpeed: setSetSpeed });
    const detach = attachHand(element, at.hand, pointer, keyboard, setPadReady);
    const onHidden = () => {
      if (document.visibilityState === 'hidden') hold();
    };
    document.addEventListener('visibilitychange', onHidden);
    at.detach = () => {
      detach();
      document.removeEventListener('visibilitychange', onHidden);
    };
    element.focus({ preventScroll: true });
    return () => at.detach();
  }, [phase, source, stage, scene, end, hold]);

  useEffect(() => {
    const at = work.current;
    if (phase !== 'cutting' || !at || !source) return;
    const geometry = pathGeometry(drill.path);
    let askedMs = Number.NEGATIVE_INFINITY;
    let timer: ReturnType<typeof setTimeout> | null = null;
    const stop = source.onFrame(() => {
      const now = performance.now();
      if (now - askedMs < GUIDE_EVERY_MS) return;
      askedMs = now;
      const { sample, hand } = source;
      if (!Number.isFinite(sample.xMm)) return;
      const foot = geometry.nearest(sample.xMm, sample.yMm);
      const next = at.guide.update(
        {
          xMm: sample.xMm,
          yMm: sample.yMm,
          heightMm: sample.standOffMm,
          leanDeg: wholeLeanDeg(hand.leanXDeg, hand.leanYDeg),
          trigger: hand.trigger,
          arc: ARC_STATES[sample.arcState] ?? 'off',
          penetration: sample.penetration,
          underMm3PerS: sample.underMm3PerS,
          topMm3PerS: sample.topMm3PerS,
          speedMmPerS: sample.speedMmPerS,
          alongMm: foot.sMm,
          offLineMm: Math.abs(foot.offsetMm),
        },
        now,
      );
      setStep(next);
      progress.current?.style.setProperty('--progress', String(at.guide.progress));
      if (at.guide.finished && timer === null) timer = setTimeout(end, FALL_MS);
    });
    return () => {
      stop();
      if (timer !== null) clearTimeout(timer);
    };
  }, [phase, source, drill, progress, end]);

  return { phase, window, source, step, setSpeedMmPerS, padReady, held, failure, begin, end, hold };
}
