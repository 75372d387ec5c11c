import { expect, test } from 'vitest';
import type { ReviewedRun } from '../../renderer/review/fresh-run.ts';
import { unkeptRunFile } from '../../renderer/review/unkept-run-file.ts';
import {
  CORE_VERSION,
  encodeHandLog,
  referenceHand,
  runHand,
  storeTrace,
  verifyRunFile,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { drillText, shippedDrill } from '../scenarios/drill-files.ts';

const ID = 'guard-patch-straight-3';

test('a run that could not be kept becomes a file on the page that verifies as the same', () => {
  const drill = shippedDrill(ID);
  const { seed, choices, diagnosis, log, samples, digests, finalDigest, score } = runHand(
    drill,
    referenceHand(drill, windowOfDrill(drill)),
    5,
  );
  const text = drillText(`${ID}.json`);
  const run: ReviewedRun = {
    ...{ id: 'just-now', drill, seed, choices, diagnosis, score },
    ...{ coreVersion: CORE_VERSION, hand: { kind: 'pen', name: 'pen' }, handScale: null, personName: null, state: 'finished' },
    inputs: encodeHandLog(log),
    tickCount: log.length,
    trace: storeTrace(samples),
    recorded: { digests, finalDigest },
    notKept: { reason: 'The disk is full.', drillText: text },
    guess: null,
  };
  const file = unkeptRunFile(run, text, new Date('2026-03-01T09:08:07Z'));
  if (file.outcome !== 'text') throw new Error('It is no text.');
  expect(file.fileName).toBe(`${ID}-20260301-090807.kerfhand-run`);
  expect(verifyRunFile(file.text)).toMatchObject({ verdict: 'same' });
});
