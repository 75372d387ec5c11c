import { useEffect, useRef } from 'react';
import uPlot from 'uplot';
import type { ShownTheme } from '../app/theme.ts';
import type { TraceSpec } from '../review/trace-specs.ts';
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
  const plot = useRef<uPlot | null>(null);
  const latest = useRef({ point, onPick });
  latest.current = { point, onPick };

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of theme changes the colours that are read here
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const style = getComputedStyle(element);
    const colour = (name: string) => style.getPropertyValue(name).trim();
    const bounds = spec.band;
    const font = '11px system-ui, sans-serif';
    const size = () => ({ width: Math.max(120, element.clientWidth), height: Math.max(56, element.clientHeight) });
    const made = new uPlot(
      {
        ...size(),
        legend: { show: false },
        cursor: { y: false, points: { show: false }, drag: { setScale: false, x: false, y: false } },
        scales: {
          x: { time: false },
          y: {
            range: (_, low, high) => [
              Math.min(spec.span[0] * valueFactor, low ?? 0),
              Math.max(spec.span[1] * valueFactor, Math.min(high ?? 0, spec.span[1] * valueFactor * 3)),
            ],
          },
        },
        axes: [
          {
            stroke: colour('--ink-soft'),
            grid: { show: false },
            ticks: { stroke: colour('--line'), size: 3 },
            size: 20,
            gap: 1,
            font,
          },
          {
            stroke: colour('--ink-soft'),
            grid: { stroke: colour('--line'), width: 0.5 },
            ticks: { show: false },
            size: 34,
            gap: 3,
            font,
            space: 18,
          },
        ],
        series: [
          {},
          { stroke: colour('--trace'), width: 2, spanGaps: false, points: { show: false } },
          { stroke: colour('--ember'), width: 1.6, dash: [7, 4], spanGaps: false, points: { show: false } },
        ],
        hooks: {
          drawClear: [
            (u) => {
              if (!bounds) return;
              const { left, width, top, height } = u.bbox;
              const y = (value: number | null, edge: number) =>
                value === null ? edge : u.valToPos(value * valueFactor, 'y', true);
              const high = Math.max(top, y(bounds.high, top));
              const low = Math.min(top + height, y(bounds.low, top + height));
              u.ctx.save();
              u.ctx.fillStyle = colour('--trace-band');
              u.ctx.fillRect(left, high, width, low - high);
              u.ctx.restore();
            },
          ],
        },
      },
      [Array.from(axis, (at) => at * axisFactor), [...first], [...second]],
      element,
    );
    plot.current = made;
    const place = () => made.setCursor({ left: made.valToPos(latest.current.point * axisFactor, 'x'), top: 0 }, false);
    place();
    const resize = new ResizeObserver(() => {
      made.setSize(size());
      place();
    });
    resize.observe(element);
    const pick = (event: MouseEvent) => {
      const left = event.clientX - made.over.getBoundingClientRect().left;
      latest.current.onPick(made.posToVal(left, 'x') / axisFactor);
    };
    made.over.addEventListener('click', pick);
    made.over.addEventListener('mouseleave', place);
    return () => {
      resize.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [spec, axis, first, second, axisFactor, valueFactor, theme]);

  useEffect(() => {
    plot.current?.setCursor({ left: plot.current.valToPos(point * axisFactor, 'x'), top: 0 }, false);
  }, [point, axisFactor]);

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
        {spec.band && <span className="soft">{band(spec.band.low, spec.band.high, spec.unit, units)}</span>}
      </figcaption>
      <div className="trace-plot" ref={box} />
    </figure>
  );
}
