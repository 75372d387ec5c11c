import type { DrillSummary } from '../../electron/contract.ts';
import { MATERIAL_IDS, type MaterialId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { thickness, type UnitSystem } from '../ui/units.ts';
import { type DrillFilter, NO_FILTER, THICKNESS_BANDS, type ThicknessBand, techniquesOf } from './drill-shelf.ts';
import { techniqueName } from './technique-name.ts';

const ANY = 'any';

export interface DrillFilterBarProps {
  drills: readonly DrillSummary[];
  filter: DrillFilter;
  units: UnitSystem;
  /** How many drills are shown. */
  found: number;
  onChange(filter: DrillFilter): void;
}

function bandWords(band: ThicknessBand, units: UnitSystem): string {
  const { overMm, upToMm } = THICKNESS_BANDS[band];
  if (overMm === 0) return say('home.filter.up-to', { thickness: thickness(upToMm, units) });
  if (upToMm === Number.POSITIVE_INFINITY) return say('home.filter.over', { thickness: thickness(overMm, units) });
  return say('home.filter.between', { over: thickness(overMm, units), upTo: thickness(upToMm, units) });
}

/** Finds drills by technique, metal and thickness. */
export function DrillFilterBar({ drills, filter, units, found, onChange }: DrillFilterBarProps) {
  const change = (part: Partial<DrillFilter>) => onChange({ ...filter, ...part });
  const any = { value: ANY, label: say('home.filter.any') };
  return (
    <div className="drill-filter">
      <Pick
        label={say('home.filter.technique')}
        value={filter.technique ?? ANY}
        options={[any, ...techniquesOf(drills).map((technique) => ({ value: technique, label: techniqueName(technique) }))]}
        onChange={(technique) => change({ technique: technique === ANY ? null : technique })}
      />
      <Pick
        label={say('home.filter.metal')}
        value={filter.material ?? ANY}
        options={[any, ...MATERIAL_IDS.map((id) => ({ value: id, label: say(`material.${id}`) }))]}
        onChange={(id) => change({ material: id === ANY ? null : (id as MaterialId) })}
      />
      <Pick
        label={say('home.filter.thickness')}
        value={filter.thickness ?? ANY}
        options={[
          any,
          ...(Object.keys(THICKNESS_BANDS) as ThicknessBand[]).map((id) => ({ value: id, label: bandWords(id, units) })),
        ]}
        onChange={(id) => change({ thickness: id === ANY ? null : (id as ThicknessBand) })}
      />
      <p className="soft" role="status" data-drills-found={found}>
        {say('home.filter.found', { found, all: drills.length })}
      </p>
      {found < drills.length && <Action onPress={() => onChange(NO_FILTER)}>{say('home.filter.all')}</Action>}
    </div>
  );
}
