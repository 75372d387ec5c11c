import type { Diagnosis } from '../drill/diagnosis.ts';
import { windowOfDrill } from '../drill/drill-window.ts';
import type { HandScript } from '../drill/hand-script-schema.ts';
import type { RigChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';
import { setupFromDrill } from '../drill/setup-from-drill.ts';
import { createScriptedHand, type ScriptedHand } from '../hand/scripted-hand.ts';
import type { Score } from '../scoring/score.ts';
import { scoreContextOf } from '../scoring/score-context.ts';
import { scoreRun } from '../scoring/score-run.ts';
import { appendHandTick, createHandLog, type HandLog } from './hand-input.ts';
import { type RigAnswers, rightAnswers } from './rig-answers.ts';
import { appendSample, createSamples } from './samples.ts';
import { createSimulation } from './simulation.ts';
import { ARC_STATES, type HandTick, type Samples, type Simulation, TICK_HZ } from './types.ts';

/** Longest run a script may make, s. */
export const LONGEST_RUN_S = 600;

/** After its last step the hand has let go; this long the arc's end and the falling piece are still watched, s. */
const AFTER_S = 0.25;

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** A whole run: what was done, what came of it, and its marks. */
export interface CompletedRun {
  drill: Drill;
  seed: number;
  choices: RigChoices | null;
  diagnosis: Diagnosis | null;
  log: HandLog;
  samples: Samples;
  /** Digest at each full second. */
  digests: string[];
  finalDigest: string;
  score: Score;
  /** The plate as it is after the last tick. */
  simulation: Simulation;
}

/**
 * Runs a script on a drill without a window. `seed`, 0 to 2^32 - 1, drives the hand's tremor and the core. Without answers
 * the rig is as it should be, and the drill's fault is named rightly. Throws RangeError where the script takes longer than LONGEST_RUN_S or needs a speed window that does not exist.
 */
export function runHand(drill: Drill, script: HandScript, seed: number, answers: Partial<RigAnswers> = {}): CompletedRun {
  const { choices } = { ...rightAnswers(drill), ...answers };
  return runAnyHand(drill, createScriptedHand({ script, drill, window: windowOfDrill(drill), choices, seed }), seed, answers);
}

/** As `runHand`, with any hand that gives its next tick after a look at what the last one did. */
export function runAnyHand(drill: Drill, hand: ScriptedHand, seed: number, answers: Partial<RigAnswers> = {}): CompletedRun {
  const { choices, diagnosis } = { ...rightAnswers(drill), ...answers };
  const window = windowOfDrill(drill);
  const simulation = createSimulation(setupFromDrill(drill, seed, choices));
  const log = createHandLog();
  const samples = createSamples();
  const digests: string[] = [];
  const step = (tick: HandTick): void => {
    appendHandTick(log, tick);
    simulation.step(tick);
    appendSample(samples, simulation.sample);
    if (simulation.tick % TICK_HZ === 0) digests.push(simulation.digest());
  };
  const sight = {
    transferred: false,
    isOpenAlongAxis: (xMm: number, yMm: number, leanXDeg: number, leanYDeg: number) =>
      simulation.isOpenAlongAxis(xMm, yMm, leanXDeg, leanYDeg),
  };
  let last: HandTick | null = null;
  while (!hand.done) {
    if (simulation.tick >= LONGEST_RUN_S * TICK_HZ) throw new RangeError(`The hand is not done after ${LONGEST_RUN_S} s.`);
    sight.transferred = simulation.sample.arcState === TRANSFERRED;
    const tick = hand.next(sight);
    step(tick);
    last = { ...tick, trigger: 0 };
  }
  for (let i = 0; last && i < AFTER_S * TICK_HZ; i++) step(last);
  const score = scoreRun(drill, samples, scoreContextOf(simulation, window, { choices, diagnosis }));
  return { drill, seed, choices, diagnosis, log, samples, digests, finalDigest: simulation.digest(), score, simulation };
}
