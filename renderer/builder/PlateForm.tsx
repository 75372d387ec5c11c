import { type Drill, MATERIAL_IDS, SURFACES } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { edit } from './builder-store.ts';
import { NumberEntry } from './NumberEntry.tsx';

const OPENINGS = ['none', 'diamonds', 'slots', 'holes'] as const;
const COATINGS = ['none', 'paint', 'zinc'] as const;
const PLACES = ['hall', 'small-room', 'outdoors'] as const;
const FIRST_OPENINGS = { pitchXMm: 36, pitchYMm: 18, strandMm: 4 };
/** Two plates of half the thickness with this much air between them, mm. */
const FIRST_GAP_MM = 0.5;

const plate = (part: Partial<Drill['plate']>, about: string | null = null) =>
  edit((drill) => ({ ...drill, plate: { ...drill.plate, ...part } }), about);
const site = (part: Partial<Drill['site']>, about: string | null = null) =>
  edit((drill) => ({ ...drill, site: { ...drill.site, ...part } }), about);

/** The metal, what lies on it, and what is around it. */
export function PlateForm({ drill }: { drill: Drill }) {
  const { material, thicknessMm, lengthMm, widthMm, surface, openings, airGap } = drill.plate;
  const { place, combustiblesWithinM, closedContainer, coating } = drill.site;
  const middle = Math.round(thicknessMm * 5) / 10;
  return (
    <>
      <Choice
        label={say('home.filter.metal')}
        value={material}
        options={MATERIAL_IDS.map((id) => ({ value: id, label: say(`material.${id}`) }))}
        onChange={(id) => plate({ material: id })}
      />
      <div className="entry-row">
        <NumberEntry
          label={say('home.filter.thickness')}
          value={thicknessMm}
          unit="mm"
          low={0.5}
          high={40}
          onChange={(value) => plate({ thicknessMm: value }, 'thickness')}
        />
        <NumberEntry
          label={say('builder.plate.length')}
          value={lengthMm}
          unit="mm"
          low={20}
          high={600}
          onChange={(value) => plate({ lengthMm: value }, 'length')}
        />
        <NumberEntry
          label={say('builder.plate.width')}
          value={widthMm}
          unit="mm"
          low={20}
          high={600}
          onChange={(value) => plate({ widthMm: value }, 'width')}
        />
      </div>
      <Pick
        label={say('builder.plate.surface')}
        value={surface}
        options={SURFACES.map((id) => ({ value: id, label: say(`surface.${id}`) }))}
        onChange={(id) => plate({ surface: id })}
      />
      <Pick
        label={say('builder.plate.openings')}
        value={openings?.kind ?? 'none'}
        options={OPENINGS.map((id) => ({ value: id, label: say(`builder.openings.${id}`) }))}
        onChange={(kind) => plate({ openings: kind === 'none' ? null : { ...(openings ?? FIRST_OPENINGS), kind } })}
      />
      {openings && (
        <div className="entry-row">
          <NumberEntry
            label={say('builder.openings.along')}
            value={openings.pitchXMm}
            unit="mm"
            low={6}
            high={200}
            onChange={(value) => plate({ openings: { ...openings, pitchXMm: value } }, 'pitch-x')}
          />
          <NumberEntry
            label={say('builder.openings.across')}
            value={openings.pitchYMm}
            unit="mm"
            low={6}
            high={200}
            onChange={(value) => plate({ openings: { ...openings, pitchYMm: value } }, 'pitch-y')}
          />
          <NumberEntry
            label={say('builder.openings.strand')}
            value={openings.strandMm}
            unit="mm"
            low={1.5}
            high={50}
            onChange={(value) => plate({ openings: { ...openings, strandMm: value } }, 'strand')}
          />
        </div>
      )}
      <Tick
        label={say('builder.plate.stacked')}
        isSelected={airGap !== null}
        onChange={(on) => plate({ airGap: on ? { fromMm: Math.max(0.5, middle), toMm: middle + FIRST_GAP_MM } : null })}
      />
      {airGap && (
        <div className="entry-row">
          <NumberEntry
            label={say('builder.gap.from')}
            value={airGap.fromMm}
            unit="mm"
            low={0.5}
            high={40}
            onChange={(value) => plate({ airGap: { ...airGap, fromMm: value } }, 'gap-from')}
          />
          <NumberEntry
            label={say('builder.gap.to')}
            value={airGap.toMm}
            unit="mm"
            low={0.5}
            high={40}
            onChange={(value) => plate({ airGap: { ...airGap, toMm: value } }, 'gap-to')}
          />
        </div>
      )}
      <h3>{say('builder.site')}</h3>
      <Pick
        label={say('builder.site.place')}
        value={place}
        options={PLACES.map((id) => ({ value: id, label: say(`builder.place.${id}`) }))}
        onChange={(id) => site({ place: id })}
      />
      <Pick
        label={say('builder.site.coating')}
        value={coating}
        options={COATINGS.map((id) => ({ value: id, label: say(`builder.coating.${id}`) }))}
        onChange={(id) => site({ coating: id })}
      />
      <NumberEntry
        label={say('builder.site.burns')}
        value={combustiblesWithinM}
        unit="m"
        low={0}
        high={100}
        onChange={(value) => site({ combustiblesWithinM: value }, 'burns')}
        onEmpty={() => site({ combustiblesWithinM: null }, 'burns')}
      />
      <Tick label={say('builder.site.container')} isSelected={closedContainer} onChange={(on) => site({ closedContainer: on })} />
    </>
  );
}
