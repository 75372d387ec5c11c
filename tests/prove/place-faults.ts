import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { nextInteger, type RandomState } from '../../sim-core/math/random.ts';
import { sampleBegin, sampleChunk } from '../host/sample-hand.ts';
import { type FaultHost, spawnHost, whenReady } from './fault-host.ts';
import { rowsIn } from './kill-ground.ts';
import { makeBackup, missing, nothingYet, signIn } from './kill-yard.ts';
import { problemsOf } from './whole-records.ts';

/** What came of one kind of fault of the place that records are kept in, or of the machine. */
export interface PlaceFault {
  times: number;
  acknowledged: number;
  lost: string[];
  corrupt: string[];
  /** What a person was told, each sentence once, without the names of folders. */
  sentences: string[];
}

type Place = { root: string; passing: string; random: RandomState };

const OLD_FILE = new URL('../host/old-files/records-version-8.db', import.meta.url);
const DISK = 'size=3m';
const SET_BACK_DAYS = 40;
/** A clock that was set back, as the program reads it. */
const SET_BACK = `--import=data:text/javascript,${encodeURIComponent(
  `const Real = Date; globalThis.Date = class extends Real { constructor(...given) { given.length ? super(...given) : super(Real.now() - ${SET_BACK_DAYS * 86_400_000}); } static now() { return Real.now() - ${SET_BACK_DAYS * 86_400_000}; } };`,
)}`;

