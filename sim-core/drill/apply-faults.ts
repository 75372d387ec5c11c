import { HOSE_LOSS_BAR_PER_M, type NozzleId, type RigFit, type RigMode, TORCH_BAR } from '../physics/rig-fit.ts';
import { SPENT } from '../physics/wear.ts';
import type { RigFaultId } from './diagnosis.ts';

/** How far below the lowest right pressure at the torch a low regulator leaves it, bar. Design default. */
const LOW_GAS_SHORT_BAR = 1.2;
/** Share of the flow that a damaged hose loses. Design default. */
const HOSE_LEAK_SHARE = 0.35;
/** Spent share of the life of an electrode that should have been changed. Design default. */
const WORN_SHARE = 0.9;

/** The part that somebody put in from the wrong drawer. */
const WRONG_NOZZLE: Readonly<Record<NozzleId, NozzleId>> = {
  fine: 'middle',
  small: 'fine',
  middle: 'small',
  large: 'middle',
  gouging: 'small',
};

/** The setting that somebody left the source in: for a cut that of marking, whose dial ends far below. */
const WRONG_MODE: Readonly<Record<RigMode, RigMode>> = { cut: 'mark', gaps: 'cut', gouge: 'cut', mark: 'cut' };

/** A rig with the faults put in, whatever was chosen before. What was there already stays where it is the worse of the two. */
export function applyFaults(fit: RigFit, faults: readonly RigFaultId[]): RigFit {
  const faulty = { ...fit };
  for (const fault of faults) Object.assign(faulty, CHANGES[fault](faulty));
  return faulty;
}

const CHANGES: Readonly<Record<RigFaultId, (fit: RigFit) => Partial<RigFit>>> = {
  'low-gas': ({ supplyBar, hoseM }) => {
    const low = TORCH_BAR.low - LOW_GAS_SHORT_BAR + HOSE_LOSS_BAR_PER_M * hoseM;
    return { supplyBar: supplyBar < low ? supplyBar : low };
  },
  'wet-gas': () => ({ gas: 'wet' }),
  'worn-electrode': ({ wear }) => {
    const pit = WORN_SHARE * SPENT.electrodePitMm;
    return { wear: { ...wear, electrodePitMm: wear.electrodePitMm > pit ? wear.electrodePitMm : pit } };
  },
  'wrong-part': ({ nozzle }) => ({ nozzle: WRONG_NOZZLE[nozzle] }),
  'poor-clamp': ({ clamp }) => ({ clamp: clamp && { ...clamp, surface: 'rust' } }),
  'wrong-mode': ({ mode }) => ({ mode: WRONG_MODE[mode] }),
  'damaged-hose': () => ({ hoseLeakShare: HOSE_LEAK_SHARE }),
};
