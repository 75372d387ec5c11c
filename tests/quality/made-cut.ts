import type { PathGeometry } from '../../sim-core/drill/path-geometry.ts';
import type { MetalReader } from '../../sim-core/quality/metal-reader.ts';
import { appendSample, createSample, createSamples } from '../../sim-core/run/samples.ts';
import type { Sample, Samples } from '../../sim-core/run/types.ts';

/** Where the faces of a made-up kerf along the x axis stand at a way along and a depth: left (y) and right, mm; null = no kerf. */
export type MadeKerf = (xMm: number, depthMm: number) => { left: number; right: number } | null;

export const MADE_LINE_MM = 60;

/** A plate that goes on for ever, 60 mm of it of interest, with a kerf whose faces are exactly known; cells hold shares. */
export function madeMetal(thicknessMm: number, kerf: MadeKerf, metalFromX = -100): MetalReader {
  const layers = Math.round(thicknessMm / 0.5);
  const cellMm = 0.25;
  const grid = { cellMm, layers, layerMm: thicknessMm / layers, x0Mm: -100, y0Mm: -100 };
  return {
    grid,
    cutAt(xMm, yMm, depthMm) {
      if (xMm < metalFromX) return 1;
      const faces = kerf(xMm, depthMm);
      if (faces === null) return 0;
      const low = Math.floor((yMm - grid.y0Mm) / cellMm) * cellMm + grid.y0Mm;
      const covered = Math.min(low + cellMm, faces.left) - Math.max(low, faces.right);
      return Math.max(0, covered) / cellMm;
    },
  };
}

/** Samples of a torch that goes along the line at 10 mm/s with the arc on, metal leaving below; changed by `tell`. */
export function madeSamples(geometry: PathGeometry, tell: (sample: Sample, sMm: number) => void = () => undefined): Samples {
  const samples = createSamples();
  for (let sMm = 0; sMm <= geometry.lengthMm; sMm += 10 / 240) {
    const { xMm, yMm, headingRad } = geometry.pointAt(sMm);
    const sample = createSample();
    Object.assign(sample, { xMm, yMm, headingRad, standOffMm: 1.5, speedMmPerS: 10, arcState: 3, arcVoltageV: 120 });
    Object.assign(sample, { sparkAngleDeg: 20, underMm3PerS: 120, throughFraction: 0.3, penetration: 1, conductedW: 1000 });
    tell(sample, sMm);
    appendSample(samples, sample);
  }
  return samples;
}
