import { watch } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { setTimeout as wait } from 'node:timers/promises';
import { nextInteger, nextUnit, type RandomState } from '../../sim-core/math/random.ts';
import { ended, type FaultHost, HostGone, spawnHost, whenReady } from './fault-host.ts';
import type { Importable } from './kill-yard.ts';
import { problemsOf } from './whole-records.ts';

const LOOK_MS = 1;
/** Kills of a starting host fall anywhere in its start, or within this share of it after the first sign of what it does. */
const AFTER_SIGN = 0.15;

export interface KillCounts {
  kills: number;
  /** Kills that came while a call was waiting for its answer, or while the host was still starting. */
  inTheMiddle: number;
  /** Writes that were acknowledged, each of them looked for at the next start. */
  acknowledged: number;
  lost: string[];
  corrupt: string[];
}

export interface Ground {
  random: RandomState;
  /** Everything of the campaign, removed at its end. */
  folder: string;
  passing: string;
  /** The quickest start so far, ms: the first one of all is cold, and a moment measured by it would come when the work is over. */
  startMs: number;
  files: Importable;
  /** A yard, a backup of its earlier state, and the same yard with that backup waiting to be restored. */
  later: string;
  backup: Buffer;
  waiting: string;
}

/** Waits for a random number of acknowledgements and then for a random part of the time that one of them took. */
async function randomMoment(random: RandomState, most: number, acknowledged: () => number, end: Promise<unknown>): Promise<void> {
  const writes = nextInteger(random) % (most + 1);
  const beganMs = performance.now();
  let over = false;
  void end.then(() => {
    over = true;
  });
  while (acknowledged() < Math.max(1, writes) && !over) await wait(LOOK_MS);
  const oneMs = (performance.now() - beganMs) / Math.max(1, writes);
  await Promise.race([wait(nextUnit(random) * oneMs), end]);
}

/** Lets the work run and kills the host under it. A work that ends in any other way than by the kill is a fault. */
export async function killIn(
  host: FaultHost,
  ground: Ground,
  most: number,
  acknowledged: () => number,
  working: Promise<unknown>,
  count: KillCounts,
): Promise<void> {
  const end = working.then(
    () => null,
    (error: unknown) => error,
  );
  await randomMoment(ground.random, most, acknowledged, end);
  await host.kill();
  const error = await end;
  if (error instanceof HostGone) count.inTheMiddle += 1;
  else if (error !== null) throw error;
}

/** Starts the host and notes how long that took where it was never quicker. */
export async function timedStart(folder: string, ground: Pick<Ground, 'passing' | 'startMs'>): Promise<FaultHost> {
  const beganMs = performance.now();
  const host = await whenReady(spawnHost(folder, ground.passing));
  ground.startMs = Math.min(ground.startMs, performance.now() - beganMs);
  return host;
}

/** Starts the host again; where it does not come up, that is what is corrupt. */
export async function nextStart(folder: string, ground: Ground, count: KillCounts): Promise<FaultHost | null> {
  const { passing } = ground;
  try {
    const host = await timedStart(folder, ground);
    count.corrupt.push(...problemsOf(folder, passing));
    return host;
  } catch (error) {
    count.corrupt.push(error instanceof Error ? error.message : String(error));
    return null;
  }
}

/** Kills a host while it starts: half of the times at any moment, half of them shortly after a file tells that it has begun. */
export async function killStarting(folder: string, ground: Ground, sign: RegExp, count: KillCounts): Promise<void> {
  const seen = Promise.withResolvers<void>();
  const watching = watch(folder, (_event, name) => {
    if (name !== null && sign.test(name)) seen.resolve();
  });
  const child = spawnHost(folder, ground.passing);
  const ready = whenReady(child).then(
    () => true,
    () => false,
  );
  const targeted = nextInteger(ground.random) % 2 === 0;
  const afterMs = nextUnit(ground.random) * ground.startMs * (targeted ? AFTER_SIGN : 1);
  if (targeted) await Promise.race([seen.promise, ready]);
  await Promise.race([wait(afterMs), ready]);
  child.kill('SIGKILL');
  await ended(child);
  watching.close();
  if (!(await ready)) count.inTheMiddle += 1;
}

/** People and runs of a records file, one line each. */
export function rowsIn(file: string): string[] {
  const database = new DatabaseSync(file, { readOnly: true });
  try {
    const people = database.prepare('select id, role, number from people').all();
    const runs = database.prepare('select id, person_id, tick_count, score from runs').all();
    return [...people, ...runs].map((row) => JSON.stringify(row));
  } finally {
    database.close();
  }
}
