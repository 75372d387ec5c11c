import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Request, Verb } from '../../electron/contract.ts';
import { openHost } from '../../electron/host/host.ts';
import { asking } from '../host/asking.ts';
import { fillYard } from '../host/fill-yard.ts';
import { type Spread, spreadOf, threadMs } from './statistics.ts';

const PEOPLE = 200;
const RUNS = 10_000;
const TIMES = 20;
const PASSPHRASE = 'slipway at low water';

/** A query of the host, and its processor time, ms. */
export interface QueryCost {
  name: string;
  ms: Spread;
}

export interface LargeYard {
  people: number;
  runs: number;
  /** Dearest first. */
  queries: QueryCost[];
}

/** What lists and views cost the host in a large yard, a term of 10,000 runs of 200 people. */
export async function largeYard(): Promise<LargeYard> {
  const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-bench-'));
  const scenariosFolder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
  const open = () => openHost({ folder, scenariosFolder, shell: 'loopback', appVersion: '0.1.0' });
  try {
    const first = await open();
    const asFirst = asking(first);
    const { person } = await asFirst('makeFirstInstructor', { passphrase: PASSPHRASE });
    const { drills } = await asFirst('listDrills', {});
    const apprentice = await asFirst('createPerson', { role: 'apprentice' });
    // Assigning keeps a version of each drill, for the runs to refer to.
    const drillIds = drills.map(({ id }) => id).slice(0, 25);
    await asFirst('assign', { title: 'All', drillIds, personIds: [apprentice.id] });
    await first.close();
    fillYard(folder, { people: PEOPLE, runs: RUNS });
    const host = await open();
    const ask = asking(host);
    await ask('signIn', { personId: person?.id ?? '', passphrase: PASSPHRASE });
    const { groups } = await ask('listGroups', {});
    const groupId = groups[3]?.id ?? null;
    const queries: QueryCost[] = [];
    const measure = async <V extends Verb>(name: string, verb: V, request: Request<V>): Promise<void> => {
      const ms: number[] = [];
      for (let time = 0; time < TIMES; time++) {
        const before = threadMs();
        await ask(verb, request);
        ms.push(threadMs() - before);
      }
      queries.push({ name, ms: spreadOf(ms) });
    };
    await measure('class view of all', 'getClassView', { groupId: null });
    await measure('class view of a group', 'getClassView', { groupId });
    await measure('queue', 'listQueue', { state: 'all' });
    await measure('standings of all', 'listStandings', { personId: null });
    await measure('runs, first page', 'listRuns', {});
    await measure('runs, last page', 'listRuns', { offset: RUNS - 50 });
    await measure('people', 'listPeople', {});
    await measure('audit trail', 'listLedger', {});
    await host.close();
    queries.sort((one, other) => other.ms.median - one.ms.median);
    return { people: PEOPLE, runs: RUNS, queries };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
