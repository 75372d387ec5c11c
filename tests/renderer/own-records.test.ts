import { afterEach, expect, test, vi } from 'vitest';
import type { RunSummary } from '../../electron/contract.ts';
import { fetchOlderRuns, type OwnRuns } from '../../renderer/register/own-records.ts';

const runOf = (id: string) => ({ id, state: 'unfinished' }) as RunSummary;

afterEach(() => vi.unstubAllGlobals());

test('older runs are joined to the ones they go on from once, however often they were asked for', async () => {
  const listRuns = async ({ offset }: { offset: number }) => ({
    ok: true,
    reply: { runs: [runOf(`run-${offset}`), runOf(`run-${offset + 1}`)], total: 4 },
  });
  vi.stubGlobal('window', { kerfhand: { listRuns } });
  const known: OwnRuns = { runs: [runOf('run-0'), runOf('run-1')], runTotal: 3, mayHandIn: new Set() };
  const [once, twice] = [await fetchOlderRuns('person', known), await fetchOlderRuns('person', known)];
  const joined = twice(once(known));
  expect(joined.runs.map(({ id }) => id)).toEqual(['run-0', 'run-1', 'run-2', 'run-3']);
  expect(joined.runTotal).toBe(4);
  // The newest were fetched anew meanwhile.
  const anew = { ...known, runs: [runOf('run-new')] };
  expect(once(anew)).toBe(anew);
});
