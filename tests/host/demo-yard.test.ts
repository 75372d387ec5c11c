import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, onTestFinished, test } from 'vitest';
import type { Reply } from '../../electron/contract.ts';
import { type Connection, newConnection } from '../../electron/host/caller.ts';
import { readDemoYardFacts } from '../../electron/host/demo-yard-file.ts';
import { demoYardFolder } from '../../electron/host/demo-yard-folder.ts';
import { DEMO_YARD_FILE, openYards, type YardsOptions } from '../../electron/host/open-yards.ts';
import { CORE_VERSION, verifyRunFile } from '../../sim-core/index.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { CHEAP_SCRYPT, pageOf, type TestPage, temporaryFolder } from './open-test-host.ts';
import { SCENARIOS } from './sample-hand.ts';

const FILE = path.join(SCENARIOS, DEMO_YARD_FILE);
const OWN_PASSPHRASE = 'bollard and hawser';

interface Yards extends TestPage {
  folder: string;
  page(): TestPage;
  close(): Promise<void>;
}

async function openTestYards(options: Partial<YardsOptions> = {}): Promise<Yards> {
  const faults: string[] = [];
  const folder = options.folder ?? temporaryFolder();
  const host = await openYards({
    scenariosFolder: SCENARIOS,
    shell: 'loopback',
    appVersion: '0.1.0',
    scryptCost: CHEAP_SCRYPT,
    log: (line) => faults.push(line),
    ...options,
    folder,
  });
  onTestFinished(async () => {
    await host.close();
    expect(faults, 'the fault log of the host').toEqual([]);
  });
  const pageOn = (connection: Connection) => pageOf(host, connection);
  return { ...pageOn(newConnection()), page: () => pageOn(newConnection()), close: () => host.close(), folder };
}

async function signInTo(page: TestPage, name: string): Promise<string> {
  const { facts } = await page.ask('getDemoYard', {});
  const { people } = await page.ask('listPeople', {});
  const id = people.find((person) => person.name === name)?.id ?? '';
  const passphrase = facts?.entries.find((entry) => entry.name === name)?.passphrase ?? null;
  await page.ask('signIn', { personId: id, passphrase });
  return id;
}

/** Everything of the own yard that its contract shows, and the bytes of what it keeps. */
async function ownYard(page: TestPage): Promise<string> {
  const shown = [await page.ask('listPeople', {}), await page.ask('listRuns', {}), await page.ask('listDrills', {})];
  return JSON.stringify(shown);
}

/** Sizes and dates of the records of the own yard, which nothing may touch while the other one is open. */
function ownRecords(folder: string): string {
  const database = new DatabaseSync(path.join(folder, 'records.db'), { readOnly: true });
  const tables = ['people', 'runs', 'ledger', 'settings'].map((name) => database.prepare(`select * from ${name}`).all());
  database.close();
  return JSON.stringify(tables);
}

test('it is opened, is a yard of its own, and leaving leads back to the own one as it was', async () => {
  const yards = await openTestYards();
  await yards.ask('setSettings', { theme: 'dark', units: 'inch' });
  const { id } = await yards.ask('createPerson', { role: 'apprentice' });
  await cutSampleRun(yards, { personId: id });
  await yards.ask('makeFirstInstructor', { passphrase: OWN_PASSPHRASE });
  const before = await ownYard(yards);
  const records = ownRecords(yards.folder);
  expect((await yards.ask('getDemoYard', {})).state).toBe('absent');

  const opened = await yards.ask('openDemoYard', {});
  expect(opened).toMatchObject({ state: 'open', facts: { apprentices: 24, groups: 3, weeks: 8, coreVersion: CORE_VERSION } });
  expect(await yards.ask('whoAmI', {})).toMatchObject({ person: null, rolesBind: true });
  const { people } = await yards.ask('listPeople', {});
  expect(people.filter((person) => person.role === 'apprentice')).toHaveLength(24);
  expect(await yards.ask('getSettings', {})).toMatchObject({ theme: 'dark', units: 'inch' });
  await signInTo(yards, 'Instructor 01');
  await yards.ask('createPerson', { role: 'apprentice' });
  // Only a writer of the own yard may change it, and here is none.
  expect(ownRecords(yards.folder)).toBe(records);

  expect((await yards.ask('leaveDemoYard', {})).state).toBe('there');
  expect((await yards.ask('whoAmI', {})).person).toBeNull();
  expect((await yards.ask('listPeople', {})).people.map((person) => person.name)).toEqual(['Apprentice 01', 'Instructor 01']);
  await yards.ask('signIn', { personId: (await yards.ask('whoAmI', {})).withPassphrase[0] ?? '', passphrase: OWN_PASSPHRASE });
  expect(await ownYard(yards)).toBe(before);

  // What was done in it is there when it is opened again.
  await yards.ask('openDemoYard', {});
  expect((await yards.ask('listPeople', {})).people.filter((person) => person.role === 'apprentice')).toHaveLength(25);
});

