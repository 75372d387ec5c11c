import { useEffect, useRef } from 'react';
import { TICK_HZ } from '../../sim-core/index.ts';
import type { ShownTheme } from '../app/theme.ts';
import { spokenLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { axisScale, band, clock, quantity, type UnitSystem } from '../ui/units.ts';
import { createPlotFrame, type PlotFrame } from './plot-frame.ts';
import type { TraceSpec } from './trace-specs.ts';

export interface TracePlotProps {
  spec: TraceSpec;
  /** Seconds, and the figure at each. */
  times: Float64Array;
  values: Float32Array;
  /** Moment of the replay, in ticks. */
  tick: number;
  units: UnitSystem;
  theme: ShownTheme;
  onPick(tick: number): void;
}

function valueAt(times: Float64Array, values: Float32Array, seconds: number): number {
  if (times.length < 2) return Number.NaN;
  const step = (times[1] as number) - (times[0] as number);
  const index = Math.round((seconds - (times[0] as number)) / step);
  return values[Math.max(0, Math.min(values.length - 1, index))] as number;
}

/** One trace against its band; its cursor is the moment of the replay, and a click goes to another. */
export function TracePlot({ spec, times, values, tick, units, theme, onPick }: TracePlotProps) {
  const box = useRef<HTMLDivElement>(null);
  const plot = useRef<PlotFrame | null>(null);
  const latest = useRef({ tick, onPick });
  latest.current = { tick, onPick };
  const language = spokenLanguage();

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of theme or language changes colours and figures that are read there
  useEffect(() => {
    if (!box.current) return;
    const { factor } = axisScale(spec.unit, units);
    const made = createPlotFrame(box.current, {
      spec,
      valueFactor: factor,
      axis: Array.from(times),
      lines: [
        {
          colour: '--trace',
          width: 1.6,
          values: Array.from(values, (value) => (Number.isFinite(value) ? value * factor : null)),
        },
      ],
      point: () => latest.current.tick / TICK_HZ,
      onPick: (seconds) => latest.current.onPick(seconds * TICK_HZ),
    });
    plot.current = made;
    return () => {
      made.close();
      plot.current = null;
    };
  }, [spec, times, values, units, theme, language]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the marker goes where the moment is
  useEffect(() => plot.current?.place(), [tick]);

  const now = quantity(valueAt(times, values, tick / TICK_HZ), spec.unit, units);
  const right = spec.band ? band(spec.band.low, spec.band.high, spec.unit, units) : null;
  const name = say(`trace.${spec.name}`);
  const at = clock(tick / TICK_HZ);
  const summary = right
    ? say('trace.summary', { name, value: now, time: at, band: right })
    : say('trace.summary-plain', { name, value: now, time: at });
  return (
    <figure className="trace" data-trace={spec.name} aria-label={summary}>
      <figcaption className="trace-head" aria-hidden="true">
        <strong>{name}</strong>
        <span className="figure trace-now">{now}</span>
        {right && <span className="soft figure">{right}</span>}
      </figcaption>
      <div className="trace-plot" ref={box} />
    </figure>
  );
}
