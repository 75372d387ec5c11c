import { LEVEL_COLOURS, LEVEL_INKS, levelSign, paintLevel } from './level-paint.ts';

/** A place of the cut as the map shows it: the middle of its kerf, plate frame, its length along the cut, and its level. */
export interface MapPlace {
  xMm: number;
  yMm: number;
  headingRad: number;
  lengthMm: number;
  /** Way along the cut of its middle. */
  sMm: number;
  /** A level of level-paint.ts; 0 = nothing to show. */
  level: number;
}

const PIXELS_HIGH = 2048;
/** Half the breadth of the painted band: the kerf, and some mm of metal on either side. */
const HALF_BAND_MM = 6;
const PATTERN_MM = 3;
const LABEL_MM = 4;

/** Figures that stand along the cut: in whole steps of the reader's unit, mm each. */
export interface MapSteps {
  stepMm: number;
  /** How a step is counted: 10 for steps of 10 mm, 1 for inches. */
  count: number;
}

/**
 * The map of a cut as a picture of the plate seen from above: clear but for a band along the kerf. Every step or two stands how far
 * along the cut it is, as in the table, and which level.
 */
export function paintQualityMap(
  lengthMm: number,
  widthMm: number,
  places: readonly MapPlace[],
  { stepMm, count }: MapSteps,
): HTMLCanvasElement {
  const scale = Math.min(10, PIXELS_HIGH / Math.max(lengthMm, widthMm));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(lengthMm * scale);
  canvas.height = Math.round(widthMm * scale);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('The browser gives no 2D canvas to paint the map.');
  // Canvas rows run down, the plate's y runs up.
  context.translate(0, canvas.height);
  context.scale(scale, -scale);
  for (const place of places) if (place.level > 0) paintPlace(context, place);
  // On a long cut the figures stand farther apart: they are as large there, and their ways have more digits.
  const steps = (places.at(-1)?.sMm ?? 0) > 4 * stepMm ? 2 : 1;
  let labelled = 0;
  for (const place of places) {
    if (place.sMm < labelled * steps * stepMm) continue;
    if (place.level > 0) paintLabel(context, place, String(labelled * steps * count));
    labelled += 1;
  }
  return canvas;
}

function paintPlace(context: CanvasRenderingContext2D, place: MapPlace): void {
  context.save();
  context.translate(place.xMm, place.yMm);
  context.rotate(place.headingRad);
  // A hair of overlap closes the seams; the pattern runs on from place to place.
  const from = -place.lengthMm / 2 - 0.05;
  const phase = place.sMm % PATTERN_MM;
  context.beginPath();
  context.rect(from, -HALF_BAND_MM, place.lengthMm + 0.1, 2 * HALF_BAND_MM);
  context.clip();
  paintLevel(context, place.level, -phase - PATTERN_MM, -HALF_BAND_MM, 3 * PATTERN_MM, 2 * HALF_BAND_MM, PATTERN_MM);
  context.restore();
}

/** A tick beside the band with the way along the cut, and the level's number in a field of its colour. */
function paintLabel(context: CanvasRenderingContext2D, place: MapPlace, way: string): void {
  context.save();
  context.translate(place.xMm, place.yMm);
  context.rotate(place.headingRad);
  // At the side where the figures stand upright for someone in front of the plate.
  const upright = Math.cos(place.headingRad) >= 0 ? 1 : -1;
  context.scale(upright, -upright);
  const base = -HALF_BAND_MM;
  context.font = `600 ${LABEL_MM}px system-ui, sans-serif`;
  context.textAlign = 'left';
  context.textBaseline = 'bottom';
  const level = levelSign(place.level);
  const wayWidth = context.measureText(way).width;
  const levelWidth = context.measureText(level).width;
  context.fillStyle = 'rgb(12 16 18 / 0.86)';
  context.fillRect(-0.9, base - LABEL_MM - 0.9, wayWidth + 1.4, LABEL_MM + 0.7);
  context.fillRect(-0.2, base - 0.4, 0.4, HALF_BAND_MM);
  context.fillStyle = '#f4f1e6';
  context.fillText(way, -0.2, base - 0.2);
  const fieldX = wayWidth + 0.5;
  context.fillStyle = LEVEL_COLOURS[place.level - 1] as string;
  context.fillRect(fieldX, base - LABEL_MM - 0.9, levelWidth + 1.2, LABEL_MM + 0.7);
  context.fillStyle = LEVEL_INKS[place.level - 1] as string;
  context.fillText(level, fieldX + 0.6, base - 0.2);
  context.restore();
}
