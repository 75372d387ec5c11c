// npm run demo-yard: makes the demo yard anew, by synthetic hands through the real core and the host's own calls.
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { DatabaseSync } from 'node:sqlite';
import { DEFAULT_PRICES } from '../../electron/contract/price-settings.ts';
import { packDemoYard } from '../../electron/host/demo-yard-file.ts';
import { type Host, openHost } from '../../electron/host/host.ts';
import { RECORDS_FILE } from '../../electron/host/open-records.ts';
import { DEMO_YARD_FILE } from '../../electron/host/open-yards.ts';
import { backUpYard } from '../../electron/host/papers/back-up-yard.ts';
import { CORE_VERSION } from '../../sim-core/index.ts';
import { apprentices } from './apprentices.ts';
import { type DemoClock, startDemoClock } from './demo-clock.ts';
import { LAST_DAY_MS, plannedWeeks, type Yard } from './live-weeks.ts';
import { practiseAll } from './practise-all.ts';
import { dayMs, FIRST_MONDAY_MS, GROUPS, WEEKS } from './weeks.ts';
import { liveThrough, type Someone, someone } from './yard-day.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');
const SCENARIOS = path.join(ROOT, 'scenarios');
const APP_VERSION = (JSON.parse(await readFile(path.join(ROOT, 'package.json'), 'utf8')) as { version: string }).version;
const INSTRUCTORS = [1, 2];
const ASSESSORS = [1, 2];
const passphraseOf = (role: string) => `slipway-demo-${role}`;

async function makeYard(host: Host, clock: DemoClock): Promise<Yard> {
  const first = someone(host);
  const { person } = await first.ask('makeFirstInstructor', { passphrase: passphraseOf('instructor') });
  first.id = person?.id ?? '';
  await first.ask('setSettings', { yardName: 'Tidewater Row slipway yard', prices: { ...DEFAULT_PRICES, currency: '€' } });
  const instructors: Someone[] = [first];
  const add = async (role: 'instructor' | 'assessor') => {
    const { id } = await first.ask('createPerson', { role });
    await first.ask('setPassphrase', { personId: id, passphrase: passphraseOf(role) });
    const who = someone(host);
    await who.ask('signIn', { personId: id, passphrase: passphraseOf(role) });
    return { ...who, id };
  };
  for (const _ of INSTRUCTORS.slice(1)) instructors.push(await add('instructor'));
  const assessors: Yard['assessors'][number][] = [];
  for (const _ of ASSESSORS) assessors.push({ who: await add('assessor'), passphrase: passphraseOf('assessor') });
  const rows = apprentices().map(({ number, group }) => `apprentice,${number},${GROUPS[group]?.name}`);
  await first.ask('importRoster', { text: ['role,number,groups', ...rows].join('\n') });
  const { people } = await first.ask('listPeople', {});
  const learners = new Map<number, Someone>();
  for (const { id, role, number } of people) {
    if (role !== 'apprentice') continue;
    const who = someone(host);
    await who.ask('signIn', { personId: id });
    learners.set(number, { ...who, id });
  }
  const { groups } = await first.ask('listGroups', {});
  const groupIds = GROUPS.map(({ name }) => groups.find((group) => group.name === name)?.id ?? '');
  return { clock, instructors, assessors, apprentices: learners, groupIds };
}

/** What was deleted on the way is not carried along. */
function tidy(records: string): void {
  const database = new DatabaseSync(records);
  database.exec('vacuum; pragma wal_checkpoint(truncate)');
  database.close();
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

const began = performance.now();
// Thousands of commits wait for the disk each; where the system has a folder in memory they need not.
const IN_MEMORY = '/dev/shm';
const folder = await mkdtemp(path.join(existsSync(IN_MEMORY) ? IN_MEMORY : tmpdir(), 'kerfhand-demo-yard-'));
try {
  const people = apprentices();
  const runs = await practiseAll(people, (count) => {
    if (count % 50 === 0) say(`${count} runs are cut, ${Math.round((performance.now() - began) / 1000)} s`);
  });
  say(`${runs.length} runs are cut; they are taken into the records`);
  const clock = startDemoClock(FIRST_MONDAY_MS);
  const records = path.join(folder, 'records');
  // Hours lie between two things that happen; whoever is signed in stays so.
  const timeOfDayMs = () => FIRST_MONDAY_MS;
  const host = await openHost({
    timeOfDayMs,
    folder: records,
    scenariosFolder: SCENARIOS,
    shell: 'loopback',
    appVersion: APP_VERSION,
    log: say,
  });
  try {
    const yard = await makeYard(host, clock);
    await liveThrough(clock, plannedWeeks(yard, runs), (done, left) => {
      if (done % 100 === 0) say(`${done} things have happened, ${left} are to come`);
    });
    const ledger = await yard.instructors[0]?.ask('checkLedger', {});
    if (!ledger?.ok) throw new Error(ledger?.sentence);
  } finally {
    await host.close();
  }
  tidy(path.join(records, RECORDS_FILE));
  const backup = path.join(folder, 'backup');
  const head = await backUpYard({ folder: records, to: backup, appVersion: APP_VERSION, madeAt: new Date(LAST_DAY_MS) });
  const facts = {
    coreVersion: CORE_VERSION,
    apprentices: people.length,
    groups: GROUPS.length,
    assessors: ASSESSORS.length,
    instructors: INSTRUCTORS.length,
    runs: head.runs,
    weeks: WEEKS.length,
    firstDay: new Date(FIRST_MONDAY_MS).toISOString(),
    lastDay: new Date(dayMs(WEEKS.length, 4)).toISOString(),
    entries: [
      { name: 'Instructor 01', passphrase: passphraseOf('instructor') },
      { name: 'Assessor 01', passphrase: passphraseOf('assessor') },
    ],
  };
  const plain = await readFile(backup);
  const packed = await packDemoYard(facts, plain);
  const file = path.join(SCENARIOS, DEMO_YARD_FILE);
  await mkdir(path.dirname(file), { recursive: true });
  await writeFile(file, packed);
  const mb = (bytes: number) => (bytes / 1024 / 1024).toFixed(1);
  say(`${file}: ${head.people} people, ${head.runs} runs, ${mb(packed.length)} MiB (unpacked ${mb(plain.length)} MiB)`);
  say(`made in ${Math.round((performance.now() - began) / 1000)} s`);
} finally {
  await rm(folder, { recursive: true, force: true });
}
