import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../electron/contract.ts';
import { FIRST_SETTINGS } from '../../renderer/app/yard-store.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';

test('people are numbered by role, also when created at once', async () => {
  const host = await openTestHost();
  const made = await Promise.all(
    (['apprentice', 'apprentice', 'instructor', 'apprentice', 'assessor'] as const).map((role) =>
      host.ask('createPerson', { role }),
    ),
  );
  expect(made.map((person) => person.name)).toEqual([
    'Apprentice 01',
    'Apprentice 02',
    'Instructor 01',
    'Apprentice 03',
    'Assessor 01',
  ]);
  expect((await host.ask('listPeople', {})).people).toHaveLength(5);
});

test('who practises and the settings outlast the host; nobody can be chosen who is not there', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  expect(await first.ask('getSettings', {})).toEqual(DEFAULT_SETTINGS);
  const person = await first.ask('createPerson', { role: 'instructor' });
  await first.ask('choosePerson', { personId: person.id });
  expect(await first.refusal('choosePerson', { personId: '00000000-0000-4000-8000-000000000000' })).toMatch(/^not-found/);
  const changed = { ...DEFAULT_SETTINGS, units: 'inch' as const, pinnedViews: ['under-plate', 'side'] };
  expect(await first.ask('setSettings', { units: 'inch', pinnedViews: ['under-plate', 'side'] })).toEqual(changed);
  expect(await first.refusal('setSettings', { units: 'furlong' })).toMatch(/^bad-request: .*at units/);
  await first.close();

  const second = await openTestHost({ folder });
  expect(await second.ask('getSession', {})).toMatchObject({
    personId: person.id,
    settings: changed,
    keepsRecords: true,
    appVersion: '0.1.0',
  });
  await second.ask('choosePerson', { personId: null });
  expect((await second.ask('listPeople', {})).chosenId).toBeNull();
});

test('prices are kept whole; records from before there were any, or with broken ones, give the invented ones', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  const prices = { ...DEFAULT_SETTINGS.prices, currency: 'kr', gasPerM3: 1.25 };
  expect((await first.ask('setSettings', { prices })).prices).toEqual(prices);
  expect(await first.refusal('setSettings', { prices: { ...prices, nozzle: -1 } })).toMatch(/^bad-request: .*nozzle/);
  expect(await first.refusal('setSettings', { prices: { ...prices, currency: '  ' } })).toMatch(/^bad-request: .*currency/);
  expect(await first.refusal('setSettings', { prices: { electrode: 3 } })).toMatch(/^bad-request: .*prices/);
  await first.close();
  const second = await openTestHost({ folder });
  expect((await second.ask('getSettings', {})).prices).toEqual(prices);
  await second.close();
  const records = new DatabaseSync(join(folder, 'records.db'));
  records.prepare("UPDATE settings SET value = '{\"currency\":7}' WHERE name = 'prices'").run();
  records.close();
  const third = await openTestHost({ folder });
  expect((await third.ask('getSettings', {})).prices).toEqual(DEFAULT_SETTINGS.prices);
});

test('the page starts with what the host would answer on a new machine', () => {
  expect(FIRST_SETTINGS).toEqual(DEFAULT_SETTINGS);
});

test('a speed window is found again under exactly its key; one that cannot be read counts as not there', async () => {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder });
  const key = { coreVersion: '1.0.0', material: 'mild-steel', thicknessMm: 6, currentA: 45, rig: '60' } as const;
  const window = { windowLowMmPerS: 15.5, windowHighMmPerS: 24.25, losingSpeedMmPerS: 31, edgeDwellS: 0.4, reason: null };
  expect(await host.ask('getSpeedWindow', key)).toEqual({ window: null });
  await host.ask('putSpeedWindow', { key, window });
  expect(await host.ask('getSpeedWindow', key)).toEqual({ window });
  const none = { windowLowMmPerS: null, windowHighMmPerS: null, losingSpeedMmPerS: null, edgeDwellS: null, reason: 'too thick' };
  await host.ask('putSpeedWindow', { key, window: none });
  expect(await host.ask('getSpeedWindow', key)).toEqual({ window: none });
  for (const other of [
    { coreVersion: '1.0.1' },
    { material: 'aluminium' },
    { thicknessMm: 6.5 },
    { currentA: 46 },
    { rig: '100' },
  ] as const) {
    expect(await host.ask('getSpeedWindow', { ...key, ...other })).toEqual({ window: null });
  }
  await host.close();
  const records = new DatabaseSync(join(folder, 'records.db'));
  records.exec("update speed_windows set speed_window = '{'");
  records.close();
  expect(await (await openTestHost({ folder })).ask('getSpeedWindow', key)).toEqual({ window: null });
});
