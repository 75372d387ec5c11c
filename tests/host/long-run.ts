import { readFileSync } from 'node:fs';
import path from 'node:path';
import { appendHandTick, CORE_VERSION, createHandLog, encodeHandLog, encodeRunFile } from '../../sim-core/index.ts';
import { SAMPLE_DRILL, SCENARIOS } from './sample-hand.ts';

/** Five minutes at the torch: the core takes seconds to cut it again. */
const TICKS = 72_000;

/** The file of a run that goes to and fro over the plate and was never finished. */
export function longRunText(): string {
  const log = createHandLog(TICKS);
  for (let tick = 0; tick < TICKS; tick++) {
    const along = Math.abs((tick % 24_000) - 12_000);
    appendHandTick(log, {
      x: along,
      y: 5000 + Math.trunc(tick / 200),
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
    tickCount: TICKS,
    inputs: encodeHandLog(log),
    digests: [],
    finalDigest: null,
    trace: null,
    score: null,
  });
}
