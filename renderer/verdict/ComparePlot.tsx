import { useEffect, useRef } from 'react';
import type { ShownTheme } from '../app/theme.ts';
import { createPlotFrame, type PlotFrame } from '../review/plot-frame.ts';
import type { TraceSpec } from '../review/trace-specs.ts';
import { spokenLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { band, quantity, type UnitSystem } from '../ui/units.ts';

export interface ComparePlotProps {
  spec: TraceSpec;
  /** Points of the axis, in mm or s of the core, and both runs' figures there in the reader's units. */
  axis: Float64Array;
  first: readonly (number | null)[];
  second: readonly (number | null)[];
  /** The reader's unit of the axis and of the figures over the core's. */
  axisFactor: number;
  valueFactor: number;
  point: number;
  /** Both runs' figures at the point, in the core's units; NaN where there is none. */
  now: readonly [number, number];
  units: UnitSystem;
  theme: ShownTheme;
  onPick(point: number): void;
}

/** A figure of two runs on one axis: the first a full line, the second a broken one. */
export function ComparePlot(props: ComparePlotProps) {
  const { spec, axis, first, second, axisFactor, valueFactor, point, now, units, theme, onPick } = props;
  const box = useRef<HTMLDivElement>(null);
  const plot = useRef<PlotFrame | null>(null);
  const latest = useRef({ point, onPick });
  latest.current = { point, onPick };
  const language = spokenLanguage();

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of theme or language changes colours and figures that are read there
  useEffect(() => {
    if (!box.current) return;
    const made = createPlotFrame(box.current, {
      spec,
      valueFactor,
      axis: Array.from(axis, (at) => at * axisFactor),
      lines: [
        { colour: '--trace', width: 2, values: first },
        { colour: '--ember', width: 1.6, dash: [7, 4], values: second },
      ],
      point: () => latest.current.point * axisFactor,
      onPick: (at) => latest.current.onPick(at / axisFactor),
    });
    plot.current = made;
    return () => {
      made.close();
      plot.current = null;
    };
  }, [spec, axis, first, second, axisFactor, valueFactor, theme, language]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the marker goes where the point is
  useEffect(() => plot.current?.place(), [point]);

  const name = say(`trace.${spec.name}`);
  const [a, b] = now.map((value) => (Number.isFinite(value) ? quantity(value, spec.unit, units) : say('compare.not-there')));
  return (
    <figure
      className="trace"
      data-trace={spec.name}
      aria-label={say('compare.summary', { name, first: a as string, second: b as string })}
    >
      <figcaption className="trace-head" aria-hidden="true">
        <strong>{name}</strong>
        {spec.band && <span className="soft figure">{band(spec.band.low, spec.band.high, spec.unit, units)}</span>}
      </figcaption>
      <div className="trace-plot" ref={box} />
    </figure>
  );
}
