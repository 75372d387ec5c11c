import { HAND_FORMAT, HAND_FORMAT_VERSION, type HandScript } from '../drill/hand-script-schema.ts';
import type { Drill } from '../drill/schema.ts';
import type { HandWindow } from './hand-window.ts';

/** Where in the speed window the reference hand travels: its middle. */
const SPEED_IN_WINDOW = 0.5;

/**
 * The hand that does it right, derived from the drill and the core's answers alone: over the edge, trigger, wait until the
 * sparks come through, off at mid-window speed, upright, at mid-band height, off the far edge (or to the mark), let go.
 * It has the tremor and the reaction time of a practised person.
 */
export function referenceHand(drill: Drill, window: HandWindow): HandScript {
  const { low, high } = drill.tolerances.standOffMm;
  const heightMm = low <= 1.5 && high >= 1.5 ? 1.5 : (low + high) / 2;
  const speed = { inWindow: SPEED_IN_WINDOW };
  // Past the edge the front still lags: the hand goes on by as much again as the plate is thick, within what may burn on.
  const followThroughMm = drill.plate.thicknessMm / 2 + 3;
  const pastEndMm = followThroughMm < drill.tolerances.overrunMm ? followThroughMm : drill.tolerances.overrunMm;
  return {
    format: HAND_FORMAT,
    formatVersion: HAND_FORMAT_VERSION,
    name: 'Reference hand',
    habits: { tremorMm: 0.1, heightTremorMm: 0.1, leanTremorDeg: 0.8, reactionS: 0.15 },
    steps: [
      { do: 'place', at: { alongMm: 0 }, heightMm },
      { do: 'wait', for: 'seconds', seconds: 0.2 },
      { do: 'trigger', on: true },
      { do: 'wait', for: 'break-through', atMostS: (window.edgeDwellS ?? 0) * 3 + 10 },
      { do: 'move', to: drill.finish === 'run-off' ? { pastEndMm } : { alongShare: 1 }, speed },
      { do: 'trigger', on: false },
      { do: 'wait', for: 'seconds', seconds: 0.5 },
    ],
  };
}
