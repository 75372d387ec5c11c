import { type Drill, pathGeometry } from '../../sim-core/index.ts';

const STEP_MM = 1;

/** The line of a drill as points close enough together to draw, plate frame. */
export function markedLine(drill: Drill): { xMm: number; yMm: number }[] {
  const geometry = pathGeometry(drill.path);
  const steps = Math.max(1, Math.ceil(geometry.lengthMm / STEP_MM));
  return Array.from({ length: steps + 1 }, (_, n) => {
    const { xMm, yMm } = geometry.pointAt((geometry.lengthMm * n) / steps);
    return { xMm, yMm };
  });
}
