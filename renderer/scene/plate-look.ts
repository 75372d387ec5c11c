import {
  CanvasTexture,
  DataTexture,
  type IUniform,
  LinearMipmapNearestFilter,
  NoColorSpace,
  SRGBColorSpace,
  type Texture,
  Vector2,
} from 'three';
import type { PlateField } from './plate-field.ts';

/** What a plate looks like, however it is drawn. */
export interface PlateLook {
  field: PlateField;
  lengthMm: number;
  widthMm: number;
  /** Picture of the upper face. */
  skin: Texture;
  /** Colour of bare cut metal. */
  bareColour: string;
  /** Laid over the upper face and the faces of the cut; null = nothing. */
  map: PlateMap | null;
  /** Between two plates that lie on one another, depth below the upper face. */
  airGap: { fromMm: number; toMm: number } | null;
}

/** Upper face of the plate as a picture: rolled skin and the marked line. */
export function createSkinTexture(canvas: HTMLCanvasElement, lean = false): CanvasTexture {
  const texture = new CanvasTexture(canvas);
  // Drawn lean it stays in the screen's values.
  texture.colorSpace = lean ? NoColorSpace : SRGBColorSpace;
  // Sharp at a slant costs a renderer without a graphics card four times as much.
  texture.anisotropy = lean ? 1 : 4;
  if (lean) texture.minFilter = LinearMipmapNearestFilter;
  return texture;
}

/** A map laid over the upper face and the faces of the cut. It may change while the material stands. */
export interface PlateMap {
  picture: { value: Texture };
}

export function createPlateMap(): PlateMap {
  return { picture: { value: clearPicture() } };
}

/** A picture that is there and shows nothing: a sampler without any would be complained of. */
function clearPicture(): Texture {
  const texture = new DataTexture(new Uint8Array(4), 1, 1);
  texture.needsUpdate = true;
  return texture;
}

/** Shows a picture of the plate as its map, or none. */
export function showOnPlate(map: PlateMap, canvas: HTMLCanvasElement | null): void {
  map.picture.value.dispose();
  map.picture.value = canvas ? createSkinTexture(canvas) : clearPicture();
}

/** Uniforms that every way of drawing the plate has. */
export function plateUniforms({ field, lengthMm, widthMm, skin, map, airGap }: PlateLook): Record<string, IUniform> {
  const { grid } = field;
  return {
    skinMap: { value: skin },
    heatOrigin: { value: new Vector2(grid.x0Mm, grid.y0Mm) },
    heatSpan: {
      value: new Vector2(grid.tilesX * grid.tileCells * grid.cellMm, grid.tilesY * grid.tileCells * grid.cellMm),
    },
    plateSpan: { value: new Vector2(lengthMm, widthMm) },
    // Without a gap: a band of no height, far below.
    airGap: { value: new Vector2(airGap?.fromMm ?? 1e6, airGap?.toMm ?? 1e6) },
    plateMap: map?.picture ?? { value: null },
  };
}
