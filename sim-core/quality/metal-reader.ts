import type { FieldGrid, Simulation } from '../run/types.ts';

/** The metal after a run, as far as its quality is read from it: a simulation's, or a stored state's. */
export interface MetalReader {
  readonly grid: Readonly<Pick<FieldGrid, 'cellMm' | 'layers' | 'layerMm' | 'x0Mm' | 'y0Mm'>>;
  /** Share of metal gone at a place, 0 to 1, with fallen pieces where they were cut; 1 outside the plate. */
  cutAt(xMm: number, yMm: number, depthMm: number): number;
}

/** Share gone between the middles of the four cells around a place, linear in both directions: a face moves without steps. */
export function goneBetween(reader: MetalReader, xMm: number, yMm: number, depthMm: number): number {
  const { cellMm, x0Mm, y0Mm } = reader.grid;
  const fx = (xMm - x0Mm) / cellMm - 0.5;
  const fy = (yMm - y0Mm) / cellMm - 0.5;
  const wx = fx - (fx | 0);
  const wy = fy - (fy | 0);
  if (!(fx > 0 && fy > 0)) return 1;
  const west = xMm - wx * cellMm;
  const south = yMm - wy * cellMm;
  const low = (1 - wx) * reader.cutAt(west, south, depthMm) + wx * reader.cutAt(west + cellMm, south, depthMm);
  const high = (1 - wx) * reader.cutAt(west, south + cellMm, depthMm) + wx * reader.cutAt(west + cellMm, south + cellMm, depthMm);
  return (1 - wy) * low + wy * high;
}

/** The metal of a simulation as it is now. */
export function metalOf(simulation: Pick<Simulation, 'grid' | 'cutAt'>): MetalReader {
  return { grid: simulation.grid, cutAt: (xMm, yMm, depthMm) => simulation.cutAt(xMm, yMm, depthMm) };
}
