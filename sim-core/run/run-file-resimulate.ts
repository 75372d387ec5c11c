import { windowOfDrill } from '../drill/drill-window.ts';
import type { Drill } from '../drill/schema.ts';
import { setupFromDrill } from '../drill/setup-from-drill.ts';
import type { Score } from '../scoring/score.ts';
import { scoreContextOf } from '../scoring/score-context.ts';
import { scoreRun } from '../scoring/score-run.ts';
import { type HandLog, readHandTick } from './hand-input.ts';
import type { RigAnswers } from './rig-answers.ts';
import { appendSample, createSamples } from './samples.ts';
import { createSimulation } from './simulation.ts';
import { type HandTick, type Samples, TICK_HZ } from './types.ts';

/** What the core makes of recorded inputs. */
export interface Resimulated {
  samples: Samples;
  digests: string[];
  finalDigest: string;
  score: Score;
}

/**
 * Cuts a recorded run again, from its inputs and its answers alone, and marks it again. Throws RangeError where the drill
 * cannot be set up.
 * @param onSecond told after every second of the run how many of its ticks are cut again
 */
export function resimulate(
  drill: Drill,
  seed: number,
  log: HandLog,
  answers: RigAnswers,
  onSecond?: (ticks: number) => void,
): Resimulated {
  const simulation = createSimulation(setupFromDrill(drill, seed, answers.choices));
  const samples = createSamples(log.length + 1);
  const digests: string[] = [];
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  for (let i = 0; i < log.length; i++) {
    simulation.step(readHandTick(log, i, tick));
    appendSample(samples, simulation.sample);
    if (simulation.tick % TICK_HZ !== 0) continue;
    digests.push(simulation.digest());
    onSecond?.(simulation.tick);
  }
  const score = scoreRun(drill, samples, scoreContextOf(simulation, windowOfDrill(drill), answers));
  return { samples, digests, finalDigest: simulation.digest(), score };
}
