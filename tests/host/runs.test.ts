import { describe, expect, test } from 'vitest';
import { diagnosisSchema, rigChoicesSchema } from '../../electron/contract/rig-answers.ts';
import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  decodeHandLog,
  encodeHandLog,
  NOZZLE_IDS,
  PART_IDS,
  REMEDY_IDS,
  RIG_FAULT_IDS,
  RIG_MODES,
  readHandTick,
  SHIELD_IDS,
} from '../../sim-core/index.ts';
import { openTestHost, type TestHost, temporaryFolder } from './open-test-host.ts';
import {
  CHUNK_TICKS,
  SAMPLE_CHOICES,
  SAMPLE_DIAGNOSIS,
  SAMPLE_DRILL,
  sampleBegin,
  sampleChunk,
  sampleFinish,
  sampleInputs,
  sampleTick,
} from './sample-hand.ts';

function expectSampleInputs(inputs: string, tickCount: number): void {
  const log = decodeHandLog(new Uint8Array(Buffer.from(inputs, 'base64')));
  expect(log.length).toBe(tickCount);
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as const };
  for (let index = 0; index < tickCount; index++) expect(readHandTick(log, index, tick)).toEqual(sampleTick(index));
}

async function cutRun(host: TestHost, chunks: number, personId: string | null = null): Promise<string> {
  const { runId } = await host.ask('beginRun', sampleBegin(personId));
  for (let sequence = 0; sequence < chunks; sequence++) await host.ask('appendToRun', sampleChunk(runId, sequence));
  return runId;
}

test('a page of another core begins no run: it could not be cut again here', async () => {
  const host = await openTestHost();
  for (const coreVersion of ['1.0.0', '2.99.0', `${CORE_VERSION} `])
    expect(await host.refusal('beginRun', { ...sampleBegin(), coreVersion })).toMatch(
      /^conflict: This page is of another version than the program behind it, .* load the page again/,
    );
  expect((await host.ask('listRuns', {})).total).toBe(0);
});

test('a run is begun, cut in chunks, finished, listed and read back whole, also after the host was closed', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  const person = await first.ask('createPerson', { role: 'apprentice' });
  const begun = await first.ask('beginRun', sampleBegin(person.id));
  expect(JSON.parse(begun.drillText).id).toBe(SAMPLE_DRILL);
  for (let sequence = 0; sequence < 8; sequence++) {
    const reply = await first.ask('appendToRun', sampleChunk(begun.runId, sequence));
    expect(reply).toEqual({ tickCount: (sequence + 1) * CHUNK_TICKS, nextSequence: sequence + 1 });
  }
  const result = sampleFinish(begun.runId, 8 * CHUNK_TICKS);
  const summary = await first.ask('finishRun', result);
  expect(summary).toMatchObject({
    state: 'finished',
    personName: 'Apprentice 01',
    seed: 4_294_967_295,
    score: 81.5,
    passed: true,
    tickCount: 480,
  });
  await first.close();

  const second = await openTestHost({ folder });
  expect((await second.ask('getSession', {})).notices).toEqual([]);
  expect(await second.ask('listRuns', {})).toEqual({ total: 1, runs: [summary] });
  const run = await second.ask('getRun', { runId: begun.runId });
  expect(run.drillText).toBe(begun.drillText);
  expect(run.drillHash).toBe(begun.drillHash);
  expect(run.scoreRecord).toEqual(result.score);
  expect(run.trace).toEqual(result.trace);
  expect(run.digests).toEqual(result.digests);
  expect(run.finalDigest).toBe(result.finalDigest);
  expectSampleInputs(run.inputs, 480);
});

test('a run that no hand can have made is not taken, and the sentence says what and where', async () => {
  const host = await openTestHost();
  const { runId } = await host.ask('beginRun', sampleBegin());
  const log = createHandLog();
  for (let tick = 0; tick < 240; tick++) appendHandTick(log, { ...sampleTick(tick), x: tick % 2 === 0 ? 0 : 300 });
  const inputs = Buffer.from(encodeHandLog(log)).toString('base64');
  await host.ask('appendToRun', { runId, sequence: 0, firstTick: 0, tickCount: 240, inputs });
  await expect(host.ask('finishRun', sampleFinish(runId, 240))).rejects.toThrow(
    'This run is not taken. No hand did this: in the second up to 0.31 s, at x 3.0 mm, y 50.0 mm, the place along x of the lit torch turns back 41 times.',
  );
  // Nobody waits for it any more; what was acknowledged of it stays.
  const run = await host.ask('getRun', { runId });
  expect([run.state, run.tickCount, run.inputs]).toEqual(['unfinished', 240, inputs]);
  expect(await host.refusal('finishRun', sampleFinish(runId, 240))).toMatch(/^conflict: This run is not taken/);
});

