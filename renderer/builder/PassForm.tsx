import { useState } from 'react';
import { type Drill, type DrillTolerances, MEASURE_IDS, type MeasureId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { Tick } from '../ui/Tick.tsx';
import { Told } from '../ui/Told.tsx';
import { BandEntry } from './BandEntry.tsx';
import { edit } from './builder-store.ts';
import { NumberEntry, type NumberEntryProps } from './NumberEntry.tsx';
import { meantMeasures } from './settle-drill.ts';

const CUES = ['full', 'alternate', 'none'] as const;
/** Weight of a measure that is taken in. */
const FIRST_WEIGHT = 1;

type Single = Exclude<keyof DrillTolerances, 'sparkAngleDeg' | 'standOffMm'>;
const SINGLES: readonly ({ id: Single } & Pick<NumberEntryProps, 'unit' | 'low' | 'high'>)[] = [
  { id: 'leanDeg', unit: 'deg', low: 0.5, high: 30 },
  { id: 'offLineMm', unit: 'mm', low: 0.1, high: 10 },
  { id: 'speedVariation', low: 0.01, high: 1 },
  { id: 'lateStartS', unit: 's', low: 0.05, high: 5 },
  { id: 'overrunMm', unit: 'mm', low: 0.5, high: 50 },
  { id: 'sizeMm', unit: 'mm', low: 0.1, high: 10 },
  { id: 'evenness', low: 0.1, high: 0.99 },
  { id: 'spentLifeShare', low: 0.001, high: 1 },
  { id: 'gapDelayS', unit: 's', low: 0.05, high: 5 },
];

const tolerances = (part: Partial<DrillTolerances>, about: string) =>
  edit((drill) => ({ ...drill, tolerances: { ...drill.tolerances, ...part } }), about);

function measures(change: (list: Drill['rubric']['measures']) => Drill['rubric']['measures'], about: string | null = null) {
  return edit((drill) => ({ ...drill, rubric: { ...drill.rubric, measures: change(drill.rubric.measures) } }), about);
}

/** How much help there is, how often it may be tried, and what counts as good. */
export function PassForm({ drill }: { drill: Drill }) {
  const { rubric, tolerances: limits } = drill;
  const meant = meantMeasures(drill);
  const possible = MEASURE_IDS.filter((id) => meant[id] !== false || rubric.measures.some((measure) => measure.id === id));
  const change = (id: MeasureId, part: { weight?: number; mustReach?: number | undefined }, about: string) =>
    measures((list) => list.map((one) => (one.id === id ? withPart(one, part) : one)), about);
  return (
    <>
      <Choice
        label={say('builder.pass.cues')}
        value={drill.cueLevel}
        options={CUES.map((id) => ({ value: id, label: say(`builder.cues.${id}`) }))}
        onChange={(cueLevel) => edit((now) => ({ ...now, cueLevel }))}
      />
      <div className="entry-row">
        <NumberEntry
          label={say('builder.pass.attempts')}
          value={drill.attempts}
          low={1}
          high={999}
          step={1}
          onChange={(attempts) => edit((now) => ({ ...now, attempts }), 'attempts')}
          onEmpty={() => edit((now) => ({ ...now, attempts: null }), 'attempts')}
        />
        <NumberEntry
          label={say('builder.pass.mark')}
          value={rubric.passMark}
          low={1}
          high={100}
          onChange={(passMark) => edit((now) => ({ ...now, rubric: { ...now.rubric, passMark } }), 'pass-mark')}
        />
      </div>
      <h3>{say('builder.pass.measures')}</h3>
      <p className="soft small">{say('builder.pass.measures-about')}</p>
      <ul className="measure-rows">
        {possible.map((id) => {
          const measure = rubric.measures.find((one) => one.id === id);
          const name = say(`measure.${id}`);
          return (
            <li key={id} className="measure-row">
              <MeasureTick id={id} name={name} isOn={measure !== undefined} />
              {measure && (
                <div className="entry-row">
                  <NumberEntry
                    label={say('builder.pass.weight')}
                    of={name}
                    value={measure.weight}
                    low={0.1}
                    high={10}
                    onChange={(weight) => change(id, { weight }, `weight-${id}`)}
                  />
                  <NumberEntry
                    label={say('builder.pass.least')}
                    of={name}
                    value={measure.mustReach ?? null}
                    low={0}
                    high={100}
                    onChange={(mustReach) => change(id, { mustReach }, `least-${id}`)}
                    onEmpty={() => change(id, { mustReach: undefined }, `least-${id}`)}
                  />
                </div>
              )}
            </li>
          );
        })}
      </ul>
      <h3>{say('builder.pass.limits')}</h3>
      <BandEntry
        label={say('builder.limit.sparkAngleDeg')}
        value={limits.sparkAngleDeg}
        unit="deg"
        low={0}
        high={60}
        onChange={(value) => tolerances({ sparkAngleDeg: value }, 'spark')}
      />
      <BandEntry
        label={say('builder.limit.standOffMm')}
        value={limits.standOffMm}
        unit="mm"
        low={0}
        high={20}
        onChange={(value) => tolerances({ standOffMm: value }, 'stand-off')}
      />
      <div className="entry-pairs">
        {SINGLES.map(({ id, ...rest }) => (
          <NumberEntry
            key={id}
            {...rest}
            label={say(`builder.limit.${id}`)}
            value={limits[id]}
            onChange={(value) => tolerances({ [id]: value }, id)}
          />
        ))}
      </div>
    </>
  );
}

type Measure = Drill['rubric']['measures'][number];

function withPart(measure: Measure, part: { weight?: number; mustReach?: number | undefined }): Measure {
  const { mustReach, ...rest } = { ...measure, ...part };
  return mustReach === undefined ? rest : { ...rest, mustReach };
}

function MeasureTick({ id, name, isOn }: { id: MeasureId; name: string; isOn: boolean }) {
  const [why, setWhy] = useState<string | null>(null);
  return (
    <>
      <Tick
        label={name}
        isSelected={isOn}
        onChange={(on) =>
          setWhy(measures((list) => (on ? [...list, { id, weight: FIRST_WEIGHT }] : list.filter((one) => one.id !== id))))
        }
      />
      {why !== null && (
        <p className="entry-wrong" role="alert">
          <Told words={why} />
        </p>
      )}
    </>
  );
}
