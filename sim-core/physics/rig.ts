import type { RigId } from '../run/types.ts';

/**
 * An invented class of rig: a constant-current source that holds the arc up to its voltage limit.
 * What it can sever is computed by the core (drill/severing.ts), never written here.
 */
export interface Rig {
  id: RigId;
  dialMinA: number;
  dialMaxA: number;
  /** Arc voltage above which the source cannot hold the current, V. Design default: holds a stand-off of 12 mm over a pierce on every rig. */
  arcVoltageLimitV: number;
}

export const RIGS: Record<RigId, Rig> = {
  '40': { id: '40', dialMinA: 15, dialMaxA: 40, arcVoltageLimitV: 180 },
  '60': { id: '60', dialMinA: 20, dialMaxA: 60, arcVoltageLimitV: 200 },
  '100': { id: '100', dialMinA: 25, dialMaxA: 100, arcVoltageLimitV: 230 },
};

/** Smallest rig whose dial reaches the current, A. Throws RangeError where none does. */
export function smallestRigFor(currentA: number): Rig {
  for (const id of ['40', '60', '100'] as const) {
    const rig = RIGS[id];
    if (currentA >= rig.dialMinA && currentA <= rig.dialMaxA) return rig;
  }
  throw new RangeError(
    `No rig's dial reaches ${currentA} A: the dials go from ${RIGS['40'].dialMinA} to ${RIGS['100'].dialMaxA} A.`,
  );
}
