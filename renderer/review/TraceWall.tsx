import { useMemo } from 'react';
import { type Drill, readTrace, type Score, type StoredTrace } from '../../sim-core/index.ts';
import type { ShownTheme } from '../app/theme.ts';
import { say } from '../text/say.ts';
import type { UnitSystem } from '../ui/units.ts';
import { TracePlot } from './TracePlot.tsx';
import { traceSpecs } from './trace-specs.ts';

export interface TraceWallProps {
  drill: Drill;
  score: Score | null;
  trace: StoredTrace;
  tick: number;
  units: UnitSystem;
  theme: ShownTheme;
  onPick(tick: number): void;
}

/** All traces of a run, side by side, on one clock. */
export function TraceWall({ drill, score, trace, tick, units, theme, onPick }: TraceWallProps) {
  const specs = useMemo(() => traceSpecs(drill, score), [drill, score]);
  const columns = useMemo(() => readTrace(trace), [trace]);
  const times = useMemo(() => {
    const rows = columns.xMm?.length ?? 0;
    return Float64Array.from({ length: rows }, (_, row) => (row + 1) / trace.hz);
  }, [columns, trace]);
  return (
    <section className="traces" aria-label={say('review.traces')}>
      {specs.map((spec) => {
        const values = columns[spec.field];
        return values ? (
          <TracePlot
            key={spec.name}
            spec={spec}
            times={times}
            values={values}
            tick={tick}
            units={units}
            theme={theme}
            onPick={onPick}
          />
        ) : null;
      })}
    </section>
  );
}