test('opening and leaving it twice at once, and calls that come in between, are answered by one yard or the other', async () => {
  const yards = await openTestYards();
  const others = Array.from({ length: 20 }, () => yards.page());
  const answers = await Promise.all([
    yards.ask('openDemoYard', {}),
    yards.ask('openDemoYard', {}),
    ...others.map((page) => page.ask('listPeople', {})),
    yards.ask('leaveDemoYard', {}),
  ]);
  for (const answer of answers) if ('people' in answer) expect([0, 28]).toContain(answer.people.length);
  expect(['open', 'there']).toContain((await yards.ask('getDemoYard', {})).state);
  await yards.ask('leaveDemoYard', {});
  expect((await yards.ask('listPeople', {})).people).toEqual([]);
});

test('it is removed by anybody while no role binds, then by instructors, and can be had back', async () => {
  const yards = await openTestYards();
  await yards.ask('openDemoYard', {});
  expect(await yards.refusal('removeDemoYard', {})).toMatch(/^forbidden: The call removeDemoYard is for instructors only/);
  await signInTo(yards, 'Instructor 01');
  expect((await yards.ask('removeDemoYard', {})).state).toBe('absent');
  expect(existsSync(path.join(yards.folder, 'demo-yard'))).toBe(false);
  await yards.ask('openDemoYard', {});
  await yards.ask('leaveDemoYard', {});
  expect((await yards.ask('removeDemoYard', {})).state).toBe('absent');

  await yards.ask('openDemoYard', {});
  await yards.ask('leaveDemoYard', {});
  await yards.ask('makeFirstInstructor', { passphrase: OWN_PASSPHRASE });
  const nobody = yards.page();
  expect(await nobody.refusal('removeDemoYard', {})).toMatch(/^forbidden/);
  expect((await yards.ask('removeDemoYard', {})).state).toBe('absent');
  expect(readdirSync(yards.folder).filter((name) => name.includes('demo'))).toEqual([]);
});

test('after a restart the own yard is served, and the demo yard is still there', async () => {
  const yards = await openTestYards();
  await yards.ask('openDemoYard', {});
  await yards.close();
  const again = await openTestYards({ folder: yards.folder });
  expect((await again.ask('getDemoYard', {})).state).toBe('there');
  expect((await again.ask('listPeople', {})).people).toEqual([]);
});

test('what a power cut left of unpacking or removing is no demo yard, and is tidied away', async () => {
  const folder = temporaryFolder();
  for (const part of ['.demo-yard.part', '.demo-yard.going']) {
    mkdirSync(path.join(folder, part));
    writeFileSync(path.join(folder, part, 'records.db'), 'half');
  }
  // A folder without records is one that was never finished either.
  mkdirSync(path.join(folder, 'demo-yard'));
  const yards = await openTestYards({ folder });
  expect(readdirSync(folder).filter((name) => name.startsWith('.demo-yard'))).toEqual([]);
  expect((await yards.ask('getDemoYard', {})).state).toBe('absent');
  expect((await yards.ask('openDemoYard', {})).state).toBe('open');
});

test.each([
  ['cut short', (bytes: Buffer) => bytes.subarray(0, bytes.length - 1000)],
  ['with a byte changed', (bytes: Buffer) => Buffer.from(bytes).fill(0x55, bytes.length >> 1, (bytes.length >> 1) + 4)],
  ['with a head and no body', (bytes: Buffer) => bytes.subarray(0, bytes.indexOf(0x0a) + 1)],
])('a demo yard file %s is refused in one sentence, and the own yard goes on', async (_what, change) => {
  const demoYardFile = path.join(temporaryFolder(), 'damaged');
  writeFileSync(demoYardFile, change(readFileSync(FILE)));
  const yards = await openTestYards({ demoYardFile });
  await yards.ask('createPerson', { role: 'apprentice' });
  expect(await yards.refusal('openDemoYard', {})).toMatch(/^bad-file: The demo yard that comes with Kerfhand is damaged/);
  expect((await yards.ask('getDemoYard', {})).state).toBe('absent');
  expect((await yards.ask('listPeople', {})).people).toHaveLength(1);
  expect(readdirSync(yards.folder).filter((name) => name.includes('demo'))).toEqual([]);
});