/** Every fault of place and machine, one after another. Null where file systems may not be mounted here: what needs one is left out. */
export async function placeFaults(rounds: number, random: RandomState): Promise<Record<string, PlaceFault | null>> {
  const root = mkdtempSync(path.join(tmpdir(), 'kerfhand-places-'));
  const passing = path.join(root, 'passing');
  mkdirSync(passing);
  const place = { root, passing, random };
  try {
    const mounts = mayMount(root);
    return {
      'disk full while practising': mounts ? await diskFullPractising(place, rounds) : null,
      'disk full while backing up': mounts ? await diskFullBackingUp(place) : null,
      'disk full while migrating': mounts ? await diskFullMigrating(place) : null,
      'read-only folder': mounts ? await readOnlyFolder(place) : null,
      'second instance': await secondInstance(place),
      'host suspended': await suspendedHost(place, rounds),
      'clock set back': await clockSetBack(place),
    };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

function noFault(): PlaceFault {
  return { times: 0, acknowledged: 0, lost: [], corrupt: [], sentences: [] };
}

function tell(fault: PlaceFault, sentence: string, { root }: Place): void {
  const words = sentence
    .replaceAll(new RegExp(`${root}\\S*?(?=[\\s;,.]*(\\s|$))`, 'g'), 'FOLDER')
    .replace(/process \d+/, 'process N');
  if (!fault.sentences.includes(words)) fault.sentences.push(words);
}

function mayMount(root: string): boolean {
  try {
    unmount(mount(path.join(root, 'probe')));
    return true;
  } catch {
    return false;
  }
}

function mount(folder: string): string {
  mkdirSync(folder, { recursive: true });
  execFileSync('mount', ['-t', 'tmpfs', '-o', DISK, 'tmpfs', folder], { stdio: 'ignore' });
  return folder;
}

function unmount(folder: string): void {
  execFileSync('umount', ['-l', folder]);
}

/** Takes what room there is but for `spareBytes`, to the last page. */
function fillDisk(file: string, spareBytes = 0): void {
  writeFileSync(file, '');
  for (const size of [65_536, 4096]) {
    for (let full = false; !full; ) {
      try {
        writeFileSync(file, Buffer.alloc(size), { flag: 'a' });
      } catch {
        full = true;
      }
    }
  }
  if (spareBytes > 0) execFileSync('truncate', ['-s', String(statSync(file).size - spareBytes), file]);
}

/** The next host must come up, whole, with all that was acknowledged. */
async function lookAgain(folder: string, place: Place, fault: PlaceFault, acked = nothingYet()): Promise<void> {
  const next = await whenReady(spawnHost(folder, place.passing));
  fault.corrupt.push(...problemsOf(folder, place.passing));
  fault.lost.push(...(await missing(next, acked)));
  await next.kill();
}

async function diskFullPractising(place: Place, rounds: number): Promise<PlaceFault> {
  const fault = noFault();
  const folder = mount(path.join(place.root, 'full'));
  const ballast = path.join(folder, 'ballast');
  try {
    const acked = nothingYet();
    const host = await whenReady(spawnHost(folder, place.passing));
    for (let round = 0; round < rounds; round++) {
      const { runId } = await host.ask('beginRun', sampleBegin());
      const run = { ticks: 0, finished: false };
      const fullAt = 1 + (nextInteger(place.random) % 12);
      let refused = false;
      for (let sequence = 0; sequence < 400 && !refused; sequence++) {
        if (sequence === fullAt) fillDisk(ballast);
        const answer = await host.call('appendToRun', sampleChunk(runId, sequence));
        if (!answer.ok) {
          refused = true;
          tell(fault, `${answer.error.code}: ${answer.error.message}`, place);
          rmSync(ballast, { force: true });
          // The very chunk that was refused is taken now.
          run.ticks = (await host.ask('appendToRun', sampleChunk(runId, sequence))).tickCount;
        } else run.ticks = answer.reply.tickCount;
        acked.runs.set(runId, run);
        fault.acknowledged += 1;
      }
      rmSync(ballast, { force: true });
      if (refused) fault.times += 1;
    }
    await host.kill();
    await lookAgain(folder, place, fault, acked);
  } finally {
    unmount(folder);
  }
  return fault;
}

async function diskFullBackingUp(place: Place): Promise<PlaceFault> {
  const fault = noFault();
  const folder = mount(path.join(place.root, 'full-backup'));
  const ballast = path.join(folder, 'ballast');
  try {
    const acked = nothingYet();
    const host = await whenReady(spawnHost(folder, place.passing));
    await signIn(host);
    acked.people.add((await host.ask('createPerson', { role: 'apprentice' })).id);
    for (const spareBytes of [16_384, 262_144, 524_288]) {
      fillDisk(ballast, spareBytes);
      const failed = await makeBackup(host).then(
        () => null,
        (error: Error) => error.message,
      );
      rmSync(ballast);
      if (failed === null) continue;
      fault.times += 1;
      tell(fault, failed, place);
    }
    if ((await makeBackup(host)).length === 0) fault.corrupt.push('an empty backup');
    acked.people.add((await host.ask('createPerson', { role: 'apprentice' })).id);
    fault.acknowledged += 3;
    await host.kill();
    await lookAgain(folder, place, fault, acked);
  } finally {
    unmount(folder);
  }
  return fault;
}

async function diskFullMigrating(place: Place): Promise<PlaceFault> {
  const fault = noFault();
  const folder = mount(path.join(place.root, 'full-migration'));
  const records = path.join(folder, 'records.db');
  const ballast = path.join(folder, 'ballast');
  try {
    for (const spareBytes of [8192, 40_960, 81_920, 131_072]) {
      for (const name of readdirSync(folder)) rmSync(path.join(folder, name));
      cpSync(OLD_FILE, records);
      cpSync(new URL('records-version-8.ledger-tail', OLD_FILE), path.join(folder, 'records.ledger-tail'));
      const before = rowsIn(records);
      fillDisk(ballast, spareBytes);
      const came = await whenReady(spawnHost(folder, place.passing)).then(
        (host) => host,
        (error: Error) => error.message,
      );
      if (typeof came === 'string') tell(fault, came, place);
      else {
        for (const { message } of (await came.ask('getSession', {})).notices) tell(fault, message, place);
        await came.kill();
      }
      rmSync(ballast);
      // A copy that practice went on in is nothing that is kept.
      for (const name of readdirSync(place.passing)) rmSync(path.join(place.passing, name), { recursive: true });
      await lookAgain(folder, place, fault);
      const after = new Set(rowsIn(records));
      fault.lost.push(...before.filter((row) => !after.has(row)));
      fault.times += 1;
      fault.acknowledged += before.length;
    }
  } finally {
    unmount(folder);
  }
  return fault;
}

async function practiseOnce(host: FaultHost, acked = nothingYet()): Promise<typeof acked> {
  const { runId } = await host.ask('beginRun', sampleBegin());
  const { tickCount } = await host.ask('appendToRun', sampleChunk(runId, 0));
  acked.runs.set(runId, { ticks: tickCount, finished: false });
  return acked;
}

async function readOnlyFolder(place: Place): Promise<PlaceFault> {
  const fault = noFault();
  const folder = mount(path.join(place.root, 'read-only'));
  try {
    const first = await whenReady(spawnHost(folder, place.passing));
    const acked = await practiseOnce(first);
    await first.kill();
    execFileSync('mount', ['-o', 'remount,ro', folder]);
    const reader = await whenReady(spawnHost(folder, place.passing));
    fault.lost.push(...(await missing(reader, acked)));
    const { keepsRecords, notices } = await reader.ask('getSession', {});
    if (keepsRecords) fault.corrupt.push('it says that records are kept');
    for (const { code, message } of notices) if (code === 'records-not-kept') tell(fault, message, place);
    await practiseOnce(reader);
    reader.child.kill('SIGTERM');
    await new Promise((resolve) => reader.child.once('exit', resolve));
    execFileSync('mount', ['-o', 'remount,rw', folder]);
    await lookAgain(folder, place, fault, acked);
    return { ...fault, times: 1, acknowledged: 1 };
  } finally {
    unmount(folder);
  }
}

async function secondInstance(place: Place): Promise<PlaceFault> {
  const fault = noFault();
  const folder = path.join(place.root, 'second');
  const owner = await whenReady(spawnHost(folder, place.passing));
  const acked = await practiseOnce(owner);
  const second = await whenReady(spawnHost(folder, place.passing)).then(
    () => null,
    (error: Error) => error.message,
  );
  if (second === null) fault.corrupt.push('two hosts have the folder open');
  else tell(fault, second, place);
  await practiseOnce(owner, acked);
  await owner.kill();
  await lookAgain(folder, place, fault, acked);
  return { ...fault, times: 1, acknowledged: 2 };
}

/** Stopped in mid-run for longer than a run may be silent, and woken again: the chunk that waited is taken, the run goes on. */
async function suspendedHost(place: Place, rounds: number): Promise<PlaceFault> {
  const fault = noFault();
  const folder = path.join(place.root, 'suspended');
  const host = await whenReady(spawnHost(folder, place.passing));
  const acked = nothingYet();
  const { runId } = await host.ask('beginRun', sampleBegin());
  for (let sequence = 0; sequence < rounds; sequence++) {
    host.child.kill('SIGSTOP');
    const sent = host.ask('appendToRun', sampleChunk(runId, sequence));
    await wait(sequence === 0 ? 12_000 : 200 + (nextInteger(place.random) % 800));
    host.child.kill('SIGCONT');
    acked.runs.set(runId, { ticks: (await sent).tickCount, finished: false });
    fault.times += 1;
    fault.acknowledged += 1;
  }
  await host.kill();
  await lookAgain(folder, place, fault, acked);
  return fault;
}

async function clockSetBack(place: Place): Promise<PlaceFault> {
  const fault = noFault();
  const folder = path.join(place.root, 'clock');
  const acked = nothingYet();
  const before = await whenReady(spawnHost(folder, place.passing));
  await signIn(before);
  acked.people.add((await before.ask('createPerson', { role: 'apprentice' })).id);
  await before.kill();
  const after = await whenReady(spawnHost(folder, place.passing, [SET_BACK]));
  const clock = (await after.ask('getSession', {})).notices.find(({ code }) => code === 'clock-behind');
  if (clock) tell(fault, clock.message.replaceAll(/\d{4}-\d\d-\d\d \d\d:\d\d/g, 'TIME'), place);
  else fault.corrupt.push('nothing says that the clock is behind');
  await signIn(after);
  const later = await after.ask('createPerson', { role: 'assessor' });
  acked.people.add(later.id);
  await practiseOnce(after, acked);
  const { entries } = await after.ask('listLedger', {});
  if (entries[0]?.subject !== later.id) fault.corrupt.push('the last entry is not the last that was done');
  if (!(await after.ask('checkLedger', {})).ok) fault.corrupt.push('the ledger no longer fits');
  await after.kill();
  await lookAgain(folder, place, fault, acked);
  return { ...fault, times: 1, acknowledged: 3 };
}