test('a run whose marks were refused is unfinished, and finished once they come whole', async () => {
  const host = await openTestHost();
  const runId = await cutRun(host, 2);
  const whole = sampleFinish(runId, 2 * CHUNK_TICKS);
  const halved = { ...whole, trace: { ...whole.trace, columns: whole.trace.columns.slice(0, 8) } };
  expect(await host.refusal('finishRun', halved)).toMatch(/^bad-request: The trace has/);
  expect(await host.ask('getRun', { runId })).toMatchObject({ state: 'unfinished', tickCount: 2 * CHUNK_TICKS });
  expect(await host.ask('finishRun', whole)).toMatchObject({ state: 'finished', tickCount: 2 * CHUNK_TICKS });
  expectSampleInputs((await host.ask('getRun', { runId })).inputs, 2 * CHUNK_TICKS);
});

describe('chunks', () => {
  test('one that was sent twice is acknowledged twice and kept once', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 3);
    expect(await host.ask('appendToRun', sampleChunk(runId, 1))).toEqual({ tickCount: 3 * CHUNK_TICKS, nextSequence: 3 });
    expectSampleInputs((await host.ask('getRun', { runId })).inputs, 3 * CHUNK_TICKS);
  });

  test('sent without waiting are kept in order', async () => {
    const host = await openTestHost();
    const { runId } = await host.ask('beginRun', sampleBegin());
    await Promise.all([0, 1, 2, 3, 4].map((sequence) => host.ask('appendToRun', sampleChunk(runId, sequence))));
    expectSampleInputs((await host.ask('getRun', { runId })).inputs, 5 * CHUNK_TICKS);
  });

  test('with other inputs under a number that is taken, with a gap, or of a wrong length are refused and change nothing', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 2);
    const third = sampleChunk(runId, 2);
    expect(await host.refusal('appendToRun', { ...sampleChunk(runId, 1), inputs: sampleInputs(0, CHUNK_TICKS) })).toMatch(
      /^conflict: Chunk 1 of this run is on disk already/,
    );
    expect(await host.refusal('appendToRun', sampleChunk(runId, 3))).toMatch(/^missing-chunks: Chunk 3 came before chunk 2/);
    expect(await host.refusal('appendToRun', { ...third, firstTick: 121 })).toMatch(
      /begins at tick 121, this run goes on at tick 120/,
    );
    expect(await host.refusal('appendToRun', { ...third, tickCount: 59 })).toMatch(/says 59 ticks and holds 60/);
    expect(await host.refusal('appendToRun', { ...third, inputs: 'AAAA' })).toMatch(/^bad-request: Chunk 2 is not a hand log/);
    expect(await host.refusal('appendToRun', { ...third, inputs: 'no base64!' })).toMatch(/^bad-request: .*at inputs/);
    expectSampleInputs((await host.ask('getRun', { runId })).inputs, 2 * CHUNK_TICKS);
  });
});

describe('the end of a run', () => {
  test('finish is refused while chunks are missing, then taken, and answered again the same when it is repeated', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 2);
    expect(await host.refusal('finishRun', sampleFinish(runId, 180))).toBe(
      'missing-chunks: The run has 180 ticks, 120 of them are on disk; send the rest first.',
    );
    await host.ask('appendToRun', sampleChunk(runId, 2));
    const summary = await host.ask('finishRun', sampleFinish(runId, 180));
    expect(await host.ask('finishRun', sampleFinish(runId, 180))).toEqual(summary);
    expect(await host.refusal('finishRun', { ...sampleFinish(runId, 180), finalDigest: '0000000000000000' })).toMatch(
      /^conflict/,
    );
    expect(await host.refusal('abandonRun', { runId })).toMatch(/^conflict/);
    expect(await host.refusal('appendToRun', sampleChunk(runId, 3))).toMatch(/^conflict: This run is closed/);
  });

  test('the own guess is kept once, of a finished run, and changes nothing else of it', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 1);
    expect(await host.refusal('noteGuess', { runId, guess: 'right' })).toMatch(/^conflict: A guess belongs to a run/);
    await host.ask('finishRun', sampleFinish(runId, CHUNK_TICKS));
    const before = await host.ask('getRun', { runId });
    expect(before.speedGuess).toBeNull();
    await host.ask('noteGuess', { runId, guess: 'too-fast' });
    expect(await host.ask('getRun', { runId })).toEqual({ ...before, speedGuess: 'too-fast' });
    // The same again is an answer that was lost; another one would come after the marks.
    await host.ask('noteGuess', { runId, guess: 'too-fast' });
    expect(await host.refusal('noteGuess', { runId, guess: 'right' })).toBe('conflict: The guess of this run is kept already.');
    expect((await host.ask('getRun', { runId })).speedGuess).toBe('too-fast');
  });

  test('a trace that is no whole number of samples is refused and the run can still be finished', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 1);
    const good = sampleFinish(runId, CHUNK_TICKS);
    const bad = { ...good, trace: { ...good.trace, columns: Buffer.alloc(12).toString('base64') } };
    expect(await host.refusal('finishRun', bad)).toMatch(/12 bytes, which is no whole number of samples in 2 columns/);
    expect((await host.ask('finishRun', good)).state).toBe('finished');
  });

  test('an abandoned run keeps its inputs and takes no more', async () => {
    const host = await openTestHost();
    const runId = await cutRun(host, 2);
    expect((await host.ask('abandonRun', { runId })).state).toBe('abandoned');
    expect(await host.refusal('appendToRun', sampleChunk(runId, 2))).toMatch(/^conflict/);
    expect(await host.refusal('finishRun', sampleFinish(runId, 120))).toMatch(/^conflict: This run was abandoned/);
    expectSampleInputs((await host.ask('getRun', { runId })).inputs, 2 * CHUNK_TICKS);
  });
});

