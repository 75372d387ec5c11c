import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { RandomState } from '../../sim-core/math/random.ts';
import { type FaultHost, spawnHost, whenReady } from './fault-host.ts';
import { askToRestore, killMigrating, killRestoring } from './kill-at-start.ts';
import { type Ground, type KillCounts, killIn, nextStart, timedStart } from './kill-ground.ts';
import {
  type Acknowledged,
  backUpAgain,
  type Importable,
  importable,
  makeBackup,
  missing,
  nothingYet,
  practise,
  saveThings,
  signIn,
  takeIn,
} from './kill-yard.ts';

export const KILLED_WHILE = [
  'practising',
  'saving',
  'importing',
  'backing-up',
  'asking-to-restore',
  'restoring',
  'migrating',
] as const;
export type KilledWhile = (typeof KILLED_WHILE)[number];

/** In this order, again and again: what happens most in a yard is killed most. */
const TURNS: readonly KilledWhile[] = [
  ...(['practising', 'saving', 'migrating', 'importing', 'practising', 'backing-up'] as const),
  ...(['saving', 'asking-to-restore', 'practising', 'importing', 'restoring', 'practising'] as const),
];

/**
 * The kill comes so many acknowledgements after the work began, at most, and then a random part of the time that one takes: a
 * busy machine is killed in the same places as an idle one.
 */
const MOST_WRITES: Partial<Record<KilledWhile, number>> = { practising: 40, saving: 8, importing: 5, 'backing-up': 3 };
/** Kills of one yard before a new one is begun; then all that it ever acknowledged is looked for once more. */
const KILLS_A_YARD = 10;

/** Kills a real host at random moments and looks at what the next one finds. */
export async function killCampaign(kills: number, seed: number, untilMs: number): Promise<Record<KilledWhile, KillCounts>> {
  const counts = Object.fromEntries(
    KILLED_WHILE.map((one) => [one, { kills: 0, inTheMiddle: 0, acknowledged: 0, lost: [], corrupt: [] }]),
  ) as unknown as Record<KilledWhile, KillCounts>;
  const ground = await prepare({ counter: seed });
  try {
    const yards = new Map<KilledWhile, Yard>();
    for (let kill = 0; kill < kills && Date.now() < untilMs; kill++) {
      const what = TURNS[kill % TURNS.length] as KilledWhile;
      const count = counts[what];
      count.kills += 1;
      if (kill % 20 === 19) process.stderr.write(`${kill + 1} kills\n`);
      if (what === 'migrating') await killMigrating(ground, kill, count);
      else if (what === 'restoring' || what === 'asking-to-restore')
        await killRestoring(ground, kill, what === 'restoring', count);
      else {
        const yard = yards.get(what) ?? (await newYard(ground));
        yards.set(what, yard);
        await killWorking(ground, kill, what, yard, count);
        if (yard.kills.length < KILLS_A_YARD && yard.host) continue;
        await closeYard(yard, count);
        yards.delete(what);
      }
    }
    for (const [what, yard] of yards) await closeYard(yard, counts[what]);
  } finally {
    rmSync(ground.folder, { recursive: true, force: true });
  }
  return counts;
}

async function prepare(random: RandomState): Promise<Ground> {
  const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-faults-'));
  const passing = path.join(folder, 'passing');
  mkdirSync(passing);
  const later = path.join(folder, 'later');
  const timed = { passing, startMs: Number.POSITIVE_INFINITY };
  const host = await timedStart(later, timed);
  const files = await importable(host);
  const backup = await makeBackup(host);
  await host.ask('importRun', { text: files.run });
  await host.ask('createPerson', { role: 'assessor' });
  await host.kill();
  const waiting = path.join(folder, 'waiting');
  cpSync(later, waiting, { recursive: true });
  const asked = await timedStart(waiting, timed);
  await signIn(asked);
  await askToRestore(asked, backup);
  await asked.kill();
  return { ...timed, random, folder, files, later, backup, waiting };
}

/** A yard that is killed several times over; the start after a kill is the one that is killed next. */
interface Yard {
  folder: string;
  /** Null where it did not come up again. */
  host: FaultHost | null;
  kills: Acknowledged[];
}

async function newYard({ folder, passing }: Ground): Promise<Yard> {
  const own = mkdtempSync(path.join(folder, 'yard-'));
  return { folder: own, host: await whenReady(spawnHost(own, passing)), kills: [] };
}

/** Looks once more for all that was ever acknowledged; of the yard's name only the last counts. */
async function closeYard({ host, kills, folder }: Yard, count: KillCounts): Promise<void> {
  if (!host) return;
  for (const one of kills.slice(0, -1)) count.lost.push(...(await missing(host, { ...one, yardName: null })));
  await host.kill();
  rmSync(folder, { recursive: true });
}

function workOf(what: KilledWhile, host: FaultHost, acked: Acknowledged, kill: number, files: Importable): Promise<never> {
  if (what === 'practising') return practise(host, acked);
  if (what === 'saving') return saveThings(host, acked, kill);
  return what === 'importing' ? takeIn(host, acked, files) : backUpAgain(host, acked);
}

async function killWorking(ground: Ground, kill: number, what: KilledWhile, yard: Yard, count: KillCounts): Promise<void> {
  const { host } = yard;
  if (!host) return;
  const acked = nothingYet();
  if (what !== 'practising') await signIn(host);
  const working = workOf(what, host, acked, kill, ground.files);
  await killIn(host, ground, MOST_WRITES[what] ?? 0, () => acked.writes, working, count);
  yard.kills.push(acked);
  count.acknowledged += acked.writes;
  yard.host = await nextStart(yard.folder, ground, count);
  if (yard.host) count.lost.push(...(await missing(yard.host, acked)));
}
