import { NOZZLE_IDS, NOZZLES, SHIELD_IDS, SHIELDS } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { figure, quantity, thickness } from '../ui/units.ts';
import type { RigSheetProps } from './rig-sheet-props.ts';
import { Sheet } from './Sheet.tsx';
import { StackBench } from './StackBench.tsx';

/** The torch's end: which parts, and in which order. */
export function PartsSheet({ choices, units, change }: RigSheetProps) {
  return (
    <Sheet name="parts">
      <Choice
        label={say('rig.nozzle')}
        value={choices.nozzle}
        onChange={(nozzle) => change({ nozzle })}
        options={NOZZLE_IDS.map((id) => ({
          value: id,
          label: say(`nozzle.${id}`, {
            low: figure(NOZZLES[id].lowA, 'A', units).value,
            high: quantity(NOZZLES[id].highA, 'A', units),
          }),
        }))}
      />
      <Choice
        label={say('rig.shield')}
        value={choices.shield}
        onChange={(shield) => change({ shield })}
        options={SHIELD_IDS.map((id) => ({
          value: id,
          label: say(`shield.${id}`, { across: thickness(2 * SHIELDS[id].frontRadiusMm, units) }),
        }))}
      />
      <StackBench stack={choices.stack} onChange={(stack) => change({ stack })} />
    </Sheet>
  );
}