test('a run that falls silent is listed as unfinished, and its next chunk opens it again', async () => {
  let nowMs = 0;
  const host = await openTestHost({ nowMs: () => nowMs });
  const runId = await cutRun(host, 2);
  const state = async () => (await host.ask('listRuns', {})).runs[0]?.state;
  nowMs = 9_000;
  expect(await state()).toBe('open');
  nowMs = 11_000;
  expect(await state()).toBe('unfinished');
  await host.ask('appendToRun', sampleChunk(runId, 2));
  expect(await state()).toBe('open');
  nowMs = 30_000;
  expect(await state()).toBe('unfinished');
  expect((await host.ask('finishRun', sampleFinish(runId, 3 * CHUNK_TICKS))).state).toBe('finished');
  expectSampleInputs((await host.ask('getRun', { runId })).inputs, 3 * CHUNK_TICKS);
});

test('a run that never got a chunk is dropped at the next start without a word', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  await first.ask('beginRun', sampleBegin());
  await first.close();
  const second = await openTestHost({ folder });
  expect((await second.ask('listRuns', {})).total).toBe(0);
  expect((await second.ask('getSession', {})).notices).toEqual([]);
});

test('lists can be narrowed and paged, newest first', async () => {
  const host = await openTestHost();
  const one = await host.ask('createPerson', { role: 'apprentice' });
  const two = await host.ask('createPerson', { role: 'apprentice' });
  const ids: string[] = [];
  for (let number = 0; number < 5; number++) ids.unshift(await cutRun(host, 1, number % 2 ? two.id : one.id));
  await host.ask('finishRun', sampleFinish(ids[0]!, CHUNK_TICKS));
  await host.ask('abandonRun', { runId: ids[1]! });
  const listed = async (request: Parameters<typeof host.ask<'listRuns'>>[1]) => {
    const { total, runs } = await host.ask('listRuns', request);
    return { total, ids: runs.map((run) => run.id) };
  };
  // Runs begun within one millisecond have no order of their own: compare as sets where that could matter.
  expect((await listed({})).ids.toSorted()).toEqual(ids.toSorted());
  expect((await listed({ personId: one.id })).total).toBe(3);
  expect((await listed({ personId: two.id })).total).toBe(2);
  expect(await listed({ states: ['abandoned'] })).toEqual({ total: 1, ids: [ids[1]] });
  expect(await listed({ passed: true })).toEqual({ total: 1, ids: [ids[0]] });
  expect((await listed({ drillId: 'no-such-drill' })).total).toBe(0);
  const pages = [await listed({ limit: 2 }), await listed({ limit: 2, offset: 2 }), await listed({ limit: 2, offset: 4 })];
  expect(pages.map((page) => page.total)).toEqual([5, 5, 5]);
  expect(pages.flatMap((page) => page.ids)).toEqual((await listed({})).ids);
});

