import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { SpeedGuess } from '../../electron/contract.ts';
import { CORE_VERSION, type Diagnosis, type Drill, type RigChoices, type SpeedWindow } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import { goTo } from '../app/route.ts';
import { tellTrouble, tellWords, useYard } from '../app/yard-store.ts';
import type { EyeMove } from '../input/eye-place.ts';
import { createHandController, type HandDevice } from '../input/hand-controller.ts';
import { handSetup, runScale, takesTorch } from '../input/hand-setup.ts';
import { handOver, type NotKept, UNKEPT_RUN_ID } from '../review/fresh-run.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { say } from '../text/say.ts';
import type { AtWork } from './at-work.ts';
import { type BenchSession, openBench } from './bench-session.ts';
import { startsClock } from './clock-start.ts';
import type { FoundDrill } from './find-drill.ts';
import type { GuideStep } from './guidance.ts';
import { handLimits } from './hand-limits.ts';
import { createRunRecorder, type Marking } from './run-recorder.ts';
import { runTrouble } from './run-trouble.ts';
import { asksSpeedGuess } from './speed-guess.ts';
import { useGuide } from './use-guide.ts';
import { type HandDevices, useHandDevices } from './use-hand-devices.ts';
import { waitingPose } from './waiting-pose.ts';
import type { FinishedRun } from './worker-messages.ts';
import type { WorkerRun } from './worker-run.ts';

/**
 * 'diagnosing': the cut is over, and what was wrong with the rig has not been answered yet. 'guessing': it is being marked and
 * kept, and meanwhile the trainee says what the speed was.
 */
export type CuttingPhase = 'card' | 'rig-check' | 'cutting' | 'diagnosing' | 'guessing' | 'scoring' | 'failed';

export interface Cutting extends HandDevices {
  phase: CuttingPhase;
  window: SpeedWindow | null;
  source: WorkerRun | null;
  step: GuideStep;
  /** What moved the torch last: the guide names its controls; null before any did. */
  movedBy: HandDevice | null;
  /** The mouse moves the torch one to one, and only while it is held. */
  oneToOne: boolean;
  held: boolean;
  failure: string | null;
  /** How far the host is with marking an assessment; null where it is not known. */
  marking: Marking | null;
  /** From the card: to the rig where the trainee prepares it, else to the plate. */
  begin(): void;
  /** From the rig, as it was prepared, to the plate. */
  strike(choices: RigChoices): void;
  end(): void;
  diagnose(diagnosis: Diagnosis): void;
  /** Null = goes on without a guess. */
  guess(guess: SpeedGuess | null): void;
  /** Stops the clock of the bench until the hand moves again. */
  hold(): void;
}

function randomSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0] as number;
}

/** Whether the run ends with the question what was wrong with the rig. */
function asksDiagnosis(drill: Drill): boolean {
  return drill.rubric.measures.some((measure) => measure.id === 'fault-finding');
}

