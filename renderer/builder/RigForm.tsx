import {
  type ClampSpot,
  type Drill,
  dialOf,
  guideOffsetMm,
  NOZZLES,
  RIG_FAULT_IDS,
  RIG_MODES,
  RIGS,
  type RigFaultId,
  SHIELD_IDS,
  SURFACES,
} from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { quantity } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { edit } from './builder-store.ts';
import { NumberEntry } from './NumberEntry.tsx';

const CLASSES = ['40', '60', '100'] as const;
const NO_FAULT = 'none';

const rig = (part: Partial<Drill['rig']>, about: string | null = null) =>
  edit((drill) => ({ ...drill, rig: { ...drill.rig, ...part } }), about);

/** The rig as it should be for the job, who prepares it, and what is wrong with it all the same. */
export function RigForm({ drill }: { drill: Drill }) {
  const units = useUnits();
  const { class: rigClass, currentA, mode, nozzle, shield, hoseM, clampSpots } = drill.rig;
  const dial = dialOf(RIGS[rigClass], mode);
  const bore = NOZZLES[nozzle];
  const spot = (n: number, part: Partial<ClampSpot>) =>
    rig({ clampSpots: clampSpots.with(n, { ...(clampSpots[n] as ClampSpot), ...part }) });
  return (
    <>
      <Pick
        label={say('builder.rig.mode')}
        value={mode}
        options={RIG_MODES.map((id) => ({ value: id, label: say(`mode.${id}`) }))}
        onChange={(id) => rig({ mode: id })}
      />
      <div className="entry-row">
        <Pick
          label={say('builder.rig.class')}
          value={rigClass}
          options={CLASSES.map((id) => ({
            value: id,
            label: say('builder.rig.class-of', { current: quantity(RIGS[id].dialMaxA, 'A', units) }),
          }))}
          onChange={(id) => rig({ class: id })}
        />
        <NumberEntry
          label={say('builder.rig.current')}
          value={currentA}
          unit="A"
          low={1}
          high={200}
          onChange={(value) => rig({ currentA: value }, 'current')}
        />
      </div>
      <p className="soft small">
        {say('builder.rig.dial', { low: dial.lowA, high: dial.highA })}{' '}
        {say('builder.rig.nozzle', {
          nozzle: say(`nozzle.${nozzle}`, { low: quantity(bore.lowA, 'A', units), high: quantity(bore.highA, 'A', units) }),
        })}
      </p>
      <Pick
        label={say('rig.shield')}
        value={shield}
        options={SHIELD_IDS.map((id) => ({
          value: id,
          label: say(`shield.${id}`, { across: quantity(2 * guideOffsetMm(id), 'mm', units) }),
        }))}
        onChange={(id) => rig({ shield: id })}
      />
      <NumberEntry
        label={say('builder.rig.hose')}
        value={hoseM}
        unit="m"
        low={1}
        high={50}
        onChange={(value) => rig({ hoseM: value }, 'hose')}
      />
      <Choice
        label={say('builder.rig.who')}
        value={drill.rigCheck}
        options={[
          { value: 'done', label: say('builder.rig.done') },
          { value: 'by-trainee', label: say('builder.rig.by-trainee') },
        ]}
        onChange={(rigCheck) => edit((now) => ({ ...now, rigCheck }))}
      />
      <Pick
        label={say('builder.rig.fault')}
        value={drill.faults[0] ?? NO_FAULT}
        options={[
          { value: NO_FAULT, label: say('builder.rig.no-fault') },
          ...RIG_FAULT_IDS.map((id) => ({ value: id, label: say(`fault-cause.${id}`) })),
        ]}
        onChange={(id) => edit((now) => ({ ...now, faults: id === NO_FAULT ? [] : [id as RigFaultId] }))}
      />
      <h3>{say('builder.rig.clamps')}</h3>
      <p className="soft small">{say('builder.rig.clamps-about')}</p>
      {clampSpots.map((one, n) => (
        <div className="entry-row" key={one.id}>
          <Pick
            label={say('builder.place.clamp', { number: n + 1 })}
            value={one.surface}
            options={SURFACES.map((id) => ({ value: id, label: say(`surface.${id}`) }))}
            onChange={(surface) => spot(n, { surface })}
          />
          <Tick label={say('builder.rig.falls')} isSelected={one.onDrop} onChange={(onDrop) => spot(n, { onDrop })} />
        </div>
      ))}
    </>
  );
}