test('records of an unpacked demo yard that are damaged get a sentence; the own yard is served, and it can be removed', async () => {
  const yards = await openTestYards();
  await yards.ask('openDemoYard', {});
  await yards.ask('leaveDemoYard', {});
  writeFileSync(path.join(yards.folder, 'demo-yard', 'records.db'), 'no database');
  expect(await yards.refusal('openDemoYard', {})).toMatch(/^damaged: The records file .*demo-yard/);
  await yards.ask('createPerson', { role: 'apprentice' });
  expect((await yards.ask('removeDemoYard', {})).state).toBe('absent');
  expect((await yards.ask('openDemoYard', {})).state).toBe('open');
});

test('an installation without it says so', async () => {
  const yards = await openTestYards({ demoYardFile: path.join(temporaryFolder(), 'nowhere') });
  expect(await yards.ask('getDemoYard', {})).toEqual({ state: 'missing', facts: null });
  expect(await yards.refusal('openDemoYard', {})).toBe('not-found: There is no demo yard in this installation of Kerfhand.');
});

test('the shipped file is of this core and these drills: `npm run demo-yard` makes it anew', async () => {
  const facts = await readDemoYardFacts(FILE);
  expect(facts?.coreVersion).toBe(CORE_VERSION);
  const yards = await openTestYards();
  await yards.ask('openDemoYard', {});
  await signInTo(yards, 'Instructor 01');
  expect(await yards.ask('checkLedger', {})).toMatchObject({ ok: true });

  const current = new Map((await yards.ask('listDrills', {})).drills.map((drill) => [drill.id, drill.hash]));
  const runs: Reply<'listRuns'>['runs'] = [];
  const total = facts?.runs ?? 0;
  while (runs.length < total) runs.push(...(await yards.ask('listRuns', { limit: 200, offset: runs.length })).runs);
  expect(runs.length).toBeGreaterThan(390);
  for (const run of runs) expect([run.drillId, run.drillHash]).toEqual([run.drillId, current.get(run.drillId)]);

  const finished = runs.filter((run) => run.state === 'finished');
  const passShare = finished.filter((run) => run.passed).length / finished.length;
  expect(passShare).toBeGreaterThan(0.3);
  expect(passShare).toBeLessThan(0.8);
  const guesses = await Promise.all(
    finished.slice(0, 40).map(async ({ id }) => (await yards.ask('getRun', { runId: id })).speedGuess),
  );
  expect(new Set(guesses).size, 'some said too slow, some right, some too fast, some nothing').toBeGreaterThan(2);
  // One of each technique at least, spread over the weeks.
  for (let nth = 0; nth < 8; nth++) {
    const run = finished[Math.floor(((nth + 0.5) / 8) * finished.length)];
    const file = await yards.ask('exportRun', { runId: run?.id ?? '' });
    expect(verifyRunFile(file.outcome === 'text' ? file.text : '').verdict, run?.drillId).toBe('same');
  }

  const { rows } = await yards.ask('listQueue', { state: 'decided', limit: 200 });
  expect(rows.length).toBeGreaterThan(15);
  const { verdicts } = await yards.ask('listVerdicts', { runId: rows[0]?.run.id ?? '' });
  expect(verdicts[0]).toMatchObject({ check: 'fits', trust: 'same' });
  expect((await yards.ask('listQueue', {})).total).toBeGreaterThan(5);
  expect((await yards.ask('listLedger', { kinds: ['overrule'] })).total).toBeGreaterThan(0);
  const { sets } = await yards.ask('listModerationSets', {});
  const compared = await Promise.all(
    sets.map(async (set) => (await yards.ask('getModerationSet', { setId: set.id })).comparison),
  );
  expect(compared.filter((one) => one !== null)).toHaveLength(1);

  // Nothing of it is meant to be secret, but nothing of it is real either.
  const { people } = await yards.ask('getClassView', { groupId: null });
  expect(people).toHaveLength(24);
  expect(people.filter((person) => person.stuck !== null).length).toBeGreaterThan(3);
});

test('where nothing can be kept there is no demo yard to unpack', async () => {
  const demo = demoYardFolder(null, FILE, '0.1.0');
  expect(await demo.facts(false)).toEqual({ state: 'missing', facts: null });
  await expect(demo.ensure()).rejects.toThrow('There is no demo yard in this installation of Kerfhand.');
});
