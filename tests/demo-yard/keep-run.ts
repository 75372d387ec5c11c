import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  decodeHandLog,
  encodeHandLog,
  readHandTick,
  toBase64,
} from '../../sim-core/index.ts';
import type { DemoClock } from './demo-clock.ts';
import type { PractisedRun } from './practise.ts';
import type { Someone } from './yard-day.ts';

/** As CHUNK_LIMIT_TICKS of the contract. */
const MOST_TICKS = 4800;
/** So much of a run is cut before it is given up. */
const GIVEN_UP_AFTER = 0.4;

/** Hands a run over as the page does while it is cut; its id. */
export async function keepRun(who: Someone, clock: DemoClock, practised: PractisedRun, assignmentId: string): Promise<string> {
  const { run, drillId, beganAtMs, endedAtMs, isAbandoned, used, guess } = practised;
  const { runId } = await who.ask('beginRun', {
    drillId,
    seed: run.seed,
    personId: who.id,
    hand: { kind: 'script', name: 'Synthetic hand' },
    coreVersion: CORE_VERSION,
    choices: run.choices,
    assignmentId,
  });
  const whole = decodeHandLog(run.inputs);
  const wanted = isAbandoned ? Math.floor(whole.length * GIVEN_UP_AFTER) : whole.length;
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  for (let sequence = 0, firstTick = 0; firstTick < wanted; sequence++) {
    const tickCount = Math.min(MOST_TICKS, wanted - firstTick);
    const part = createHandLog(tickCount);
    for (let n = firstTick; n < firstTick + tickCount; n++) appendHandTick(part, readHandTick(whole, n, tick));
    await who.ask('appendToRun', { runId, sequence, firstTick, tickCount, inputs: toBase64(encodeHandLog(part)) });
    firstTick += tickCount;
  }
  clock.set(Math.max(clock.now(), isAbandoned ? beganAtMs + (endedAtMs - beganAtMs) * GIVEN_UP_AFTER : endedAtMs));
  if (isAbandoned) {
    await who.ask('abandonRun', { runId });
    return runId;
  }
  const { tickCount, digests, finalDigest, diagnosis, score, trace } = run;
  await who.ask('finishRun', {
    runId,
    tickCount,
    digests,
    finalDigest,
    diagnosis,
    score: { ...score, measures: score.measures.map((measure) => ({ ...measure })) },
    trace,
    used,
  });
  if (guess !== null) await who.ask('noteGuess', { runId, guess });
  return runId;
}
