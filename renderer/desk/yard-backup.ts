import { create } from 'zustand';
import type { PaperJob } from '../../electron/contract.ts';
import { fromBase64 } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';

const ASK_EVERY_MS = 400;

/** A backup that is being made, as it stands; it goes on while its room is left. */
export interface YardBackup {
  /** 'making': by the host. 'fetching': its bytes come to the page, which offers them as a download. */
  state: 'none' | 'making' | 'fetching' | 'done' | 'stopped' | 'failed';
  job: PaperJob | null;
  /** Bytes so far and in all; both 0 before that is known. */
  done: number;
  total: number;
  problem: string | null;
}

const NONE: YardBackup = { state: 'none', job: null, done: 0, total: 0, problem: null };

export const useYardBackup = create<YardBackup>(() => NONE);

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

function offerBytes(fileName: string, pieces: readonly BlobPart[]): void {
  const address = URL.createObjectURL(new Blob([...pieces], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  URL.revokeObjectURL(address);
}

/** True as long as nobody has stopped the fetching. */
const isFetching = (): boolean => useYardBackup.getState().state === 'fetching';

async function fetchFile(job: PaperJob, fileName: string): Promise<void> {
  useYardBackup.setState({ state: 'fetching', job, done: 0, total: job.backup?.bytes ?? 0 });
  const pieces: BlobPart[] = [];
  for (let offset: number | null = 0; offset !== null; ) {
    const { piece, total, nextOffset }: { piece: string; total: number; nextOffset: number | null } = await callHost(
      'readJobFile',
      { jobId: job.id, offset },
    );
    if (!isFetching()) return;
    pieces.push(new Uint8Array(fromBase64(piece)));
    offset = nextOffset;
    useYardBackup.setState({ done: nextOffset ?? total, total });
  }
  offerBytes(fileName, pieces);
  useYardBackup.setState({ state: 'done' });
}

async function follow(started: PaperJob): Promise<void> {
  let job = started;
  while (job.state === 'running') {
    useYardBackup.setState({ state: 'making', job, done: job.done, total: job.total });
    await pause(ASK_EVERY_MS);
    job = await callHost('getJob', { jobId: job.id });
  }
  if (job.state !== 'done') useYardBackup.setState({ state: job.state, job, problem: job.problem });
  else if (job.file?.fetch) await fetchFile(job, job.file.fileName);
  else useYardBackup.setState({ state: 'done', job });
}

/** Makes a backup and hands it out; what goes wrong is told in the state. */
export async function makeBackup(): Promise<void> {
  useYardBackup.setState(NONE);
  try {
    const begun = await callHost('backUp', {});
    if (begun.outcome === 'started') await follow(begun.job);
  } catch (error) {
    useYardBackup.setState({ state: 'failed', problem: error instanceof Error ? error.message : String(error) });
  }
}

/** Stops it wherever it is. */
export async function stopBackup(): Promise<void> {
  const { state, job } = useYardBackup.getState();
  if (state === 'fetching') useYardBackup.setState({ state: 'stopped', problem: null });
  if (state === 'making' && job) await callHost('stopJob', { jobId: job.id });
}
