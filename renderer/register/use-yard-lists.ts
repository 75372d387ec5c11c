import { useCallback, useEffect, useState } from 'react';
import type { Assignment, Group } from '../../electron/contract.ts';
import { errorWords } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';

export interface Loaded<T> {
  /** Null until the host has answered. */
  value: T | null;
  /** Why it cannot be had; null while nothing speaks against it. */
  problem: string | null;
  again(): Promise<void>;
}

function useLoaded<T>(fetch: () => Promise<T>): Loaded<T> {
  const [value, setValue] = useState<T | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const again = useCallback(async () => setValue(await fetch()), [fetch]);
  useEffect(() => {
    again().catch((error: unknown) => {
      setProblem(errorWords(error));
      tellTrouble(error);
    });
  }, [again]);
  return { value, problem, again };
}

const fetchGroups = async (): Promise<Group[]> => (await callHost('listGroups', {})).groups;
const fetchAssignments = async (): Promise<Assignment[]> => (await callHost('listAssignments', {})).assignments;

export const useGroups = (): Loaded<Group[]> => useLoaded(fetchGroups);
export const useAssignments = (): Loaded<Assignment[]> => useLoaded(fetchAssignments);
