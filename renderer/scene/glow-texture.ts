import { DataTexture, LinearFilter, RGBAFormat, UnsignedByteType, type Vector4 } from 'three';
import { glowRampBytes } from './glow-ramp.ts';
import { toScreen } from './lean-colour.ts';
import type { PlateField } from './plate-field.ts';

/** How strongly metal glows beside the light that falls on it: for the eye. */
export const GLOW_STRENGTH = 1.25;

/** Glow of the whole plate already in the screen's values: for a renderer to which every look into a picture is dear. */
export function createGlowTexture(field: PlateField): DataTexture {
  const { heat, heatWidth, heatHeight } = field;
  const texture = new DataTexture(new Uint8Array(heat.length * 4), heatWidth, heatHeight, RGBAFormat, UnsignedByteType);
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearFilter;
  return texture;
}

let texels: Uint32Array | null = null;

/** Colour of each byte of heat as one texel. */
function glowTexels(): Uint32Array {
  texels ??= new Uint32Array(glowRampBytes().map((byte) => Math.round(255 * toScreen((byte / 255) * GLOW_STRENGTH))).buffer);
  return texels;
}

/** Brings the glow up to the heat of the field, and `hotBox` to what glows: plate frame, mm, low x and y, high x and y. */
export function paintGlow(texture: DataTexture, field: PlateField, hotBox: Vector4): void {
  const { heat, heatWidth, heatHeight, grid } = field;
  const colours = glowTexels();
  const into = new Uint32Array((texture.image.data as Uint8Array).buffer);
  const cold = colours[0] as number;
  let [lowX, lowY, highX, highY] = [heatWidth, heatHeight, -1, -1];
  for (let row = 0, n = 0; row < heatHeight; row += 1) {
    for (let column = 0; column < heatWidth; column += 1, n += 1) {
      const colour = colours[heat[n] as number] as number;
      into[n] = colour;
      if (colour === cold) continue;
      if (column < lowX) lowX = column;
      if (column > highX) highX = column;
      if (row < lowY) lowY = row;
      if (row > highY) highY = row;
    }
  }
  const mm = (grid.tileCells * grid.cellMm) / grid.heatCellsPerTile;
  // One heat cell more on every side: between two the glow fades.
  const x = (column: number) => grid.x0Mm + column * mm;
  const y = (row: number) => grid.y0Mm + row * mm;
  hotBox.set(x(lowX - 1), y(lowY - 1), x(highX + 2), y(highY + 2));
  texture.needsUpdate = true;
}
