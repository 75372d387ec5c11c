import { readFileSync } from 'node:fs';
import path from 'node:path';
import { appendHandTick, CORE_VERSION, createHandLog, encodeHandLog, encodeRunFile, TICK_HZ } from '../../sim-core/index.ts';
import { SAMPLE_DRILL, SCENARIOS } from './sample-hand.ts';

/** Five minutes at the torch: the core takes seconds to cut it again. */
const LONG_MINUTES = 5;

/** The file of a run that goes to and fro over the plate and was never finished. */
export function longRunText(minutes = LONG_MINUTES): string {
  const ticks = minutes * 60 * TICK_HZ;
  const log = createHandLog(ticks);
  for (let tick = 0; tick < ticks; tick++) {
    const along = Math.abs((tick % 24_000) - 12_000);
    appendHandTick(log, {
      x: along,
      y: 5000 + Math.trunc((tick % 72_000) / 200),
      height: 150,
      leanX: 0,
      leanY: 0,
      trigger: tick > 30 ? 1 : 0,
    });
  }
  return encodeRunFile({
    coreVersion: CORE_VERSION,
    drillText: readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8'),
    seed: 1,
    hand: { kind: 'mouse', name: 'mouse' },
    choices: null,
    diagnosis: null,
    finished: false,
    tickCount: ticks,
    inputs: encodeHandLog(log),
    digests: [],
    finalDigest: null,
    trace: null,
    score: null,
  });
}
