import { useEffect, useRef } from 'react';
import uPlot from 'uplot';
import { TICK_HZ } from '../../sim-core/index.ts';
import type { ShownTheme } from '../app/theme.ts';
import { say } from '../text/say.ts';
import { axisScale, band, clock, quantity, type UnitSystem } from '../ui/units.ts';
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

function colours(element: HTMLElement) {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(name).trim();
  return {
    trace: read('--trace'),
    band: read('--trace-band'),
    bandLine: read('--trace-band-line'),
    text: read('--ink-soft'),
    line: read('--line'),
  };
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
  const plot = useRef<uPlot | null>(null);
  const latest = useRef({ tick, onPick });
  latest.current = { tick, onPick };

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of theme changes the colours that are read here
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const look = colours(element);
    const { factor } = axisScale(spec.unit, units);
    const drawn = Array.from(values, (value) => (Number.isFinite(value) ? value * factor : null));
    const bounds = spec.band && {
      low: spec.band.low === null ? null : spec.band.low * factor,
      high: spec.band.high === null ? null : spec.band.high * factor,
    };
    const made = new uPlot(
      {
        width: Math.max(120, element.clientWidth),
        height: Math.max(60, element.clientHeight),
        legend: { show: false },
        cursor: { y: false, points: { show: false }, drag: { setScale: false, x: false, y: false } },
        scales: {
          x: { time: false },
          y: {
            range: (_, low, high) => [
              Math.min(spec.span[0] * factor, low ?? 0),
              Math.max(spec.span[1] * factor, Math.min(high ?? 0, spec.span[1] * factor * 3)),
            ],
          },
        },
        axes: [
          {
            stroke: look.text,
            grid: { show: false },
            ticks: { stroke: look.line, size: 3 },
            size: 20,
            gap: 1,
            font: '11px system-ui, sans-serif',
          },
          {
            stroke: look.text,
            grid: { stroke: look.line, width: 0.5 },
            ticks: { show: false },
            size: 34,
            gap: 3,
            font: '11px system-ui, sans-serif',
            space: 18,
          },
        ],
        series: [{}, { stroke: look.trace, width: 1.6, spanGaps: false, points: { show: false } }],
        hooks: {
          drawClear: [
            (u) => {
              if (!bounds) return;
              const { left, width, top, height } = u.bbox;
              const y = (value: number | null, edge: number) => (value === null ? edge : u.valToPos(value, 'y', true));
              const high = Math.max(top, y(bounds.high, top));
              const low = Math.min(top + height, y(bounds.low, top + height));
              u.ctx.save();
              u.ctx.fillStyle = look.band;
              u.ctx.fillRect(left, high, width, low - high);
              u.ctx.strokeStyle = look.bandLine;
              u.ctx.setLineDash([5, 4]);
              u.ctx.beginPath();
              for (const edge of [high, low]) {
                u.ctx.moveTo(left, edge);
                u.ctx.lineTo(left + width, edge);
              }
              u.ctx.stroke();
              u.ctx.restore();
            },
          ],
        },
      },
      [Array.from(times), drawn],
      element,
    );
    plot.current = made;
    const place = () => made.setCursor({ left: made.valToPos(latest.current.tick / TICK_HZ, 'x'), top: 0 }, false);
    place();
    const resize = new ResizeObserver(() => {
      made.setSize({ width: Math.max(120, element.clientWidth), height: Math.max(60, element.clientHeight) });
      place();
    });
    resize.observe(element);
    const pick = (event: MouseEvent) => {
      const left = event.clientX - made.over.getBoundingClientRect().left;
      latest.current.onPick(made.posToVal(left, 'x') * TICK_HZ);
    };
    made.over.addEventListener('click', pick);
    // The hover line goes back to the moment of the replay.
    made.over.addEventListener('mouseleave', place);
    return () => {
      resize.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [spec, times, values, units, theme]);

  useEffect(() => {
    plot.current?.setCursor({ left: plot.current.valToPos(tick / TICK_HZ, 'x'), top: 0 }, false);
  }, [tick]);

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
        {right && <span className="soft">{right}</span>}
      </figcaption>
      <div className="trace-plot" ref={box} />
    </figure>
  );
}
