import type { Drill } from './schema.ts';

/** Metal that the arc has to go through straight down, mm: of two plates one above the other that of both, without the air between. */
export function metalThicknessMm({ thicknessMm, airGap }: Drill['plate']): number {
  return thicknessMm - (airGap ? airGap.toMm - airGap.fromMm : 0);
}
