import { useCallback, useEffect, useRef, useState } from 'react';
import type { LedgerEntry, LedgerKind } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';

/** What of the record is shown; null = all. */
export interface RecordFilter {
  kind: LedgerKind | null;
  /** A person's id, or NOBODY for what was done with nobody signed in. */
  who: string | null;
}

export const NOBODY = 'nobody';
export const ALL_OF_IT: RecordFilter = { kind: null, who: null };

const PAGE_ENTRIES = 200;
const MOST_AT_ONCE = 500;

export interface RecordPages {
  /** Newest first. Null until the host has answered. */
  entries: readonly LedgerEntry[] | null;
  total: number;
  /** Fetches the next ones, if there are any. */
  more(): void;
  /** Fetches all that are left. */
  all(): Promise<void>;
  /** From the newest again. */
  again(): Promise<void>;
}

const fetchPage = ({ kind, who }: RecordFilter, before: number | undefined, limit: number) =>
  callHost('listLedger', {
    ...(kind === null ? {} : { kinds: [kind] }),
    ...(who === null ? {} : { who: who === NOBODY ? null : who }),
    ...(before === undefined ? {} : { before }),
    limit,
  });

/** The record, as far as it was asked for. */
export function useRecord(filter: RecordFilter): RecordPages {
  const [entries, setEntries] = useState<readonly LedgerEntry[] | null>(null);
  const [total, setTotal] = useState(0);
  /** Of the pages that are on their way, only those for this filter count. */
  const asked = useRef({ number: 0, isBusy: false });

  const again = useCallback(async () => {
    const number = ++asked.current.number;
    asked.current.isBusy = true;
    const page = await fetchPage(filter, undefined, PAGE_ENTRIES);
    if (asked.current.number !== number) return;
    asked.current.isBusy = false;
    setEntries(page.entries);
    setTotal(page.total);
  }, [filter]);

  const next = useCallback(
    async (known: readonly LedgerEntry[], limit: number): Promise<readonly LedgerEntry[]> => {
      const { number } = asked.current;
      const page = await fetchPage(filter, known.at(-1)?.seq, limit);
      if (asked.current.number !== number) return known;
      const joined = [...known, ...page.entries];
      setEntries(joined);
      setTotal(page.total);
      return joined;
    },
    [filter],
  );

  const more = useCallback(() => {
    if (entries === null || entries.length >= total || asked.current.isBusy) return;
    const mine = asked.current;
    mine.isBusy = true;
    next(entries, PAGE_ENTRIES)
      .catch(tellTrouble)
      .finally(() => {
        mine.isBusy = false;
      });
  }, [entries, total, next]);

  const all = useCallback(async () => {
    let known = entries ?? [];
    while (known.length < total) {
      const joined = await next(known, MOST_AT_ONCE);
      if (joined.length === known.length) break;
      known = joined;
    }
  }, [entries, total, next]);

  useEffect(() => {
    setEntries(null);
    again().catch(tellTrouble);
  }, [again]);
  return { entries, total, more, all, again };
}

/** Which entries were corrected, and by which later ones. */
export function useCorrections(): { of: ReadonlyMap<number, number[]>; again(): Promise<void> } {
  const [of, setOf] = useState<ReadonlyMap<number, number[]>>(new Map());
  const again = useCallback(async () => {
    const { entries } = await callHost('listLedger', { kinds: ['correction'], limit: MOST_AT_ONCE });
    const found = new Map<number, number[]>();
    for (const { seq, body } of entries) {
      if (typeof body.corrects === 'number') found.set(body.corrects, [...(found.get(body.corrects) ?? []), seq]);
    }
    setOf(found);
  }, []);
  useEffect(() => {
    again().catch(tellTrouble);
  }, [again]);
  return { of, again };
}
