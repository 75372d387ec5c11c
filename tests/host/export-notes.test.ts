// What takes data of people out of the yard stands in the ledger, with who and what; what was taken back does not.
import path from 'node:path';
import { expect, test } from 'vitest';
import { handInRun } from './handed-in-run.ts';
import { fileTextOf } from './job-ends.ts';
import { temporaryFolder } from './open-test-host.ts';
import { SAMPLE_DRILL } from './sample-hand.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

test('every way out leaves an entry; drill packs and public keys leave none', async () => {
  const yard = await openYardWithRoles();
  const { instructor, assessor, apprentice, ids } = yard;
  const runId = await handInRun(yard);
  const verdict = { runId, decision: 'competent' as const, reasons: 'Straight and clean', passphrase: PASSPHRASES.assessor };
  await assessor.ask('signVerdict', verdict);
  await apprentice.ask('exportRun', { runId });
  await apprentice.ask('exportVerdict', { runId });
  await assessor.ask('exportRunReport', { runId });
  await fileTextOf(assessor, await assessor.ask('exportRunsCsv', { table: 'runs', drillId: SAMPLE_DRILL }));
  await fileTextOf(instructor, await instructor.ask('exportRunsCsv', { table: 'measures' }));
  await fileTextOf(instructor, await instructor.ask('exportStatements', { homePage: 'https://yard.example' }));
  await instructor.ask('exportRoster', {});
  const backup = await instructor.ask('backUp', {});
  if (backup.outcome !== 'started') throw new Error(backup.outcome);
  await expect.poll(async () => (await instructor.ask('getJob', { jobId: backup.job.id })).state).toBe('done');
  await instructor.ask('exportPack', { title: 'Tabs', drillIds: [SAMPLE_DRILL] });
  await instructor.ask('exportPublicKey', { personId: ids.assessor });

  const { entries } = await instructor.ask('listLedger', { kinds: ['export'] });
  expect(entries.toReversed().map(({ who, subject, body }) => [who, subject, body.what])).toEqual([
    [ids.apprentice, runId, 'run'],
    [ids.apprentice, runId, 'verdict'],
    [ids.assessor, runId, 'report'],
    [ids.assessor, 'runs', 'runs-table'],
    [ids.instructor, 'runs', 'measures-table'],
    [ids.instructor, 'runs', 'statements'],
    [ids.instructor, 'roster', 'roster'],
    [ids.instructor, 'yard', 'backup'],
  ]);
  expect(entries.map(({ body }) => typeof body.fileName)).toEqual(Array(8).fill('string'));
  expect(entries[4]?.body).toMatchObject({ runs: 1, choice: { drillId: SAMPLE_DRILL } });
  expect(await instructor.ask('checkLedger', {})).toMatchObject({ ok: true });
});

test('an export that was taken back where the shell asks for a place, or has none, leaves no entry', async () => {
  // As long as a system lets a name be.
  const fileName = `${'roster-'.repeat(35)}.csv`;
  const places: (string | null)[] = [
    null,
    path.join(temporaryFolder(), 'gone', fileName),
    path.join(temporaryFolder(), fileName),
  ];
  const { instructor } = await openYardWithRoles({ askWhereToSave: async () => places.shift() ?? null });
  expect((await instructor.ask('exportRoster', {})).outcome).toBe('cancelled');
  expect((await instructor.ask('listLedger', { kinds: ['export'] })).total).toBe(0);
  expect(await instructor.refusal('exportRoster', {})).toBe(
    'not-found: The place that was chosen for the file is not there; choose another.',
  );
  expect((await instructor.ask('listLedger', { kinds: ['export'] })).total).toBe(0);
  expect(await instructor.ask('exportRoster', {})).toEqual({ outcome: 'saved', fileName });
  expect((await instructor.ask('listLedger', { kinds: ['export'] })).entries[0]?.body).toMatchObject({ fileName });
});
