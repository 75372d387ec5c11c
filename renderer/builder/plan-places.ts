import type { ClampSpot, Drill } from '../../sim-core/index.ts';
import { isClosed, moveCentre, moveJoint, removeJoint } from './move-line.ts';
import { jointsOf, type PlanPoint, pointAtOf } from './path-joints.ts';

/** Something on the plan that can be taken hold of. */
export interface PlanPlace extends PlanPoint {
  /** `joint-0`, `centre-1`, `support-0`, `clamp-0`, `opening-0-2` (second figure: corner). */
  id: string;
  kind: 'start' | 'corner' | 'end' | 'centre' | 'support' | 'clamp' | 'opening';
  /** 1 for the first of its kind. */
  number: number;
}

/** How far beside the plate anything can be put, mm. */
export const BESIDE_MM = 60;
const MOST_SUPPORTS = 16;
const MOST_CLAMPS = 8;
const MOST_OPENINGS = 16;
const NEW_OPENING_MM = { long: 24, wide: 16 };

/** Every place of the plan, in the order in which the keyboard comes to them. */
export function placesOf(drill: Drill): PlanPlace[] {
  const joints = jointsOf(drill.path);
  const last = joints.length - 1;
  const places: PlanPlace[] = [];
  for (const [n, joint] of joints.entries()) {
    if (n === last && isClosed(drill)) continue;
    places.push({ id: `joint-${n}`, kind: n === 0 ? 'start' : n === last ? 'end' : 'corner', number: n, ...joint });
  }
  for (const [n, segment] of drill.path.segments.entries()) {
    if (segment.kind === 'arc') places.push({ id: `centre-${n}`, kind: 'centre', number: n + 1, ...segment.centre });
  }
  for (const [n, outline] of drill.plate.cutouts.entries()) {
    for (const [corner, point] of outline.entries())
      places.push({ id: `opening-${n}-${corner}`, kind: 'opening', number: n + 1, ...point });
  }
  for (const [n, support] of drill.plate.supports.entries())
    places.push({ id: `support-${n}`, kind: 'support', number: n + 1, ...support });
  for (const [n, spot] of drill.rig.clampSpots.entries()) {
    places.push({ id: `clamp-${n}`, kind: 'clamp', number: n + 1, xMm: spot.xMm, yMm: spot.yMm });
  }
  return places;
}

function partsOf(id: string): { kind: string; n: number; corner: number } {
  const [kind = '', n = '0', corner = '0'] = id.split('-');
  return { kind, n: Number(n), corner: Number(corner) };
}

/** The place on the plan, or the nearest one that can be. */
export function heldToPlan(drill: Drill, at: PlanPoint): PlanPoint {
  const hold = (value: number, high: number) => Math.min(high + BESIDE_MM, Math.max(-BESIDE_MM, value));
  return pointAtOf(hold(at.xMm, drill.plate.lengthMm), hold(at.yMm, drill.plate.widthMm));
}

export function movePlace(drill: Drill, id: string, wanted: PlanPoint): Drill {
  const { kind, n, corner } = partsOf(id);
  const to = heldToPlan(drill, wanted);
  const { plate, rig } = drill;
  if (kind === 'joint') return moveJoint(drill, n, to);
  if (kind === 'centre') return moveCentre(drill, n, to);
  if (kind === 'support') return { ...drill, plate: { ...plate, supports: plate.supports.with(n, to) } };
  if (kind === 'clamp') {
    const spot = rig.clampSpots[n] as ClampSpot;
    return { ...drill, rig: { ...rig, clampSpots: rig.clampSpots.with(n, { ...spot, ...to }) } };
  }
  const outline = plate.cutouts[n];
  return outline ? { ...drill, plate: { ...plate, cutouts: plate.cutouts.with(n, outline.with(corner, to)) } } : drill;
}

/** The drill without a place. What has to be there (the one line, the one clamp spot) stays. */
export function removePlace(drill: Drill, id: string): Drill {
  const { kind, n } = partsOf(id);
  const { plate, rig } = drill;
  if (kind === 'joint') return removeJoint(drill, n);
  if (kind === 'centre') return removeJoint(drill, n + 1);
  if (kind === 'support') return { ...drill, plate: { ...plate, supports: plate.supports.toSpliced(n, 1) } };
  if (kind === 'opening') return { ...drill, plate: { ...plate, cutouts: plate.cutouts.toSpliced(n, 1) } };
  if (rig.clampSpots.length < 2) return drill;
  return { ...drill, rig: { ...rig, clampSpots: rig.clampSpots.toSpliced(n, 1) } };
}

export function addSupport(drill: Drill, at: PlanPoint): Drill {
  const { plate } = drill;
  if (plate.supports.length >= MOST_SUPPORTS) return drill;
  return { ...drill, plate: { ...plate, supports: [...plate.supports, pointAtOf(at.xMm, at.yMm)] } };
}

/** A clamp spot on bare metal that stays; the form says what else it may be. */
export function addClamp(drill: Drill, at: PlanPoint): Drill {
  const { rig } = drill;
  if (rig.clampSpots.length >= MOST_CLAMPS) return drill;
  const taken = rig.clampSpots.map((spot) => spot.id);
  let number = taken.length + 1;
  while (taken.includes(`spot-${number}`)) number += 1;
  const spot: ClampSpot = { id: `spot-${number}`, ...heldToPlan(drill, at), surface: 'bare', onDrop: false };
  return { ...drill, rig: { ...rig, clampSpots: [...rig.clampSpots, spot] } };
}

/** A four-sided hole in the plate, there before the cut, about a place. */
export function addOpening(drill: Drill, at: PlanPoint): Drill {
  const { plate } = drill;
  if (plate.cutouts.length >= MOST_OPENINGS) return drill;
  const { long, wide } = NEW_OPENING_MM;
  const middle = (value: number, half: number, high: number) => Math.min(high - half, Math.max(half, value));
  const x = middle(at.xMm, long / 2, plate.lengthMm);
  const y = middle(at.yMm, wide / 2, plate.widthMm);
  const corners = [
    pointAtOf(x - long / 2, y - wide / 2),
    pointAtOf(x + long / 2, y - wide / 2),
    pointAtOf(x + long / 2, y + wide / 2),
    pointAtOf(x - long / 2, y + wide / 2),
  ];
  return { ...drill, plate: { ...plate, cutouts: [...plate.cutouts, corners] } };
}
