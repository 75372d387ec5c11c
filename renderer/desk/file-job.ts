import { create, type StoreApi, type UseBoundStore } from 'zustand';
import type { FileJobBegun, PaperJob } from '../../electron/contract.ts';
import { fromBase64 } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { followJob } from '../app/follow-job.ts';
import { callHost } from '../app/host-client.ts';
import { onOtherPerson } from '../register/signed-in.ts';
import { inEnglish } from '../text/in-english.ts';

/** Work of the host's that ends in a file, as it stands. */
export interface FileJobState {
  /** 'making': by the host. 'fetching': its bytes come to the page, which offers them as a download. */
  state: 'none' | 'making' | 'fetching' | 'done' | 'stopped' | 'failed';
  job: PaperJob | null;
  /** So far and in all; both 0 before that is known. */
  done: number;
  total: number;
  problem: string | null;
}

export interface FileJob {
  useState: UseBoundStore<StoreApi<FileJobState>>;
  /**
   * Begins the work, follows it, and hands the file out. What goes wrong is told in the state. Nothing is begun while a file is on
   * its way already.
   */
  make(begin: () => Promise<FileJobBegun>): Promise<void>;
  /** Stops it wherever it is. */
  stop(): Promise<void>;
}

const NONE: FileJobState = { state: 'none', job: null, done: 0, total: 0, problem: null };

function offerBytes(fileName: string, pieces: readonly BlobPart[]): void {
  const address = URL.createObjectURL(new Blob([...pieces], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  URL.revokeObjectURL(address);
}

/**
 * One kind of file at a time. Made once for the whole page, it goes on while the room that began it is left, as long as the person
 * who asked for it is there.
 */
export function createFileJob(): FileJob {
  const store = create<FileJobState>(() => NONE);
  /** The work in hand; what an earlier one still brings is not wanted. */
  let inHand: symbol | null = null;

  /** Leaves the work in hand to itself. */
  function letGo(state: Partial<FileJobState>): void {
    inHand = null;
    store.setState(state);
  }

  onOtherPerson(() => letGo(NONE));

  /** The bytes of a file, piece by piece; null where they are not wanted any more. */
  async function fetchPieces(jobId: string, mine: symbol): Promise<BlobPart[] | null> {
    const pieces: BlobPart[] = [];
    for (let offset: number | null = 0; offset !== null; ) {
      const { piece, total, nextOffset }: { piece: string; total: number; nextOffset: number | null } = await callHost(
        'readJobFile',
        { jobId, offset },
      );
      if (inHand !== mine) return null;
      pieces.push(new Uint8Array(fromBase64(piece)));
      offset = nextOffset;
      store.setState({ done: nextOffset ?? total, total });
    }
    return pieces;
  }

  async function follow(started: PaperJob, mine: symbol): Promise<void> {
    const job = await followJob(started, (now) => {
      if (inHand === mine) store.setState({ state: 'making', job: now, done: now.done, total: now.total });
    });
    if (inHand !== mine) return;
    if (job.state === 'failed' || job.state === 'stopped') {
      store.setState({ state: job.state, job, problem: job.problem === null ? null : inEnglish(job.problem) });
      return;
    }
    if (job.file?.fetch) {
      store.setState({ state: 'fetching', job, done: 0, total: 0 });
      const pieces = await fetchPieces(job.id, mine);
      if (pieces === null) return;
      offerBytes(job.file.fileName, pieces);
    }
    store.setState({ state: 'done', job });
  }

  return {
    useState: store,
    async make(begin) {
      if (inHand !== null) return;
      const mine = Symbol();
      inHand = mine;
      store.setState(NONE);
      try {
        const begun = await begin();
        if (begun.outcome === 'started') await follow(begun.job, mine);
      } catch (error) {
        if (inHand === mine) store.setState({ state: 'failed', problem: errorWords(error) });
      } finally {
        if (inHand === mine) inHand = null;
      }
    },
    async stop() {
      const { state, job } = store.getState();
      if (state === 'fetching') letGo({ state: 'stopped', problem: null });
      if (state === 'making' && job) await callHost('stopJob', { jobId: job.id });
    },
  };
}

export function isUnderWay(standing: FileJobState): standing is FileJobState & { state: 'making' | 'fetching' } {
  const { state } = standing;
  return state === 'making' || state === 'fetching';
}
