import { useCallback, useEffect, useRef, useState } from 'react';
import type { QueueRow } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';

export const QUEUE_STATES = ['waiting', 'decided', 'all'] as const;
export type QueueState = (typeof QUEUE_STATES)[number];

/** What an assessor looks for in the queue; null = any. */
export interface QueueFilter {
  state: QueueState;
  drillId: string | null;
  groupId: string | null;
  measureId: string | null;
}
export const WAITING: QueueFilter = { state: 'waiting', drillId: null, groupId: null, measureId: null };

export interface Queue {
  rows: readonly QueueRow[];
  total: number;
  loading: boolean;
  failure: string | null;
  /** Fetches the next of them; nothing where all are here, or on their way. */
  more(): void;
}

/** Rows fetched at a time. */
const PAGE_ROWS = 100;

/** Runs that were handed in, oldest first, a page at a time. */
export function useQueue(filter: QueueFilter): Queue {
  const [found, setFound] = useState<{ rows: QueueRow[]; total: number } | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const asked = useRef(0);
  const { state, drillId, groupId, measureId } = filter;

  const fetchFrom = useCallback(
    (offset: number) =>
      callHost('listQueue', {
        state,
        ...(drillId === null ? {} : { drillId }),
        ...(groupId === null ? {} : { groupId }),
        ...(measureId === null ? {} : { measureId }),
        limit: PAGE_ROWS,
        offset,
      }),
    [state, drillId, groupId, measureId],
  );

  useEffect(() => {
    let wanted = true;
    asked.current = 0;
    fetchFrom(0).then(
      (page) => {
        if (!wanted) return;
        setFound(page);
        setFailure(null);
      },
      (error: unknown) => wanted && setFailure(errorWords(error)),
    );
    return () => {
      wanted = false;
    };
  }, [fetchFrom]);

  const more = useCallback(() => {
    const from = found?.rows.length ?? 0;
    if (!found || from >= found.total || asked.current === from) return;
    asked.current = from;
    fetchFrom(from).then(
      (page) =>
        // Rows that come after the filters were changed belong to another queue.
        setFound((now) => (now === found ? { rows: [...now.rows, ...page.rows], total: page.total } : now)),
      (error: unknown) => {
        asked.current = 0;
        setFailure(errorWords(error));
      },
    );
  }, [found, fetchFrom]);

  return {
    rows: found?.rows ?? [],
    total: found?.total ?? 0,
    loading: found === null && failure === null,
    failure,
    more,
  };
}
