// What a start does about what a fault left: parts of files in the data folder, a clock that was set back, a restore that was cut off.
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, onTestFinished, test, vi } from 'vitest';
import { openTestHost, temporaryFolder } from './open-test-host.ts';

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
