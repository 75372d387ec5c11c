import { GREY, INK, LINE, type PdfPage, SHADE, STEEL } from './pdf-page.ts';
import type { ReportTrace } from './report.ts';

/** Points drawn at most: two for each slice of time, its lowest and its highest value, so that no peak is lost. */
const SLICES = 220;
const LABEL = { size: 6.5, colour: GREY };

/** Draws one trace with its band into a box of that size, pt. */
export function drawTrace(page: PdfPage, trace: ReportTrace, x: number, y: number, width: number, height: number): void {
  const plot = { x: x + 24, y: y + 13, width: width - 26, height: height - 24 };
  const [low, high] = rangeOf(trace);
  const placeY = (value: number) => plot.y + plot.height * (1 - (Math.min(Math.max(value, low), high) - low) / (high - low));
  const placeX = (index: number) => plot.x + (plot.width * index) / Math.max(1, trace.values.length - 1);
  page.text(`${trace.name}, ${trace.unit}`, x, y + 7, { size: 7.5, bold: true });
  if (trace.low !== null || trace.high !== null) {
    const top = placeY(trace.high ?? high);
    const bottom = placeY(trace.low ?? low);
    page.box(plot.x, top, plot.width, bottom - top, SHADE);
    for (const end of [trace.low, trace.high])
      if (end !== null) page.line(plot.x, placeY(end), plot.x + plot.width, placeY(end), GREY, 0.4);
    page.text(bandText(trace), x + width - 2, y + 7, { ...LABEL, align: 'right' });
  }
  page.box(plot.x, plot.y, plot.width, plot.height, null, LINE);
  for (const value of [low, high]) page.text(shown(value), plot.x - 3, placeY(value) + 2.5, { ...LABEL, align: 'right' });
  page.curve(pointsOf(trace.values, placeX, placeY), STEEL, 0.7);
  const base = plot.y + plot.height + 8;
  page.text(`${shown(trace.fromS)} s`, plot.x, base, LABEL);
  page.text(`${shown(trace.fromS + (trace.values.length - 1) / trace.hz)} s`, plot.x + plot.width, base, {
    ...LABEL,
    align: 'right',
  });
}

/** What the axis covers: the band, and all but the outermost hundredth of the values at each end. */
function rangeOf({ values, low, high }: ReportTrace): [number, number] {
  const sorted = values.filter(Number.isFinite).sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))];
  const known = [low, high, ...(sorted.length > 0 ? [at(0.01), at(0.99)] : [])].filter((value) => value !== null);
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (!Number.isFinite(least)) return [0, 1];
  const margin = Math.max((most - least) * 0.08, Math.abs(most) * 0.02, 0.01);
  const step = 10 ** Math.floor(Math.log10(most - least + 2 * margin)) / 2;
  const start = least >= 0 ? Math.max(0, least - margin) : least - margin;
  return [Math.floor(start / step) * step, Math.ceil((most + margin) / step) * step];
}

function pointsOf(values: Float32Array, placeX: (index: number) => number, placeY: (value: number) => number) {
  const points: ([number, number] | null)[] = [];
  const slice = Math.max(1, values.length / SLICES);
  for (let from = 0; from < values.length; from += slice) {
    const first = Math.floor(from);
    const end = Math.max(first + 1, Math.min(values.length, Math.floor(from + slice)));
    let least = -1;
    let most = -1;
    for (let index = first; index < end; index++) {
      if (!Number.isFinite(values[index])) continue;
      if (least === -1 || values[index] < values[least]) least = index;
      if (most === -1 || values[index] > values[most]) most = index;
    }
    if (least === -1) points.push(null);
    else
      for (const index of least === most ? [least] : [least, most].sort((a, b) => a - b))
        points.push([placeX(index), placeY(values[index])]);
  }
  return points;
}

function bandText({ low, high, unit }: ReportTrace): string {
  if (low === null) return `right: up to ${shown(high ?? 0)} ${unit}`;
  return high === null ? `right: from ${shown(low)} ${unit}` : `right: ${shown(low)} to ${shown(high)} ${unit}`;
}

/** Three significant digits at most. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** A bar from 0 to 100 with a line where it must reach. */
export function drawMarkBar(
  page: PdfPage,
  mark: number,
  mustReach: number | null,
  x: number,
  y: number,
  width: number,
  height: number,
): void {
  page.box(x, y, width, height, SHADE);
  page.box(x, y, (width * Math.min(100, Math.max(0, mark))) / 100, height, STEEL);
  if (mustReach !== null)
    page.line(x + (width * mustReach) / 100, y - 1.5, x + (width * mustReach) / 100, y + height + 1.5, INK, 1);
}
