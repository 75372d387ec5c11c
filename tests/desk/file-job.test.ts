import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { FileJobBegun, PaperJob, WhoAmI } from '../../electron/contract.ts';
import { createFileJob } from '../../renderer/desk/file-job.ts';
import { useSignedIn } from '../../renderer/register/signed-in.ts';

const RUNNING: PaperJob = {
  id: 'job-1',
  kind: 'back-up',
  state: 'running',
  done: 1,
  total: 4,
  problem: null,
  statements: null,
  backup: null,
  check: null,
  taken: null,
  file: null,
};
const DONE: PaperJob = { ...RUNNING, state: 'done', done: 4, file: { fileName: 'yard.kerfhand-backup', fetch: false } };

/** What the host answers when it is asked about the job. */
let now: PaperJob;

function signIn(id: string): void {
  const person = { id, role: 'instructor' as const, number: 1, name: 'Instructor 01', createdAt: '' };
  useSignedIn.setState({ me: { rolesBind: true, person } as WhoAmI });
}

beforeEach(() => {
  now = RUNNING;
  vi.useFakeTimers();
  vi.stubGlobal('window', { kerfhand: { getJob: async () => ({ ok: true, reply: now }) } });
  signIn('first');
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  useSignedIn.setState(useSignedIn.getInitialState());
});

const started = async (): Promise<FileJobBegun> => ({ outcome: 'started', job: RUNNING });

test('a second press while a file is on its way begins nothing, and the file comes', async () => {
  const fileJob = createFileJob();
  const begin = vi.fn(started);
  const first = fileJob.make(begin);
  await fileJob.make(begin);
  await vi.advanceTimersByTimeAsync(1000);
  await fileJob.make(begin);
  expect(begin).toHaveBeenCalledTimes(1);
  expect(fileJob.useState.getState()).toMatchObject({ state: 'making', done: 1, total: 4 });
  now = DONE;
  await vi.advanceTimersByTimeAsync(1000);
  await first;
  expect(fileJob.useState.getState()).toMatchObject({ state: 'done', job: { id: 'job-1' } });
  void fileJob.make(begin);
  expect(begin).toHaveBeenCalledTimes(2);
});

test('whoever comes next is told nothing of the files of the one before, finished or on their way', async () => {
  const [finished, running] = [createFileJob(), createFileJob()];
  now = DONE;
  const over = finished.make(started);
  await vi.advanceTimersByTimeAsync(1000);
  await over;
  now = RUNNING;
  const left = running.make(started);
  await vi.advanceTimersByTimeAsync(1000);
  signIn('first');
  expect([finished.useState.getState().state, running.useState.getState().state]).toEqual(['done', 'making']);
  signIn('second');
  expect([finished.useState.getState().state, running.useState.getState().state]).toEqual(['none', 'none']);
  now = DONE;
  await vi.advanceTimersByTimeAsync(1000);
  await left;
  expect(running.useState.getState().state).toBe('none');
});
