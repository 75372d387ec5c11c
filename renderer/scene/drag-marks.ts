import { DataTexture, LinearSRGBColorSpace, NearestFilter, RGBAFormat, UnsignedByteType } from 'three';
import type { TrailPlace } from './cut-trail.ts';

/** Texels of the picture in which the plate keeps how the front stood, mm. */
const TEXEL_MM = 1;
/** How far to either side of its middle a cut marks the plate, mm: to the walls of any kerf. */
const REACH_MM = 3.5;
/** The way is kept modulo this, mm; the spacing of the lines divides it. */
export const WAY_MM = 16;
export const DRAG_HIGH_MM = 16;
/** Lines are this far apart, mm: a choice for the eye. */
export const LINE_SPACING_MM = 0.8;

/** A picture of the plate: direction of travel (r, g), drag (b) and way along the cut (a) where it was cut last. */
export function createDragMarks(lengthMm: number, widthMm: number): DataTexture {
  const columns = Math.ceil(lengthMm / TEXEL_MM);
  const rows = Math.ceil(widthMm / TEXEL_MM);
  const texture = new DataTexture(new Uint8Array(columns * rows * 4), columns, rows, RGBAFormat, UnsignedByteType);
  texture.magFilter = NearestFilter;
  texture.minFilter = NearestFilter;
  texture.colorSpace = LinearSRGBColorSpace;
  texture.needsUpdate = true;
  return texture;
}

/** Marks one place of the cut and what lies beside it; each texel is told for its own middle. */
export function markDrag(texture: DataTexture, place: TrailPlace): void {
  const { width, height, data } = texture.image as { width: number; height: number; data: Uint8Array };
  const [hx, hy] = [Math.cos(place.headingRad), Math.sin(place.headingRad)];
  const reach = Math.ceil(REACH_MM / TEXEL_MM);
  const column0 = Math.floor(place.xMm / TEXEL_MM);
  const row0 = Math.floor(place.yMm / TEXEL_MM);
  for (let row = Math.max(0, row0 - reach); row <= Math.min(height - 1, row0 + reach); row += 1) {
    for (let column = Math.max(0, column0 - reach); column <= Math.min(width - 1, column0 + reach); column += 1) {
      const dx = (column + 0.5) * TEXEL_MM - place.xMm;
      const dy = (row + 0.5) * TEXEL_MM - place.yMm;
      const along = dx * hx + dy * hy;
      if (Math.abs(along) > TEXEL_MM || Math.abs(dx * hy - dy * hx) > REACH_MM) continue;
      const way = (((place.sMm + along) % WAY_MM) + WAY_MM) % WAY_MM;
      const at = (row * width + column) * 4;
      data[at] = Math.round(127.5 + 127.5 * hx);
      data[at + 1] = Math.round(127.5 + 127.5 * hy);
      data[at + 2] = Math.round(Math.min(1, Math.max(0, place.dragMm / DRAG_HIGH_MM)) * 254) + 1;
      data[at + 3] = Math.floor((way / WAY_MM) * 256);
    }
  }
  texture.needsUpdate = true;
}

/**
 * Lines on the walls: each is the front as it once stood. The front lags its top by the drag at the bottom, and its slope grows with
 * depth, so a line is a parabola over depth. Where nothing was cut (b = 0) there is none.
 */
export const DRAG_LINES = `
if (abs(vUp) < 0.5) {
  vec2 marksSize = plateSpan / ${TEXEL_MM.toFixed(1)};
  vec4 marks = texture2D(dragMarks, vPlate.xy / plateSpan);
  if (marks.b > 0.0) {
    vec2 heading = marks.rg * 2.0 - 1.0;
    vec2 texelMiddle = (floor(vPlate.xy / plateSpan * marksSize) + 0.5) * ${TEXEL_MM.toFixed(1)};
    float depthShare = clamp(-vPlate.z / plateThickness, 0.0, 1.0);
    float dragMm = (marks.b * 255.0 - 1.0) / 254.0 * ${DRAG_HIGH_MM.toFixed(1)};
    float way = marks.a * 255.0 / 256.0 * ${WAY_MM.toFixed(1)} + dot(vPlate.xy - texelMiddle, heading) + dragMm * depthShare * depthShare;
    float line = abs(fract(way / ${LINE_SPACING_MM.toFixed(1)}) - 0.5) * 2.0;
    // Fainter where they are finer than a pixel.
    float clear = 1.0 - smoothstep(0.25, 0.6, fwidth(way) / ${LINE_SPACING_MM.toFixed(1)});
    diffuseColor.rgb *= mix(1.0, 0.55 + 0.65 * smoothstep(0.0, 0.55, line), clear * (0.35 + 0.65 * depthShare));
  }
}
`;
