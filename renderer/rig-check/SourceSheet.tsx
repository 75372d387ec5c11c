import { dialOf, RIG_MODES, RIGS } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Gauge } from '../ui/Gauge.tsx';
import { Tick } from '../ui/Tick.tsx';
import { figure, MM_PER_INCH, quantity, thickness } from '../ui/units.ts';
import type { RigSheetProps } from './rig-sheet-props.ts';
import { Sheet } from './Sheet.tsx';

const GUIDE_HIGH_MM = 20;

/** The source: mode and current for the metal in front of it; the guide; the guard over the trigger. */
export function SourceSheet({ drill, choices, units, change }: RigSheetProps) {
  const { plate, rig, guide } = drill;
  const dial = dialOf(RIGS[rig.class], choices.mode);
  return (
    <Sheet name="source">
      <p>
        {say('rig.source.metal', {
          material: say(`material.${plate.material}`),
          thickness: thickness(plate.thicknessMm, units),
          class: rig.class,
        })}
      </p>
      <Choice
        label={say('rig.mode')}
        value={choices.mode}
        onChange={(mode) => {
          const { highA } = dialOf(RIGS[rig.class], mode);
          change({ mode, currentA: Math.min(choices.currentA, highA) });
        }}
        options={RIG_MODES.map((mode) => ({ value: mode, label: say(`mode.${mode}`) }))}
      />
      <Gauge
        label={say('rig.current', { low: figure(dial.lowA, 'A', units).value, high: quantity(dial.highA, 'A', units) })}
        value={choices.currentA}
        low={0}
        high={dial.highA}
        step={1}
        markEvery={dial.highA > 60 ? 20 : dial.highA > 20 ? 10 : 5}
        words={(current) => (current === 0 ? say('rig.current.unset') : quantity(current, 'A', units))}
        mark={(current) => figure(current, 'A', units).value}
        onChange={(currentA) => change({ currentA })}
      />
      {guide.kind !== 'freehand' && (
        <>
          <Tick
            label={say('rig.guide.use', { guide: say(`guide-kind.${guide.kind}`) })}
            isSelected={choices.guideOffsetMm !== null}
            onChange={(used) => change({ guideOffsetMm: used ? 0 : null })}
          />
          {choices.guideOffsetMm !== null && (
            <Gauge
              label={say(guide.kind === 'circle' ? 'rig.guide.arm' : 'rig.guide.offset')}
              value={choices.guideOffsetMm}
              low={0}
              high={GUIDE_HIGH_MM}
              step={0.1}
              markEvery={units === 'inch' ? MM_PER_INCH / 5 : 5}
              words={(mm) => quantity(mm, 'mm', units)}
              mark={(mm) => figure(mm, 'mm', units).value.replace(/[.,]0+$/, '')}
              onChange={(guideOffsetMm) => change({ guideOffsetMm })}
            />
          )}
        </>
      )}
      <Tick
        label={say('rig.guard')}
        isSelected={choices.triggerGuardClosed}
        onChange={(triggerGuardClosed) => change({ triggerGuardClosed })}
      />
    </Sheet>
  );
}
