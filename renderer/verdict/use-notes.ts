import { useCallback, useEffect, useState } from 'react';
import type { Note } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';

export interface Notes {
  notes: readonly Note[];
  add(tick: number, text: string): Promise<void>;
}

/** Notes on a run, in its order; none are asked for where `runId` is null. */
export function useNotes(runId: string | null): Notes {
  const [notes, setNotes] = useState<readonly Note[]>([]);
  useEffect(() => {
    if (runId === null) return;
    let wanted = true;
    callHost('listNotes', { runId }).then((reply) => wanted && setNotes(reply.notes), tellTrouble);
    return () => {
      wanted = false;
    };
  }, [runId]);
  const add = useCallback(
    async (tick: number, text: string) => {
      if (runId === null) return;
      const note = await callHost('addNote', { runId, tick, text });
      setNotes((known) => [...known, note].sort((a, b) => a.tick - b.tick));
    },
    [runId],
  );
  return { notes, add };
}