/** One drill on the bench, from reading the card to the end of the run. Slow state only; the run itself lives in the source. */
export function useCutting(
  drill: Drill,
  { drillHash, drillText }: Pick<FoundDrill, 'drillHash' | 'drillText'>,
  assignmentId: string | null,
  stage: RefObject<HTMLElement | null>,
  progress: RefObject<HTMLElement | null>,
  scene: SceneHandle,
  /** An assessment: no guess, and no marks before the decision. */
  sealed: boolean,
  onEye: (move: EyeMove, byMm: number) => void,
): Cutting {
  const [phase, setPhase] = useState<CuttingPhase>('card');
  const [window, setWindow] = useState<SpeedWindow | null>(null);
  const [source, setSource] = useState<WorkerRun | null>(null);
  const [movedBy, setMovedBy] = useState<HandDevice | null>(null);
  const [oneToOne, setTakesTorch] = useState(false);
  const [held, setHeld] = useState(false);
  const [failure, setFailure] = useState<string | null>(null);
  const [marking, setMarking] = useState<Marking | null>(null);
  const session = useRef<BenchSession | null>(null);
  const work = useRef<AtWork | null>(null);
  /** 'waiting': before the first movement; 'held': stopped by the page; null: running. */
  const clock = useRef<'waiting' | 'held' | null>('waiting');
  const ended = useRef(false);
  /** The marks of the ended run have been asked for. */
  const marked = useRef(false);
  const open = useRef(true);
  const guessed = useRef(Promise.withResolvers<SpeedGuess | null>());

  const finish = useCallback(
    async (run: FinishedRun) => {
      const at = work.current;
      if (!at) return;
      let id = UNKEPT_RUN_ID;
      let notKept: NotKept | null = null;
      try {
        id = await at.recorder.finish(run);
      } catch (error) {
        // Who has left has no page that could keep the run.
        if (!open.current) tellTrouble(error);
        notKept = { reason: runTrouble(error, true), drillText };
      }
      work.current = null;
      if (sealed && notKept === null) {
        // Marks of an assessment are the host's to give.
        if (open.current) goTo({ at: 'review', runId: id });
        return;
      }
      const asked = asksSpeedGuess(drill);
      const guess = asked ? await guessed.current.promise : null;
      if (guess !== null && notKept === null) void callHost('noteGuess', { runId: id, guess }).catch(tellTrouble);
      if (!open.current) return;
      const { people, chosenId } = useYard.getState();
      handOver({
        id,
        drill,
        seed: at.seed,
        choices: at.choices,
        diagnosis: run.diagnosis,
        coreVersion: CORE_VERSION,
        hand: at.recorder.hand,
        handScale: at.recorder.handScale,
        personName: people.find((person) => person.id === chosenId)?.name ?? null,
        state: 'finished',
        inputs: run.inputs,
        tickCount: run.tickCount,
        score: run.score,
        trace: run.trace,
        recorded: { digests: run.digests, finalDigest: run.finalDigest },
        notKept,
        guess,
        justGuessed: asked,
      });
      goTo({ at: 'review', runId: id });
    },
    [drill, drillText, sealed],
  );

  useEffect(() => {
    open.current = true;
    let left = false;
    const opened = openBench(drill, {
      onWindow: setWindow,
      onSource: setSource,
      onChunk: (chunk) => work.current?.recorder.chunk(chunk),
      onFinished: (run) => void finish(run).finally(() => left && opened.close()),
      onFailed: (message) => {
        // No marks will come.
        marked.current = false;
        if (left) giveUp();
        setFailure(message);
        setPhase('failed');
      },
      onStill: () => tellWords(say('bench.worker-still')),
      onMoving: () => useYard.setState(({ trouble }) => (trouble === say('bench.worker-still') ? { trouble: null } : {})),
    });
    session.current = opened;
    /** Left in the middle: what was cut stays, marked as given up. */
    function giveUp(): void {
      opened.close();
      void work.current?.recorder.abandon().catch(tellTrouble);
      work.current = null;
    }
    return () => {
      left = true;
      open.current = false;
      work.current?.detach();
      // Cut to its end: it is kept as that, with its marks, though nobody waits for them.
      if (work.current && marked.current) guessed.current.resolve(null);
      else giveUp();
    };
  }, [drill, finish]);

  const hold = useCallback(() => {
    if (clock.current !== null || ended.current || !work.current) return;
    // Before the clock is held: afterwards the hand's own coming to rest would count as a movement that starts it again.
    work.current.letGo(performance.now());
    clock.current = 'held';
    session.current?.hold(true);
    setHeld(true);
  }, []);

  const mark = useCallback((diagnosis: Diagnosis | null) => {
    marked.current = true;
    session.current?.mark(diagnosis);
  }, []);

  const end = useCallback(() => {
    if (ended.current || !work.current) return;
    const { begun } = work.current.recorder;
    work.current.detach();
    session.current?.end();
    setHeld(false);
    if (!begun) {
      setPhase('card');
      work.current = null;
      setSource(null);
      return;
    }
    ended.current = true;
    if (asksDiagnosis(drill)) {
      setPhase('diagnosing');
      return;
    }
    setPhase(asksSpeedGuess(drill) && !sealed ? 'guessing' : 'scoring');
    mark(null);
  }, [drill, sealed, mark]);

  const diagnose = useCallback(
    (diagnosis: Diagnosis) => {
      setPhase('scoring');
      mark(diagnosis);
    },
    [mark],
  );

  const guess = useCallback((said: SpeedGuess | null) => {
    setPhase('scoring');
    guessed.current.resolve(said);
  }, []);

  const toThePlate = useCallback(
    (choices: RigChoices | null) => {
      const bench = session.current;
      if (!bench) return;
      const seed = randomSeed();
      const nowMs = performance.now();
      const limits = handLimits(drill, choices);
      const pose = waitingPose(drill, limits);
      const { chosenId: personId, settings } = useYard.getState();
      const setup = handSetup(settings.hand, personId);
      const recorder = createRunRecorder({
        drillId: drill.id,
        drillHash,
        seed,
        personId,
        assignmentId,
        choices,
        onTrouble: (error) => tellWords(runTrouble(error, false)),
        onRecovered: () => useYard.setState({ trouble: null }),
        onMarking: setMarking,
      });
      clock.current = 'waiting';
      ended.current = false;
      marked.current = false;
      guessed.current = Promise.withResolvers();
      bench.cut(seed, choices, pose, nowMs);
      bench.hold(true);
      let shown: HandDevice | null = null;
      let before = pose;
      setMovedBy(null);
      const hand = createHandController(pose, nowMs, limits, (event) => {
        if (clock.current !== null) {
          const starts = startsClock(event, before, clock.current === 'held', performance.now());
          before = event.pose;
          if (!starts) return;
          clock.current = null;
          bench.hold(false);
          setHeld(false);
        }
        before = event.pose;
        if (event.pose.trigger && !recorder.begun)
          recorder.begin({ kind: hand.device, name: hand.device }, runScale(setup, hand));
        bench.hand(event);
        if (hand.movedBy === shown) return;
        shown = hand.movedBy;
        setMovedBy(shown);
      });
      work.current = { hand, setup, recorder, seed, choices, letGo: hand.rest, detach: () => undefined };
      setTakesTorch(takesTorch(setup));
      setPhase('cutting');
    },
    [drill, drillHash, assignmentId],
  );

  const begin = useCallback(() => {
    if (drill.rigCheck === 'by-trainee') setPhase('rig-check');
    else toThePlate(null);
  }, [drill, toThePlate]);

  const devices = useHandDevices(work, phase === 'cutting' ? source : null, stage, scene, { end, hold, onEye });
  const step = useGuide(drill, window, source, phase === 'cutting', progress, end);

  return {
    phase,
    window,
    source,
    step,
    ...devices,
    movedBy,
    oneToOne,
    held,
    failure,
    marking,
    begin,
    strike: toThePlate,
    end,
    diagnose,
    guess,
    hold,
  };
}
