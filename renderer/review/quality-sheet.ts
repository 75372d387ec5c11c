import { type CutFaces, type Drill, type KerfQuality, type PathGeometry, pathGeometry } from '../../sim-core/index.ts';
import { levelSign, paintLevel, UNCUT_MARK } from '../scene/level-paint.ts';
import { say } from '../text/say.ts';
import type { UnitSystem } from '../ui/units.ts';
import { besideLine, type PlatePoint } from './measure/cut-places.ts';
import type { QualityFigure } from './quality-figures.ts';
import { qualityMap } from './quality-map.ts';

/** Size of the sheet, px: twice as wide as high, as there is room for on paper. */
const WIDTH = 1120;
const HEIGHT = 560;
const MARGIN = 14;
const KEY_WIDTH = 400;
/** Metal shown beside the line, mm. */
const BESIDE_MM = 14;
const INK = '#1b2422';

/** The quality map on paper: the stretch of plate that the cut is in, with the kerf as it came out and what the levels mean. */
export function qualitySheet(drill: Drill, quality: KerfQuality, figure: QualityFigure, units: UnitSystem): HTMLCanvasElement {
  const sheet = document.createElement('canvas');
  sheet.width = WIDTH;
  sheet.height = HEIGHT;
  const context = sheet.getContext('2d');
  if (context === null) throw new Error('The browser gives no 2D canvas to paint the map.');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, WIDTH, HEIGHT);
  paintPlate(context, drill, quality, qualityMap(drill, quality, figure, units));
  paintKey(context, figure, units);
  return sheet;
}

function paintPlate(context: CanvasRenderingContext2D, drill: Drill, quality: KerfQuality, map: HTMLCanvasElement): void {
  const { lengthMm, widthMm } = drill.plate;
  const line = pathGeometry(drill.path);
  const xs = quality.perMm.map(({ xMm }) => xMm);
  const ys = quality.perMm.map(({ yMm }) => yMm);
  const low = { x: Math.max(0, Math.min(...xs) - BESIDE_MM), y: Math.max(0, Math.min(...ys) - BESIDE_MM) };
  const high = { x: Math.min(lengthMm, Math.max(...xs) + BESIDE_MM), y: Math.min(widthMm, Math.max(...ys) + BESIDE_MM) };
  const room = { width: WIDTH - KEY_WIDTH - 3 * MARGIN, height: HEIGHT - 2 * MARGIN };
  const scale = Math.min(room.width / (high.x - low.x), room.height / (high.y - low.y));
  const size = { width: (high.x - low.x) * scale, height: (high.y - low.y) * scale };
  const left = MARGIN + (room.width - size.width) / 2;
  const top = MARGIN + (room.height - size.height) / 2;
  context.fillStyle = '#cdd2d1';
  context.fillRect(left, top, size.width, size.height);
  const perMm = map.width / lengthMm;
  context.save();
  context.beginPath();
  context.rect(left, top, size.width, size.height);
  context.clip();
  // The map's rows run down from the far edge of the plate.
  const source = [low.x * perMm, (widthMm - high.y) * perMm, (high.x - low.x) * perMm, (high.y - low.y) * perMm] as const;
  context.drawImage(map, ...source, left, top, size.width, size.height);
  paintKerf(context, line, quality.faces, ({ xMm, yMm }) => [left + (xMm - low.x) * scale, top + (high.y - yMm) * scale]);
  context.restore();
  context.strokeStyle = INK;
  context.lineWidth = 2;
  context.strokeRect(left, top, size.width, size.height);
}

/** The opening on the top surface, section by section. */
function paintKerf(
  context: CanvasRenderingContext2D,
  line: PathGeometry,
  { leftMm, rightMm, layers, stepMm, depthMm }: CutFaces,
  place: (point: PlatePoint) => [number, number],
): void {
  context.fillStyle = INK;
  for (let n = 0; n < depthMm.length; n++) {
    const edges = [leftMm[n * layers], rightMm[n * layers]] as [number, number];
    if (edges.some(Number.isNaN)) continue;
    const corners = [
      besideLine(line, n * stepMm, edges[0]),
      besideLine(line, (n + 1) * stepMm, edges[0]),
      besideLine(line, (n + 1) * stepMm, edges[1]),
      besideLine(line, n * stepMm, edges[1]),
    ];
    context.beginPath();
    for (const corner of corners) context.lineTo(...place(corner));
    context.fill();
  }
}

function paintKey(context: CanvasRenderingContext2D, figure: QualityFigure, units: UnitSystem): void {
  const left = WIDTH - KEY_WIDTH - MARGIN;
  const rows = figure.legend(units).map((words, index) => ({ level: index + 1, words }));
  if (figure.marksUncut) rows.push({ level: UNCUT_MARK, words: say('quality.not-through') });
  context.fillStyle = INK;
  context.textBaseline = 'middle';
  context.font = '600 34px system-ui, sans-serif';
  context.fillText(say(`quality.figure.${figure.id}`), left, MARGIN + 20, KEY_WIDTH);
  context.font = '29px system-ui, sans-serif';
  for (const [n, { level, words }] of rows.entries()) {
    const top = MARGIN + 56 + n * 76;
    paintLevel(context, level, left, top, 66, 44, 22);
    context.strokeStyle = INK;
    context.lineWidth = 1.5;
    context.strokeRect(left, top, 66, 44);
    context.fillStyle = INK;
    context.fillText(`${levelSign(level)}  ${words}`, left + 80, top + 23, KEY_WIDTH - 80);
  }
}
