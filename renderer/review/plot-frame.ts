import uPlot from 'uplot';
import { significantText } from '../ui/number-text.ts';
import type { TraceSpec } from './trace-specs.ts';

/** Least size of a plot, px. */
const LEAST_WIDTH = 120;
const LEAST_HEIGHT = 56;
const FONT = '11px system-ui, sans-serif';
const AXIS_LABEL_PX = 16;
/** Steps of the upright axis. Three and four as well: a low plot about zero has room for three labels, and none of 1, 2, 5 may fit. */
const AXIS_STEPS = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 3, 4, 5, 10, 20, 30, 40, 50, 100, 200, 300, 400, 500, 1000];
/** A value this much above its span no longer moves the axis. */
const MOST_SPANS = 3;
const AXIS_DIGITS = 5;

/** Figures of an axis, as the language writes them. */
const figures = (_: uPlot, values: number[]) => values.map((value) => significantText(value, AXIS_DIGITS));

export interface PlotLine {
  /** Name of a colour of the theme. */
  colour: '--trace' | '--ember';
  width: number;
  dash?: number[];
  values: readonly (number | null)[];
}

export interface PlotFrameOptions {
  spec: TraceSpec;
  /** The reader's unit over the core's. */
  valueFactor: number;
  axis: readonly number[];
  lines: readonly PlotLine[];
  /** Where on the axis the marker stands. */
  point(): number;
  onPick(point: number): void;
}

export interface PlotFrame {
  /** Puts the marker where it belongs now. */
  place(): void;
  close(): void;
}

/** A plot of a trace with its band, as wide and high as its element, in the colours of the theme; a click goes to a point of its axis. */
export function createPlotFrame(element: HTMLElement, options: PlotFrameOptions): PlotFrame {
  const { spec, valueFactor, axis, lines, point, onPick } = options;
  const style = getComputedStyle(element);
  const colour = (name: string) => style.getPropertyValue(name).trim();
  const size = () => ({
    width: Math.max(LEAST_WIDTH, element.clientWidth),
    height: Math.max(LEAST_HEIGHT, element.clientHeight),
  });
  const [least, most] = [spec.span[0] * valueFactor, spec.span[1] * valueFactor];
  const made = new uPlot(
    {
      ...size(),
      legend: { show: false },
      cursor: { y: false, points: { show: false }, drag: { setScale: false, x: false, y: false } },
      scales: {
        x: { time: false },
        y: { range: (_, low, high) => [Math.min(least, low ?? 0), Math.max(most, Math.min(high ?? 0, most * MOST_SPANS))] },
      },
      axes: [
        {
          stroke: colour('--ink-soft'),
          grid: { show: false },
          ticks: { stroke: colour('--line'), size: 3 },
          values: figures,
          size: 20,
          gap: 1,
          font: FONT,
        },
        {
          stroke: colour('--ink-soft'),
          grid: { stroke: colour('--line'), width: 0.5 },
          ticks: { show: false },
          values: figures,
          size: 34,
          gap: 3,
          font: FONT,
          space: AXIS_LABEL_PX,
          incrs: AXIS_STEPS,
        },
      ],
      series: [
        {},
        ...lines.map((line) => ({
          stroke: colour(line.colour),
          width: line.width,
          ...(line.dash ? { dash: line.dash } : {}),
          spanGaps: false,
          points: { show: false },
        })),
      ],
      hooks: { drawClear: [(u) => drawBand(u, spec.band, valueFactor, colour)] },
    },
    [[...axis], ...lines.map(({ values }) => [...values])],
    element,
  );
  // The run may end a few ticks after the last point of its trace; beyond the edge the marker would not be drawn.
  const place = () => made.setCursor({ left: Math.min(made.valToPos(point(), 'x'), made.over.clientWidth), top: 0 }, false);
  place();
  const resize = new ResizeObserver(() => {
    made.setSize(size());
    place();
  });
  resize.observe(element);
  made.over.addEventListener('click', (event) => {
    onPick(made.posToVal(event.clientX - made.over.getBoundingClientRect().left, 'x'));
  });
  // The hover line goes back to where the marker belongs.
  made.over.addEventListener('mouseleave', place);
  return {
    place,
    close() {
      resize.disconnect();
      made.destroy();
    },
  };
}

function drawBand(u: uPlot, band: TraceSpec['band'], factor: number, colour: (name: string) => string): void {
  if (!band) return;
  const { left, width, top, height } = u.bbox;
  const y = (value: number | null, edge: number) => (value === null ? edge : u.valToPos(value * factor, 'y', true));
  const high = Math.max(top, y(band.high, top));
  const low = Math.min(top + height, y(band.low, top + height));
  u.ctx.save();
  u.ctx.fillStyle = colour('--trace-band');
  u.ctx.fillRect(left, high, width, low - high);
  u.ctx.strokeStyle = colour('--trace-band-line');
  u.ctx.setLineDash([5, 4]);
  u.ctx.beginPath();
  for (const edge of [high, low]) {
    u.ctx.moveTo(left, edge);
    u.ctx.lineTo(left + width, edge);
  }
  u.ctx.stroke();
  u.ctx.restore();
}
