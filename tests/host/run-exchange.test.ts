import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import {
  CORE_VERSION,
  decodeRunFile,
  encodeHandLog,
  encodeRunFile,
  parseDrill,
  type RigChoices,
  referenceHand,
  runFileOf,
  runHand,
  storeTrace,
  verifyRunFile,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { openTestHost, type TestHost, temporaryFolder } from './open-test-host.ts';
import {
  CHUNK_TICKS,
  SAMPLE_CHOICES,
  SAMPLE_DIAGNOSIS,
  SAMPLE_DRILL,
  SCENARIOS,
  sampleBegin,
  sampleChunk,
  sampleFinish,
} from './sample-hand.ts';

async function exportText(host: TestHost, runId: string): Promise<string> {
  const reply = await host.ask('exportRun', { runId });
  if (reply.outcome !== 'text') throw new Error(reply.outcome);
  return reply.text;
}

async function cutRun(host: TestHost, chunks: number, choices: RigChoices | null = null): Promise<string> {
  const { runId } = await host.ask('beginRun', { ...sampleBegin(), choices });
  for (let sequence = 0; sequence < chunks; sequence++) await host.ask('appendToRun', sampleChunk(runId, sequence));
  return runId;
}

test('a finished run goes out and comes into another installation whole; the second time it is known', async () => {
  const here = await openTestHost();
  const runId = await cutRun(here, 4, SAMPLE_CHOICES);
  const finish = { ...sampleFinish(runId, 4 * CHUNK_TICKS), diagnosis: SAMPLE_DIAGNOSIS };
  await here.ask('finishRun', finish);
  const exported = await here.ask('exportRun', { runId });
  if (exported.outcome !== 'text') throw new Error(exported.outcome);
  expect(exported.fileName).toMatch(/^hanger-tab-straight-6-\d{8}-\d{6}-[0-9a-f]{8}\.kerfhand-run$/);
  expect(decodeRunFile(exported.text).ok).toBe(true);
  expect(await here.ask('importRun', { text: exported.text })).toMatchObject({
    outcome: 'same',
    run: { id: runId, source: 'here' },
  });

  const there = await openTestHost();
  const imported = await there.ask('importRun', { text: exported.text });
  expect(imported).toMatchObject({
    outcome: 'added',
    run: { state: 'finished', source: 'imported', personId: null, score: 81.5, passed: true },
  });
  expect(await there.ask('importRun', { text: exported.text })).toEqual({ ...imported, outcome: 'same' });
  expect((await there.ask('listRuns', {})).total).toBe(1);
  const [sent, got] = [await here.ask('getRun', { runId }), await there.ask('getRun', { runId: imported.run.id })];
  for (const field of [
    'inputs',
    'digests',
    'finalDigest',
    'scoreRecord',
    'trace',
    'drillHash',
    'seed',
    'hand',
    'coreVersion',
    'tickCount',
    'choices',
    'diagnosis',
  ] as const) {
    expect([field, got[field]]).toEqual([field, sent[field]]);
  }
  expect(await exportText(there, imported.run.id)).toBe(exported.text);
});

test('a run that differs only in what was chosen or named is another run', async () => {
  const here = await openTestHost();
  const runId = await cutRun(here, 2, SAMPLE_CHOICES);
  await here.ask('finishRun', { ...sampleFinish(runId, 2 * CHUNK_TICKS), diagnosis: SAMPLE_DIAGNOSIS });
  const decoded = decodeRunFile(await exportText(here, runId));
  if (!decoded.ok) throw new Error(decoded.problems[0]?.sentence);
  const { run } = decoded;
  expect(run).toMatchObject({ choices: SAMPLE_CHOICES, diagnosis: SAMPLE_DIAGNOSIS });
  for (const other of [
    { ...run, choices: { ...SAMPLE_CHOICES, supplyBar: 3 } },
    { ...run, choices: null },
    { ...run, diagnosis: null },
  ]) {
    expect((await here.ask('importRun', { text: encodeRunFile(other) })).outcome).toBe('added');
  }
  expect((await here.ask('importRun', { text: encodeRunFile(run) })).outcome).toBe('same');
});

test('an unfinished run goes out and in as what it is', async () => {
  const here = await openTestHost();
  const runId = await cutRun(here, 3);
  await here.ask('abandonRun', { runId });
  const text = await exportText(here, runId);
  expect((await here.ask('importRun', { text })).outcome).toBe('same');
  const there = await openTestHost();
  const { run } = await there.ask('importRun', { text });
  expect(run).toMatchObject({ state: 'unfinished', score: null, passed: null, tickCount: 3 * CHUNK_TICKS });
  expect((await there.ask('getRun', { runId: run.id })).inputs).toBe((await here.ask('getRun', { runId })).inputs);
});

test('the drill of a run file is kept with it and does not come onto the shelf', async () => {
  const here = await openTestHost();
  const own = JSON.stringify({
    ...JSON.parse(readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8')),
    id: 'own',
    title: 'Own',
  });
  await here.ask('importDrill', { text: own });
  const { runId } = await here.ask('beginRun', { ...sampleBegin(), drillId: 'own' });
  await here.ask('appendToRun', sampleChunk(runId, 0));
  const there = await openTestHost();
  const { run } = await there.ask('importRun', { text: await exportText(here, runId) });
  expect(run).toMatchObject({ drillId: 'own', drillTitle: 'Own' });
  expect((await there.ask('getDrill', { hash: run.drillHash })).drill.source).toBe('run-file');
  expect((await there.ask('listDrills', {})).drills.some((drill) => drill.id === 'own')).toBe(false);
});

test('a damaged, a newer and a senseless file are refused with a sentence and leave nothing behind', async () => {
  const host = await openTestHost();
  const runId = await cutRun(host, 1);
  await host.ask('finishRun', sampleFinish(runId, CHUNK_TICKS));
  const text = await exportText(host, runId);
  for (const at of [0, 50, Math.floor(text.length / 2), text.length - 10]) {
    const changed = text.slice(0, at) + (text[at] === 'x' ? 'y' : 'x') + text.slice(at + 1);
    expect(await host.refusal('importRun', { text: changed })).toMatch(/^bad-file: The file is not as it was written/);
  }
  const other = { ...JSON.parse(text.split('\n')[0] ?? ''), formatVersion: 9 };
  const head = JSON.stringify(other);
  const sealed = `${head}\n{"sha256":"${createHash('sha256').update(head).digest('hex')}"}\n`;
  expect(await host.refusal('importRun', { text: sealed })).toMatch(/^newer-version: At \$\.formatVersion: .*9.*3/);
  expect(await host.refusal('importRun', { text: '' })).toMatch(/^bad-file/);
  expect((await host.ask('listRuns', {})).total).toBe(1);
});

test('a real run of the reference hand, spooled, finished and exported, re-simulates to the same', async () => {
  const drillText = readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8');
  const parsed = parseDrill(drillText);
  if (!parsed.ok) throw new Error(parsed.problems[0]?.sentence);
  const run = runHand(parsed.value, referenceHand(parsed.value, windowOfDrill(parsed.value)), 7);
  const folder = temporaryFolder();
  const host = await openTestHost({ folder });
  const { runId } = await host.ask('beginRun', {
    ...sampleBegin(),
    seed: 7,
    hand: { kind: 'script', name: 'reference' },
    coreVersion: CORE_VERSION,
    choices: run.choices,
  });
  for (let sequence = 0, firstTick = 0; firstTick < run.log.length; sequence++, firstTick += CHUNK_TICKS) {
    const tickCount = Math.min(CHUNK_TICKS, run.log.length - firstTick);
    const part = { length: tickCount, values: run.log.values.slice(firstTick * 6, (firstTick + tickCount) * 6) };
    await host.ask('appendToRun', {
      runId,
      sequence,
      firstTick,
      tickCount,
      inputs: Buffer.from(encodeHandLog(part)).toString('base64'),
    });
  }
  await host.ask('finishRun', {
    runId,
    tickCount: run.log.length,
    digests: run.digests,
    finalDigest: run.finalDigest,
    diagnosis: run.diagnosis,
    score: run.score,
    trace: storeTrace(run.samples),
  });
  const text = await exportText(host, runId);
  expect(verifyRunFile(text)).toMatchObject({ verdict: 'same' });
  const direct = encodeRunFile(runFileOf(run, drillText, 'reference'));
  expect((await host.ask('importRun', { text: direct })).outcome).toBe('same');
});
