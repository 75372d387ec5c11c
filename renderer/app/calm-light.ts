import { useSyncExternalStore } from 'react';
import { useYard } from './yard-store.ts';

const asked = window.matchMedia('(prefers-reduced-motion: reduce)');

function watch(listener: () => void): () => void {
  asked.addEventListener('change', listener);
  return () => asked.removeEventListener('change', listener);
}

/** Whether light and motion are to be calm: as the person has set it, or as the system asks. */
export function useCalmLight(): boolean {
  const setting = useYard((state) => state.settings.calmLight);
  const system = useSyncExternalStore(watch, () => asked.matches);
  return setting === 'system' ? system : setting === 'on';
}
