import { HOSE_LOSS_BAR_PER_M, TORCH_BAR } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Gauge } from '../ui/Gauge.tsx';
import { Tick } from '../ui/Tick.tsx';
import { band, figure, PSI_PER_BAR, quantity, type UnitSystem } from '../ui/units.ts';
import type { RigSheetProps } from './rig-sheet-props.ts';
import { Sheet } from './Sheet.tsx';

const HIGHEST_BAR = 10;
const LOSS_PER_M = 10;
/** Steps and marks of the scale, bar: round ones in the unit that is shown. */
const SCALES: Record<UnitSystem, { step: number; markEvery: number }> = {
  metric: { step: 0.1, markEvery: 2 },
  inch: { step: 1 / PSI_PER_BAR, markEvery: 20 / PSI_PER_BAR },
};

/** Gas: how much at the regulator, and whether it is dry. */
export function GasSheet({ drill, choices, units, change }: RigSheetProps) {
  const scale = SCALES[units];
  return (
    <Sheet name="gas">
      <p>
        {say('rig.gas.hose', {
          hose: quantity(drill.rig.hoseM, 'm', units),
          loss: quantity(HOSE_LOSS_BAR_PER_M * LOSS_PER_M, 'bar', units),
          each: quantity(LOSS_PER_M, 'm', units),
          torch: band(TORCH_BAR.low, TORCH_BAR.high, 'bar', units),
        })}
      </p>
      <Gauge
        label={say('rig.gas.regulator')}
        value={choices.supplyBar}
        low={0}
        high={HIGHEST_BAR}
        step={scale.step}
        markEvery={scale.markEvery}
        words={(bar) => quantity(bar, 'bar', units)}
        mark={(bar) => figure(bar, 'bar', units).value.replace(/[.,]0$/, '')}
        onChange={(supplyBar) => change({ supplyBar })}
      />
      <Tick
        label={say('rig.gas.trap')}
        isSelected={choices.waterTrapDrained}
        onChange={(waterTrapDrained) => change({ waterTrapDrained })}
      />
    </Sheet>
  );
}
