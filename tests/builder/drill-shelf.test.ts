import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { encodeRunFile, faultHand, parseDrill, referenceHand, runFileOf, runHand, windowOfDrill } from '../../sim-core/index.ts';
import { openTestHost, type TestPage, temporaryFolder } from '../host/open-test-host.ts';
import { SCENARIOS } from '../host/sample-hand.ts';
import { openYardWithRoles } from '../host/yard-with-roles.ts';

const shipped = readFileSync(path.join(SCENARIOS, 'guard-patch-straight-3.json'), 'utf8');
const variant = (changes: object) => JSON.stringify({ ...JSON.parse(shipped), id: 'own-patch', title: 'Own patch', ...changes });
const first = variant({});
const second = variant({ title: 'Own patch, second thoughts' });

/** A run of the reference hand, or of one with a fault, on the drill of a text, taken in. */
async function runOn(host: TestPage, text: string, fault: 'too-fast' | null): Promise<string> {
  const read = parseDrill(text);
  if (!read.ok) throw new Error('the drill of the test cannot be read');
  const window = windowOfDrill(read.value);
  const script = fault === null ? referenceHand(read.value, window) : faultHand(fault, read.value, window).script;
  const run = runFileOf(runHand(read.value, script, 5), text, fault ?? 'reference');
  return (await host.ask('importRun', { text: encodeRunFile(run) })).run.id;
}

test('every save is a version of its own, and a run keeps the one that it was cut under', async () => {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder });
  const one = await host.ask('saveDrill', { text: first, replaces: null });
  expect(one).toMatchObject({ outcome: 'saved', id: 'own-patch', number: 1 });
  if (one.outcome === 'refused') return;
  const runId = await runOn(host, first, null);
  const two = await host.ask('saveDrill', { text: second, replaces: one.hash });
  expect(two).toMatchObject({ outcome: 'saved', number: 2 });
  await host.close();

  const again = await openTestHost({ folder });
  const { versions } = await again.ask('listDrillVersions', { id: 'own-patch' });
  expect(versions.map(({ number, title, current, runs }) => [number, title, current, runs])).toEqual([
    [2, 'Own patch, second thoughts', true, 0],
    [1, 'Own patch', false, 1],
  ]);
  expect((await again.ask('getRun', { runId })).drillText).toBe(first);
  expect((await again.ask('getDrill', { id: 'own-patch' })).text).toBe(second);
});

test('the same again is no new version; a version that is no longer current is not replaced', async () => {
  const host = await openTestHost();
  const one = await host.ask('saveDrill', { text: first, replaces: null });
  if (one.outcome === 'refused') throw new Error('refused');
  expect(await host.ask('saveDrill', { text: JSON.stringify(JSON.parse(first), null, 3), replaces: one.hash })).toEqual({
    ...one,
    outcome: 'same',
  });
  await host.ask('saveDrill', { text: second, replaces: one.hash });
  const third = variant({ title: 'Own patch, by another' });
  expect(await host.refusal('saveDrill', { text: third, replaces: one.hash })).toMatch(
    /^conflict: .* was saved by somebody else/,
  );
  expect(await host.refusal('saveDrill', { text: third, replaces: null })).toMatch(/^conflict: /);
  expect(await host.refusal('saveDrill', { text: variant({ id: 'own-other' }), replaces: one.hash })).toMatch(
    /^conflict: There is no drill own-other/,
  );
  expect((await host.ask('getDrill', { id: 'own-patch' })).text).toBe(second);
});

test('a drill that comes with Kerfhand is never changed, and one that cannot be read is told where', async () => {
  const host = await openTestHost();
  expect(await host.refusal('saveDrill', { text: shipped, replaces: null })).toMatch(/^conflict: .*comes with Kerfhand/);
  expect(await host.refusal('saveDrill', { text: variant({ title: '' }), replaces: null })).toMatch(/^bad-file: At \$\.title: /);
  expect((await host.ask('listDrillVersions', { id: 'guard-patch-straight-3' })).versions).toMatchObject([
    { number: 1, current: true, savedAt: null, runs: 0, demonstrationRunId: null },
  ]);
  expect(await host.refusal('listDrillVersions', { id: 'nobody-has-it' })).toMatch(/^not-found: /);
});

