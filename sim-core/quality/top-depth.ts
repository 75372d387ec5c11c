import type { MetalReader } from './metal-reader.ts';

/** Depth of the open space below a place of the top surface down to the first metal, mm. */
export function topDepthMm(metal: MetalReader, xMm: number, yMm: number): number {
  const { layers, layerMm } = metal.grid;
  let depth = 0;
  for (let k = 0; k < layers; k++) {
    const gone = metal.cutAt(xMm, yMm, (k + 0.5) * layerMm);
    depth += gone * layerMm;
    if (gone < 0.999) return depth;
  }
  return depth;
}
