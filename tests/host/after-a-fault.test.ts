// What a start does about what a fault left: parts of files in the data folder, a clock that was set back, runs without inputs.
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, onTestFinished, test, vi } from 'vitest';
import { decodeRunFile, encodeRunFile } from '../../sim-core/index.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { sampleBegin, sampleChunk } from './sample-hand.ts';

/** As kills at the right moments leave them. */
const LEFT = [
  'write-probe-4711',
  '.records.ledger-tail.1b4e28ba-2fa1-11d2-883f-0016d3cca427.part',
  '.next-start.kerfhand-backup.part',
  path.join('.passing', 'kerfhand-file-aB3dE6', 'yard.kerfhand-backup'),
  path.join('restore-aB3dE6', 'records.db'),
];
const KEPT = ['notes.txt', path.join('before-restore-20300131-094500', 'records.db'), 'restore-my-notes.txt'];

test('parts of files that a kill left are removed at the next start, and nothing else is', async () => {
  const folder = temporaryFolder();
  for (const name of [...LEFT, ...KEPT]) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), 'x');
  }
  const host = await openTestHost({ folder });
  expect(LEFT.filter((name) => existsSync(path.join(folder, name)))).toEqual([]);
  expect(KEPT.filter((name) => !existsSync(path.join(folder, name)))).toEqual([]);
  expect(readdirSync(folder)).not.toContain('.passing');
  // A second one is refused before it removes anything: what it would take for left over is being written.
  const passing = path.join(folder, '.passing');
  mkdirSync(passing);
  await expect(openTestHost({ folder })).rejects.toMatchObject({ code: 'in-use' });
  expect(existsSync(passing)).toBe(true);
  await host.close();
});

test('a clock that was set back is told of; entries keep the order of doing', async () => {
  const folder = temporaryFolder();
  const before = await openTestHost({ folder });
  await before.ask('makeFirstInstructor', { passphrase: 'slipway at low water' });
  await before.close();
  vi.useFakeTimers({ toFake: ['Date'], now: Date.now() - 40 * 86_400_000 });
  onTestFinished(() => void vi.useRealTimers());
  const after = await openTestHost({ folder });
  const { notices } = await after.ask('getSession', {});
  expect(notices).toEqual([{ code: 'clock-behind', message: expect.stringMatching(/is behind the last entry of the ledger/) }]);
  const { withPassphrase } = await after.ask('whoAmI', {});
  await after.ask('signIn', { personId: withPassphrase[0] as string, passphrase: 'slipway at low water' });
  const { id } = await after.ask('createPerson', { role: 'assessor' });
  const { entries } = await after.ask('listLedger', {});
  expect(entries.map(({ seq }) => seq)).toEqual([2, 1]);
  expect(entries[0]?.subject).toBe(id);
  expect((await after.ask('checkLedger', {})).ok).toBe(true);
});

test('runs without inputs are dropped at the next start, but not one that a note speaks of, nor one that came in from a file', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  const { person } = await first.ask('makeFirstInstructor', { passphrase: 'slipway at low water' });
  const [dropped, noted, chunked] = await Promise.all(
    Array.from({ length: 3 }, async () => (await first.ask('beginRun', sampleBegin())).runId),
  );
  if (!person || !dropped || !noted || !chunked) throw new Error('the yard was not made');
  const note = { tick: 0, text: 'Not begun.' };
  expect(await first.refusal('addNote', { runId: noted, ...note })).toMatch(/^conflict: Nothing of this run was cut yet/);
  await first.ask('appendToRun', sampleChunk(chunked, 0));
  const file = await first.ask('exportRun', { runId: chunked });
  const read = decodeRunFile(file.outcome === 'text' ? file.text : '');
  if (!read.ok) throw new Error('the exported run was not read');
  const empty = new Uint8Array(Buffer.from((await first.ask('getRun', { runId: dropped })).inputs, 'base64'));
  const text = encodeRunFile({ ...read.run, tickCount: 0, inputs: empty });
  const { run: imported, outcome } = await first.ask('importRun', { text });
  expect([outcome, imported.state, imported.tickCount]).toEqual(['added', 'unfinished', 0]);
  await first.close();
  // As records have it in which such a note was still taken.
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  const columns = 'insert into notes (id, run_id, person_id, at, tick, text) values (?, ?, ?, ?, ?, ?)';
  records.prepare(columns).run(crypto.randomUUID(), noted, person.id, new Date().toISOString(), note.tick, note.text);
  records.close();

  const second = await openTestHost({ folder });
  await second.ask('signIn', { personId: person.id, passphrase: 'slipway at low water' });
  const { runs } = await second.ask('listRuns', {});
  expect(new Set(runs.map((run) => `${run.id} ${run.state}`))).toEqual(
    new Set([noted, chunked, imported.id].map((id) => `${id} unfinished`)),
  );
});
