import { contains, signedAreaMm2 } from '../math/plane.ts';
import type { PointMm } from '../run/types.ts';
import type { PathGeometry } from './path-geometry.ts';
import type { Drill } from './schema.ts';

/** Step in which the line is walked, mm. */
const WALK_MM = 0.5;

/**
 * On which side of the line the part lies, seen in the direction of the cut: 1 = left, -1 = right. A straight edge or template
 * lies on the part. Of a closed outline the lead-in lies in the scrap; without one, or on an open line, the part is what the
 * supports carry: the side with more of them, and the outside of an outline that carries none.
 */
export function partSide(drill: Drill, geometry: PathGeometry): 1 | -1 {
  const { guide, leadInMm, finish } = drill;
  if (guide.kind === 'straight-edge' || guide.kind === 'template') return guide.side === 'left' ? 1 : -1;
  if (finish !== 'close') {
    let balance = 0;
    for (const { xMm, yMm } of drill.plate.supports) {
      const foot = geometry.nearest(xMm, yMm);
      balance += foot.offsetMm > 0 ? 1 : foot.offsetMm < 0 ? -1 : 0;
    }
    return balance < 0 ? -1 : 1;
  }
  const outline = outlinePoints(geometry, leadInMm);
  const inner = signedAreaMm2(outline) > 0 ? 1 : -1;
  if (leadInMm > 0) {
    const start = geometry.pointAt(0);
    return contains(outline, start.xMm, start.yMm) ? (inner === 1 ? -1 : 1) : inner;
  }
  return drill.plate.supports.some((support) => contains(outline, support.xMm, support.yMm)) ? inner : inner === 1 ? -1 : 1;
}

function outlinePoints(geometry: PathGeometry, fromMm: number): PointMm[] {
  const points: PointMm[] = [];
  for (let s = fromMm; s < geometry.lengthMm; s += WALK_MM) points.push(geometry.pointAt(s));
  return points;
}