test('unknown drill, person and run are named in the refusal', async () => {
  const host = await openTestHost();
  const nobody = '00000000-0000-4000-8000-000000000000';
  expect(await host.refusal('beginRun', { ...sampleBegin(), drillId: 'nope' })).toBe(
    'not-found: There is no drill nope on this shelf.',
  );
  expect(await host.refusal('beginRun', sampleBegin(nobody))).toMatch(/^not-found: There is no person 0000/);
  expect(await host.refusal('getRun', { runId: nobody })).toMatch(/^not-found: There is no run 0000/);
  expect(await host.refusal('beginRun', { ...sampleBegin(), seed: -1 })).toMatch(
    /^bad-request: The call beginRun was not understood: at seed/,
  );
  expect((await host.ask('listRuns', {})).total).toBe(0);
});

describe('what was chosen and named', () => {
  test('is kept with the run, also of one that was given up, and read back', async () => {
    const host = await openTestHost();
    const { runId } = await host.ask('beginRun', { ...sampleBegin(), choices: SAMPLE_CHOICES });
    await host.ask('appendToRun', sampleChunk(runId, 0));
    expect(await host.ask('getRun', { runId })).toMatchObject({ choices: SAMPLE_CHOICES, diagnosis: null });
    await host.ask('finishRun', { ...sampleFinish(runId, CHUNK_TICKS), diagnosis: SAMPLE_DIAGNOSIS });
    expect(await host.ask('getRun', { runId })).toMatchObject({ choices: SAMPLE_CHOICES, diagnosis: SAMPLE_DIAGNOSIS });
    const given = await host.ask('beginRun', { ...sampleBegin(), choices: SAMPLE_CHOICES });
    await host.ask('appendToRun', sampleChunk(given.runId, 0));
    await host.ask('abandonRun', { runId: given.runId });
    expect(await host.ask('getRun', { runId: given.runId })).toMatchObject({ choices: SAMPLE_CHOICES, diagnosis: null });
  });

  test('is refused where it is none of the core’s, naming the place, and begins nothing', async () => {
    const host = await openTestHost();
    const begin = { ...sampleBegin(), choices: { ...SAMPLE_CHOICES, nozzle: 'garden hose' } };
    expect(await host.refusal('beginRun', begin)).toMatch(/^bad-request: .*at choices\.nozzle/);
    const { protection: _, ...bare } = SAMPLE_CHOICES;
    expect(await host.refusal('beginRun', { ...sampleBegin(), choices: bare })).toMatch(/at choices\.protection/);
    expect((await host.ask('listRuns', {})).total).toBe(0);
    const runId = await cutRun(host, 1);
    const finish = { ...sampleFinish(runId, CHUNK_TICKS), diagnosis: { cause: 'gremlins', remedy: 'drain-water' } };
    expect(await host.refusal('finishRun', finish)).toMatch(/^bad-request: .*at diagnosis\.cause/);
  });

  test('the contract takes every word that the core has for it', () => {
    const parts = { nozzle: NOZZLE_IDS, shield: SHIELD_IDS, mode: RIG_MODES };
    for (const [field, ids] of Object.entries(parts)) {
      for (const id of ids) expect(rigChoicesSchema.safeParse({ ...SAMPLE_CHOICES, [field]: id }).success, id).toBe(true);
    }
    expect(rigChoicesSchema.safeParse({ ...SAMPLE_CHOICES, stack: [...PART_IDS] }).success).toBe(true);
    for (const cause of RIG_FAULT_IDS) {
      for (const remedy of REMEDY_IDS) expect(diagnosisSchema.safeParse({ cause, remedy }).success).toBe(true);
    }
  });
});

test('standings count the tries at each drill and keep the best mark, for one person or for anybody', async () => {
  const host = await openTestHost();
  const one = await host.ask('createPerson', { role: 'apprentice' });
  const two = await host.ask('createPerson', { role: 'apprentice' });
  expect(await host.ask('listStandings', { personId: null })).toEqual({ standings: [] });
  const finish = async (personId: string | null, score: number, passed: boolean) => {
    const runId = await cutRun(host, 1, personId);
    const made = sampleFinish(runId, CHUNK_TICKS);
    await host.ask('finishRun', { ...made, score: { ...made.score, score, passed } });
  };
  await cutRun(host, 1, one.id);
  await finish(one.id, 61, false);
  await finish(one.id, 74.5, true);
  await finish(two.id, 90, false);
  const drillId = SAMPLE_DRILL;
  expect(await host.ask('listStandings', { personId: one.id })).toEqual({
    standings: [{ drillId, tries: 3, bestScore: 74.5, passed: true }],
  });
  expect(await host.ask('listStandings', { personId: two.id })).toEqual({
    standings: [{ drillId, tries: 1, bestScore: 90, passed: false }],
  });
  expect(await host.ask('listStandings', { personId: null })).toEqual({
    standings: [{ drillId, tries: 4, bestScore: 90, passed: true }],
  });
});
