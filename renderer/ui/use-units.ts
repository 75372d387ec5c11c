import { useYard } from '../app/yard-store.ts';
import type { UnitSystem } from './units.ts';

/** The measures the reader has chosen. */
export function useUnits(): UnitSystem {
  return useYard((state) => state.settings.units);
}
