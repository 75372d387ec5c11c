import { expect, test } from 'vitest';
import { decodeHandLog, encodeHandLog, quantiseHand } from '../../sim-core/index.ts';
import { appendHandTick, createHandLog, HAND_FIELDS } from '../../sim-core/run/hand-input.ts';
import type { HandTick } from '../../sim-core/run/types.ts';

const FAR = { xMm: 1e9, yMm: -1e9, heightMm: 1e9, leanXDeg: 1e9, leanYDeg: -1e9, trigger: true };

function written(tick: HandTick): Uint8Array {
  const log = createHandLog(1);
  appendHandTick(log, quantiseHand({ ...FAR, xMm: 0, yMm: 0, heightMm: 0, leanXDeg: 0, leanYDeg: 0 }));
  appendHandTick(log, tick);
  return encodeHandLog(log);
}

test('the farthest that a hand can be is recorded and read again', () => {
  const tick = quantiseHand(FAR);
  expect(tick).toEqual({ x: 1_000_000, y: -1_000_000, height: 20_000, leanX: 1600, leanY: -1600, trigger: 1 });
  expect(decodeHandLog(written(tick)).length).toBe(2);
});

test.each(HAND_FIELDS)('a record in which %s is farther than any hand is refused, with tick and field', (field) => {
  const tick = quantiseHand(FAR);
  Object.assign(tick, { [field]: tick[field] + (tick[field] < 0 ? -1 : 1) });
  expect(() => decodeHandLog(written(tick))).toThrow(
    new RegExp(`^Tick 2 of the recorded inputs has -?\\d+ for ${field}, at byte \\d+; it must lie from -?\\d+ to \\d+\\.$`),
  );
});
