import { useEffect, useRef } from 'react';
import uPlot from 'uplot';
import type { ShownTheme } from '../app/theme.ts';
import { spokenLanguage } from '../text/language.ts';
import { weekText } from './dates.ts';
import { usePrinting } from './use-printing.ts';

export interface CurvePoint {
  /** Number of the run, or seconds since 1970 where `time` is set. */
  x: number;
  score: number;
  /** Drawn filled: passed. Open: not yet. */
  filled: boolean;
}

export interface CurvePlotProps {
  points: readonly CurvePoint[];
  /** The line through them, one figure a point. */
  line: readonly number[];
  /** A second one, broken: the curve of practice that was fitted to them. */
  fitted?: readonly number[];
  time: boolean;
  theme: ShownTheme;
  /** What it shows, in a sentence. */
  summary: string;
}

const FONT = '11px system-ui, sans-serif';
const POINT_PX = 3.2;
/** Room for a date with its year. */
const NAME_PX = 92;

/** Points that say whether they were passed, whatever the colours. */
function drawPoints(points: readonly CurvePoint[], ink: string, ground: string) {
  return (plot: uPlot) => {
    const { ctx } = plot;
    const ratio = uPlot.pxRatio;
    ctx.save();
    ctx.lineWidth = 1.5 * ratio;
    // The fitted curve was the last to be drawn, and it is broken.
    ctx.setLineDash([]);
    ctx.strokeStyle = ink;
    for (const point of points) {
      ctx.beginPath();
      ctx.arc(plot.valToPos(point.x, 'x', true), plot.valToPos(point.score, 'y', true), POINT_PX * ratio, 0, 2 * Math.PI);
      ctx.fillStyle = point.filled ? ink : ground;
      ctx.fill();
      ctx.stroke();
    }
    ctx.restore();
  };
}

/** Scores over practice, 0 to 100. */
export function CurvePlot({ points, line, fitted, time, theme, summary }: CurvePlotProps) {
  const box = useRef<HTMLDivElement>(null);
  const printing = usePrinting();
  const language = spokenLanguage();
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of theme or language, or going to paper, changes what is read here
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const style = getComputedStyle(element);
    const colour = (name: string) => style.getPropertyValue(name).trim();
    const axis = { stroke: colour('--ink-soft'), font: FONT, ticks: { show: false } };
    const size = () => ({ width: Math.max(120, element.clientWidth), height: Math.max(80, element.clientHeight) });
    const first = points[0]?.x ?? 0;
    const last = points.at(-1)?.x ?? 1;
    const room = Math.max(time ? 43_200 : 0.5, (last - first) * 0.04);
    const plot = new uPlot(
      {
        ...size(),
        legend: { show: false },
        cursor: { show: false },
        scales: { x: { time, range: [first - room, last + room] }, y: { range: [0, 104] } },
        axes: [
          {
            ...axis,
            grid: { show: false },
            size: 28,
            gap: 8,
            ...(time ? {} : { incrs: [1, 2, 5, 10, 20, 50, 100, 200], space: 34 }),
            ...(time
              ? { splits: (plot: uPlot) => someOf(points, plot.width), values: (_: uPlot, at: number[]) => at.map(weekText) }
              : {}),
          },
          {
            ...axis,
            grid: { stroke: colour('--line'), width: 0.7 },
            size: 32,
            gap: 4,
            splits: [0, 50, 100],
            values: (_, marks) => marks.map(String),
          },
        ],
        series: [
          {},
          { stroke: colour('--trace'), width: 2, points: { show: false } },
          { stroke: colour('--ink-soft'), width: 1.5, dash: [5, 4], points: { show: false } },
        ],
        hooks: { draw: [drawPoints(points, colour('--ember'), colour('--sheet-ground'))] },
      },
      [points.map((point) => point.x), [...line], fitted ? [...fitted] : points.map(() => null)],
      element,
    );
    const resize = new ResizeObserver(() => plot.setSize(size()));
    resize.observe(element);
    return () => {
      resize.disconnect();
      plot.destroy();
    };
  }, [points, line, fitted, time, theme, printing, language]);
  return <div className="curve-plot" ref={box} role="img" aria-label={summary} />;
}

/** Places of the points that there is room to name. */
function someOf(points: readonly CurvePoint[], widthPx: number): number[] {
  const every = Math.ceil((points.length * NAME_PX) / Math.max(NAME_PX, widthPx));
  return points.filter((_, at) => at % every === 0).map((point) => point.x);
}
