import { type Drill, type PathGeometry, pathGeometry, type RigChoices, rightChoices, SHIELDS } from '../../sim-core/index.ts';

/** The guide of a drill as the scene shows it. */
export interface GuideShape {
  kind: 'straight-edge' | 'template' | 'circle';
  /** Radius of the torch's front, which slides along it, mm. */
  frontRadiusMm: number;
  /** Edge that the front slides along and the far edge, point by point, plate frame; empty for a circle arm. */
  edge: { xMm: number; yMm: number }[];
  back: { xMm: number; yMm: number }[];
  /** Where the pin of a circle arm stands. */
  pin: { xMm: number; yMm: number } | null;
}

const STEP_MM = 2;
/** A straight edge is a bar of this width; a template, which has to go round turns, a narrower one. */
const WIDTH_MM = { 'straight-edge': 16, template: 7 } as const;
/** A straight edge is longer than the line at both ends. */
const OVERHANG_MM = 24;

function beside(geometry: PathGeometry, sMm: number, leftMm: number): { xMm: number; yMm: number } {
  const { xMm, yMm, headingRad } = geometry.pointAt(sMm);
  return { xMm: xMm - Math.sin(headingRad) * leftMm, yMm: yMm + Math.cos(headingRad) * leftMm };
}

/** Middle of the arc that the arm swings about: a lead-in may be an arc too, of another radius. */
function pinOf(drill: Drill, radiusMm: number): { xMm: number; yMm: number } | null {
  const geometry = pathGeometry(drill.path);
  const starts = [0, ...geometry.jointsMm];
  for (const [n, segment] of drill.path.segments.entries()) {
    if (segment.kind !== 'arc') continue;
    const start = geometry.pointAt(starts[n] ?? 0);
    const radius = Math.hypot(start.xMm - segment.centre.xMm, start.yMm - segment.centre.yMm);
    if (Math.abs(radius - radiusMm) < 0.01) return segment.centre;
  }
  return null;
}

/** The guide as the trainee has set it; null where the drill has none, or it was left off. */
export function guideShape(drill: Drill, choices: RigChoices | null): GuideShape | null {
  const { guide } = drill;
  const { guideOffsetMm, shield } = choices ?? rightChoices(drill);
  if (guide.kind === 'freehand' || guideOffsetMm === null) return null;
  const frontRadiusMm = SHIELDS[shield].frontRadiusMm;
  if (guide.kind === 'circle') {
    return { kind: 'circle', frontRadiusMm, edge: [], back: [], pin: pinOf(drill, guide.radiusMm) };
  }
  const geometry = pathGeometry(drill.path);
  const sign = guide.side === 'left' ? 1 : -1;
  const overhang = guide.kind === 'straight-edge' ? OVERHANG_MM : 0;
  const count = Math.ceil((geometry.lengthMm + 2 * overhang) / STEP_MM);
  const places = Array.from({ length: count + 1 }, (_, n) => ((geometry.lengthMm + 2 * overhang) * n) / count - overhang);
  const line = (offsetMm: number) => places.map((sMm) => beside(geometry, sMm, sign * offsetMm));
  return {
    kind: guide.kind,
    frontRadiusMm,
    edge: line(guideOffsetMm),
    back: line(guideOffsetMm + WIDTH_MM[guide.kind]),
    pin: null,
  };
}