test('a drill that cannot be cut is refused with every reason, and nothing is kept of it', async () => {
  const host = await openTestHost();
  const drill = JSON.parse(first);
  const away = variant({ path: { start: { xMm: 40, yMm: 30 }, segments: [{ kind: 'line', to: { xMm: 300, yMm: 30 } }] } });
  const drawn = await host.ask('saveDrill', { text: away, replaces: null });
  expect(drawn).toMatchObject({ outcome: 'refused', problems: [{ path: '$.path.start' }, {}, { path: '$.path' }] });
  const thick = variant({ plate: { ...drill.plate, thicknessMm: 38 } });
  const metal = await host.ask('saveDrill', { text: thick, replaces: null });
  expect(metal.outcome === 'refused' && metal.problems[0]?.sentence).toMatch(/^Rig 40 at \d+ A cannot cut 38 mm mild steel/);
  expect(await host.refusal('listDrillVersions', { id: 'own-patch' })).toMatch(/^not-found: /);
});

test('a demonstration is a run that passed on exactly this version; it can be taken away and the run stays', async () => {
  const host = await openTestHost();
  const one = await host.ask('saveDrill', { text: first, replaces: null });
  if (one.outcome === 'refused') throw new Error('refused');
  const good = await runOn(host, first, null);
  const bad = await runOn(host, first, 'too-fast');
  const two = await host.ask('saveDrill', { text: second, replaces: one.hash });
  if (two.outcome === 'refused') throw new Error('refused');

  expect(await host.refusal('keepDemonstration', { hash: two.hash, runId: good })).toMatch(/^conflict: .*another version/);
  expect(await host.refusal('keepDemonstration', { hash: one.hash, runId: bad })).toMatch(
    /^conflict: .*not finished with a pass/,
  );
  await host.ask('keepDemonstration', { hash: one.hash, runId: good });
  const shown = async () =>
    (await host.ask('listDrillVersions', { id: 'own-patch' })).versions.map((version) => version.demonstrationRunId);
  expect(await shown()).toEqual([null, good]);
  await host.ask('keepDemonstration', { hash: one.hash, runId: null });
  expect(await shown()).toEqual([null, null]);
  expect((await host.ask('getRun', { runId: good })).state).toBe('finished');
});

test('where roles bind only an instructor saves, the ledger says who, and everybody may watch what is shown', async () => {
  const { instructor, assessor, apprentice, nobody, ids } = await openYardWithRoles();
  for (const page of [assessor, apprentice, nobody]) {
    expect(await page.refusal('saveDrill', { text: first, replaces: null })).toMatch(/^forbidden: /);
  }
  const saved = await instructor.ask('saveDrill', { text: first, replaces: null });
  if (saved.outcome === 'refused') throw new Error('refused');
  const { entries } = await instructor.ask('listLedger', { kinds: ['drill-saved'] });
  expect(entries).toMatchObject([{ who: ids.instructor, subject: 'own-patch', body: { hash: saved.hash, replaces: null } }]);

  const runId = await runOn(instructor, first, null);
  expect(await apprentice.refusal('getRun', { runId })).toMatch(/^forbidden: /);
  expect(await apprentice.refusal('keepDemonstration', { hash: saved.hash, runId })).toMatch(/^forbidden: /);
  await instructor.ask('keepDemonstration', { hash: saved.hash, runId });
  expect(await apprentice.ask('getDemonstration', { hash: saved.hash })).toEqual({ runId });
  expect((await apprentice.ask('getRun', { runId })).hand).toEqual({ kind: 'script', name: 'reference' });
  await instructor.ask('keepDemonstration', { hash: saved.hash, runId: null });
  expect(await apprentice.refusal('getRun', { runId })).toMatch(/^forbidden: /);
});
