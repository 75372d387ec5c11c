import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Tick } from '../ui/Tick.tsx';
import { quantity } from '../ui/units.ts';
import type { RigSheetProps } from './rig-sheet-props.ts';
import { Sheet } from './Sheet.tsx';

/** The place: air, what can burn, who watches, and what the work is or carries. */
export function PlaceSheet({ drill, choices, units, change }: RigSheetProps) {
  const { site } = drill;
  return (
    <Sheet name="place">
      <p>
        {say(`rig.place.${site.place}`)}{' '}
        {site.combustiblesWithinM === null
          ? say('rig.place.nothing-burns')
          : say('rig.place.burns', { distance: quantity(site.combustiblesWithinM, 'm', units) })}{' '}
        {site.coating !== 'none' && say(`rig.place.coating-${site.coating}`)} {site.closedContainer && say('rig.place.container')}
      </p>
      <Choice
        label={say('rig.ventilation')}
        value={choices.ventilation}
        onChange={(ventilation) => change({ ventilation })}
        options={(['none', 'doors', 'extraction'] as const).map((id) => ({ value: id, label: say(`ventilation.${id}`) }))}
      />
      <Choice
        label={say('rig.combustibles')}
        value={choices.combustibles}
        onChange={(combustibles) => change({ combustibles })}
        options={(['left', 'covered', 'cleared'] as const).map((id) => ({ value: id, label: say(`combustibles.${id}`) }))}
      />
      <Choice
        label={say('rig.watch')}
        value={String(choices.fireWatchMin)}
        onChange={(minutes) => change({ fireWatchMin: Number(minutes) as 0 | 30 | 60 })}
        options={['0', '30', '60'].map((minutes) => ({
          value: minutes,
          label: minutes === '0' ? say('rig.watch.none') : say('rig.watch.minutes', { minutes }),
        }))}
      />
      {site.coating !== 'none' && (
        <Tick
          label={say('rig.coating')}
          isSelected={choices.coatingRemoved}
          onChange={(coatingRemoved) => change({ coatingRemoved })}
        />
      )}
      {site.closedContainer && (
        <Tick
          label={say('rig.container')}
          isSelected={choices.containerMadeSafe}
          onChange={(containerMadeSafe) => change({ containerMadeSafe })}
        />
      )}
    </Sheet>
  );
}
