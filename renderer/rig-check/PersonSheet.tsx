import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Tick } from '../ui/Tick.tsx';
import type { RigSheetProps } from './rig-sheet-props.ts';
import { Sheet } from './Sheet.tsx';

const NO_FILTER = 'none';
const SHADES = ['3', '5', '7', '8', '9', '10', '12'] as const;
const WORN = ['gloves', 'jacket', 'hearing', 'respirator'] as const;

/** The person at the torch. */
export function PersonSheet({ choices, change }: RigSheetProps) {
  const { protection } = choices;
  return (
    <Sheet name="person">
      <Choice<string>
        label={say('rig.shade')}
        value={protection.shade === null ? NO_FILTER : String(protection.shade)}
        onChange={(shade) => change({ protection: { ...protection, shade: shade === NO_FILTER ? null : Number(shade) } })}
        options={[{ value: NO_FILTER, label: say('rig.shade.none') }, ...SHADES.map((shade) => ({ value: shade, label: shade }))]}
      />
      <div className="tick-row">
        {WORN.map((item) => (
          <Tick
            key={item}
            label={say(`rig.wear.${item}`)}
            isSelected={protection[item]}
            onChange={(worn) => change({ protection: { ...protection, [item]: worn } })}
          />
        ))}
      </div>
    </Sheet>
  );
}
