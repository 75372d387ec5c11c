import type { Drill } from '../../sim-core/index.ts';

export interface PlanPoint {
  xMm: number;
  yMm: number;
}

type Path = Drill['path'];

/** Figures of a drawing keep thousandths of a millimetre. */
export function rounded(value: number): number {
  const round = Math.round(value * 1000) / 1000;
  return round === 0 ? 0 : round;
}

export function pointAtOf(xMm: number, yMm: number): PlanPoint {
  return { xMm: rounded(xMm), yMm: rounded(yMm) };
}

export function apartMm(a: PlanPoint, b: PlanPoint): number {
  return Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
}

export function turned(point: PlanPoint, centre: PlanPoint, byDeg: number): PlanPoint {
  const angle = (byDeg * Math.PI) / 180;
  const dx = point.xMm - centre.xMm;
  const dy = point.yMm - centre.yMm;
  return {
    xMm: centre.xMm + dx * Math.cos(angle) - dy * Math.sin(angle),
    yMm: centre.yMm + dx * Math.sin(angle) + dy * Math.cos(angle),
  };
}

/** Start of the line, then the end of every piece. */
export function jointsOf(path: Path): PlanPoint[] {
  const joints: PlanPoint[] = [path.start];
  for (const segment of path.segments) {
    const from = joints.at(-1) as PlanPoint;
    joints.push(segment.kind === 'line' ? segment.to : turned(from, segment.centre, segment.sweepDeg));
  }
  return joints;
}

/** Length of the line up to each joint, mm. */
export function lengthsOf(path: Path): number[] {
  const joints = jointsOf(path);
  const lengths = [0];
  for (const [n, segment] of path.segments.entries()) {
    const from = joints[n] as PlanPoint;
    const own =
      segment.kind === 'line'
        ? apartMm(from, segment.to)
        : (apartMm(from, segment.centre) * Math.abs(segment.sweepDeg) * Math.PI) / 180;
    lengths.push((lengths[n] as number) + own);
  }
  return lengths;
}

/** Direction of the cut at the end of the line, radians. */
export function headingAtEnd(path: Path): number {
  const joints = jointsOf(path);
  const last = path.segments.at(-1) as Path['segments'][number];
  const [from, to] = [joints.at(-2) as PlanPoint, joints.at(-1) as PlanPoint];
  if (last.kind === 'line') return Math.atan2(to.yMm - from.yMm, to.xMm - from.xMm);
  const out = Math.atan2(to.yMm - last.centre.yMm, to.xMm - last.centre.xMm);
  return out + (last.sweepDeg < 0 ? -Math.PI / 2 : Math.PI / 2);
}
